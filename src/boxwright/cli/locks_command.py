"""`boxwright locks`: the lock book, what each lock is set to and what to try on a lost one."""

from __future__ import annotations

from pathlib import Path

import click

from boxwright.cli.options import json_option, ledger_option, option
from boxwright.messages import words
from boxwright.problems import Problem, Where, refuse, say


@click.command("locks", help=words(say("locks.help")))
@click.argument("tag", required=False)
@option("--kit", about="locks.kit", type=click.Path(path_type=Path))
@option("--set", "set_to", metavar="CODE", about="locks.set")
@option("--for", "game", metavar="GAME", about="locks.for")
@option("--checked", is_flag=True, about="locks.checked")
@option("--lost", is_flag=True, about="locks.lost")
@option("--found", metavar="CODE", about="locks.found")
@option("--battery", is_flag=True, about="locks.battery")
@ledger_option()
@json_option()
def command(
    *,
    tag: str | None,
    kit: Path | None,
    set_to: str | None,
    game: str | None,
    checked: bool,
    lost: bool,
    found: str | None,
    battery: bool,
    ledger: str | None,
    as_json: bool,
) -> int:
    """Write into the lock book what was done, if anything, and show what it holds."""
    from boxwright.cli.lock_book import Act, every_lock, one_lock
    from boxwright.cli.report import envelope
    from boxwright.ledger.lock_book import LockEventType
    from boxwright.ledger.store import Ledger

    given: dict[LockEventType, str | bool | None] = {
        "lock.set": set_to,
        "lock.found": found,
        "lock.checked": checked,
        "lock.lost": lost,
        "lock.battery": battery,
    }
    acts = [name for name, value in given.items() if value not in (None, False)]
    if len(acts) > 1 or (game is not None and set_to is None):
        refuse(Problem.of("locks.one-act", Where("locks")))
    if acts and tag is None:
        refuse(Problem.of("locks.which", Where("TAG")))
    act = Act(acts[0], set_to or found, game) if acts else None
    with Ledger(ledger) as book:
        shown = every_lock(book, kit) if tag is None else one_lock(book, kit, tag, act)
    click.echo(envelope("locks", True, shown.json) if as_json else shown.text())
    return 0

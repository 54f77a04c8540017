"""`boxwright lock`: ask one lock what it can show, and what it withstands."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import click

from boxwright.cli.lock_sections import (
    Asked,
    Section,
    about,
    guessing,
    handling,
    lost,
    showing,
    word_list,
)
from boxwright.cli.report import envelope
from boxwright.game.mechanisms import Device, device_of, parse_lock
from boxwright.game.model import LockMake
from boxwright.game.one_lock import lock_of_kit, read_kit
from boxwright.messages import words
from boxwright.problems import Problem, Where, refuse, say

CANNOT_SHOW = 1
WORDS = "20"
TRIES = "40"
COUNT = click.IntRange(1)


def _help(option: str) -> str:
    return words(say(f"lock.help-{option}"))


@click.command("lock", help=_help("lock"), epilog=_help("epilog"))
@click.argument("lock", required=False)
@click.option("--kit", type=click.Path(path_type=Path, dir_okay=False), help=_help("kit"))
@click.option("--tag", help=_help("tag"))
@click.option("--code", help=_help("code"))
@click.option(
    "--words",
    "word_count",
    is_flag=False,
    flag_value=WORDS,
    type=click.IntRange(1),
    help=_help("words"),
)
@click.option("--list", "own_list", type=click.Path(path_type=Path), help=_help("list"))
@click.option("--language", default="en", show_default=True, help=_help("language"))
@click.option("--guess", is_flag=True, help=_help("guess"))
@click.option("--try", "try_s", type=click.FloatRange(0.1, 3600), help=_help("try"))
@click.option("--length", type=click.IntRange(1, 99), help=_help("length"))
@click.option(
    "--lost",
    "lost_count",
    is_flag=False,
    flag_value=TRIES,
    type=click.IntRange(1),
    help=_help("lost"),
)
@click.option("--set", "setting", is_flag=True, help=_help("set"))
@click.option("--json", "as_json", is_flag=True, help=_help("json"))
def command(
    *,
    lock: str | None,
    kit: Path | None,
    tag: str | None,
    code: str | None,
    word_count: int | None,
    own_list: Path | None,
    language: str,
    guess: bool,
    try_s: float | None,
    length: int | None,
    lost_count: int | None,
    setting: bool,
    as_json: bool,
) -> int:
    """Answer what is asked of one lock; 1 if it cannot show the code."""
    asked = Asked(
        *_lock_of(lock, kit, tag),
        code_text=code,
        length=length,
        try_s=None if try_s is None else Fraction(str(try_s)),
        language=language,
        own_list=own_list,
    )
    asks_words = word_count is not None or own_list is not None
    sections = [about(asked)]
    if code is not None:
        sections.append(showing(asked))
    can_show = sections[-1].ok
    if guess:
        sections.append(guessing(asked))
    if asks_words:
        sections.append(word_list(asked, int(WORDS) if word_count is None else word_count))
    if lost_count is not None and can_show:
        sections.append(lost(asked, lost_count))
    if setting and can_show:
        sections.append(handling(asked))
    return _print(sections, as_json)


def _print(sections: list[Section], as_json: bool) -> int:
    ok = all(section.ok for section in sections)
    if as_json:
        click.echo(envelope("lock", ok, {section.name: section.json for section in sections}))
    else:
        click.echo("\n\n".join(section.text() for section in sections))
    return 0 if ok else CANNOT_SHOW


def _lock_of(lock: str | None, kit: Path | None, tag: str | None) -> tuple[LockMake, Device]:
    if lock is not None and kit is None:
        where = Where("LOCK")
        made = parse_lock(lock, where)
        return made, device_of(made, where)
    if kit is None or lock is not None:
        refuse(Problem.of("lock.which", Where("LOCK")))
    file, found = read_kit(kit)
    return lock_of_kit(file, found, tag, Where("--tag"))

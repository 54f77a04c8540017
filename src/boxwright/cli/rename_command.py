"""`boxwright rename GAME OLD NEW`: another id for a thing, wherever it is used."""

from __future__ import annotations

from pathlib import Path

import click

from boxwright.cli.report import tell
from boxwright.messages import words
from boxwright.problems import Problem, refuse, say


@click.command("rename", help=words(say("rename.help")))
@click.argument("game", type=click.Path(path_type=Path))
@click.argument("old")
@click.argument("new")
def command(game: Path, old: str, new: str) -> None:
    """Rename a thing, and show each line that changed."""
    from boxwright.cli.which_game import refuse_unless_game
    from boxwright.game.rename import rename

    refuse_unless_game(game)
    outcome = rename(game, old, new)
    problems = tuple(one for one in outcome if isinstance(one, Problem))
    if problems:
        refuse(*problems)
    for change in outcome:
        if not isinstance(change, Problem):
            click.echo(words(say("rename.line", line=change.line, text=change.after)))
    tell(say("rename.done", old=old, new=new, n=len(outcome)))

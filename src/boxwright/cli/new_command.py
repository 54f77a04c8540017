"""`boxwright new DIR`: start a game folder with all its files."""

from __future__ import annotations

from pathlib import Path

import click

from boxwright.cli.options import Ages
from boxwright.cli.report import tell
from boxwright.messages import typed, words
from boxwright.problems import refuse, say


@click.command("new", help=words(say("new.help")))
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--title", help=words(say("new.option.title")))
@click.option("--ages", help=words(say("new.option.ages")), type=Ages(), metavar="9-11")
def command(folder: Path, title: str | None, ages: tuple[int, int] | None) -> None:
    """Write a new game folder."""
    from boxwright.game.start import start

    problem = start(folder, title, ages)
    if problem is not None:
        refuse(problem)
    tell(say("new.done", folder=str(folder), command=typed("check", folder)))

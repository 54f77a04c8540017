"""`boxwright new DIR`: start a game folder with all its files."""

from __future__ import annotations

import re
from pathlib import Path

import click

from boxwright.cli.report import tell
from boxwright.messages import words
from boxwright.problems import Problem, Where, refuse, say

_AGES = re.compile(r"\s*(\d{1,3})\s*(?:[-–]\s*(\d{1,3})\s*)?")


def read_ages(text: str) -> tuple[int, int]:
    """Return `9-11` as (9, 11) and `9` as (9, 9); Refused where it is neither."""
    match = _AGES.fullmatch(text)
    if match is None:
        refuse(Problem.of("new.ages-form", Where("--ages"), text=text[:40]))
    return int(match[1]), int(match[2] or match[1])


@click.command("new", help=words(say("new.help")))
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--title", help=words(say("new.option.title")))
@click.option("--ages", help=words(say("new.option.ages")), metavar="9-11")
def command(folder: Path, title: str | None, ages: str | None) -> None:
    """Write a new game folder."""
    from boxwright.game.start import start

    problem = start(folder, title, read_ages(ages) if ages is not None else None)
    if problem is not None:
        refuse(problem)
    tell(say("new.done", folder=str(folder)))

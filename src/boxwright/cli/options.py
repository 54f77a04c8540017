"""Options and arguments that several commands share, and what they mean."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import click

from boxwright.messages import words
from boxwright.problems import Problem, Where, refuse, say

LEVELS = ("easier", "ordinary", "harder", "hardest")
PAPERS = ("a4", "us-letter")
SIZES = ("12", "14", "18")

F = TypeVar("F", bound=Callable[..., Any])


def option(name: str, *more: str, about: str | None = None, **how: Any) -> Callable[[F], F]:
    """Return a Click option whose help stands in the catalogue under `option.NAME`."""
    message = about or f"option.{name.removeprefix('--')}"
    return click.option(name, *more, help=words(say(message)), **how)


def several(*decorators: Callable[[F], F]) -> Callable[[F], F]:
    """Return one decorator that applies `decorators`, the first outermost."""

    def apply(function: F) -> F:
        for decorator in reversed(decorators):
            function = decorator(function)
        return function

    return apply


def json_option() -> Callable[[F], F]:
    """Return the option `--json`."""
    return option("--json", "as_json", is_flag=True)


def shelf_options() -> Callable[[F], F]:
    """Return the options that name another kit or room than those in the folder."""
    file = click.Path(path_type=Path, dir_okay=False)
    return several(option("--kit", type=file), option("--room", type=file))


def look_options() -> Callable[[F], F]:
    """Return the options for paper and size."""
    return several(
        option("--paper", type=click.Choice(PAPERS), default="a4", show_default=True),
        option("--size", type=click.Choice(SIZES)),
    )


def size_for(chosen: str | None, ages: tuple[int, int]) -> Any:
    """Return the size of the running text in points: as chosen, else by the youngest."""
    if chosen is not None:
        return int(chosen)
    return 14 if ages[0] <= 9 else 12


def clue_versions(pairs: tuple[str, ...]) -> dict[str, str]:
    """Return `--clue clue=version` wishes as a mapping; raises Refused for another form."""
    found = {}
    for pair in pairs:
        clue, equals, version = pair.partition("=")
        if not (clue and equals and version):
            refuse(Problem.of("option.clue-form", Where("--clue"), text=pair[:60]))
        found[clue.strip()] = version.strip()
    return found

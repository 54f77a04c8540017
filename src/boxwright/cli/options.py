"""Options and arguments that several commands share, and what they mean."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, TypeVar

import click

from boxwright.messages import words
from boxwright.problems import Problem, Where, refuse, say
from boxwright.text import nearest

LEVELS = ("easier", "ordinary", "harder", "hardest")
PAPERS = ("a4", "us-letter")
SIZES = ("12", "14", "18")

_AGES = re.compile(r"\s*(\d{1,3})\s*(?:[-–]\s*(\d{1,3})\s*)?")

F = TypeVar("F", bound=Callable[..., Any])


class OneOf(click.Choice[str]):
    """One of a few words, in capitals or not; another one is told with the nearest of them."""

    def __init__(self, choices: Sequence[str]) -> None:
        """Take the words, in the order in which people read them."""
        super().__init__(choices, case_sensitive=False)

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """Return the word that is meant; raises Refused where it is none."""
        return _chosen(str(value), tuple(self.choices), Where(_name(param)))


def _chosen(text: str, choices: tuple[str, ...], where: Where) -> str:
    found = text.strip().lower()
    if found not in choices:
        near = nearest(found, choices)
        code = "option.no-choice" if near is None else "option.no-choice-but"
        refuse(Problem.of(code, where, found=text[:60], near=near or "", choices=choices))
    return found


class Ages(click.ParamType[tuple[int, int]]):
    """Ages as people write them: `9-11`, or `9` for (9, 9)."""

    name = "ages"

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> tuple[int, int]:
        """Return the youngest and the oldest; raises Refused where it says no ages."""
        match = _AGES.fullmatch(str(value))
        if match is None:
            where = Where(_name(param))
            refuse(Problem.of("option.ages-form", where, text=str(value)[:40], option=_name(param)))
        return int(match[1]), int(match[2] or match[1])


class Language(click.ParamType[str]):
    """A language's short form (BCP 47): `en`, `pt-BR`."""

    name = "language"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """Return it as it is; raises Refused where it is no short form of a language."""
        from boxwright.game.model import LANGUAGE_PATTERN

        if re.fullmatch(LANGUAGE_PATTERN, str(value)) is None:
            refuse(Problem.of("option.language-form", Where(_name(param)), text=str(value)[:40]))
        return str(value)


def _name(param: click.Parameter | None) -> str:
    """Return how an option is typed."""
    return max(param.opts, key=len) if param is not None else ""


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


def ledger_option() -> Callable[[F], F]:
    """Return the option `--ledger`: a file's name, or a database's URL."""
    return option("--ledger", metavar="FILE|URL")


def shelf_options() -> Callable[[F], F]:
    """Return the options that name another kit or room than those in the folder."""
    file = click.Path(path_type=Path)
    return several(option("--kit", type=file), option("--room", type=file))


def look_options() -> Callable[[F], F]:
    """Return the options for paper and size."""
    return several(
        option("--paper", type=OneOf(PAPERS), default="a4", show_default=True),
        option("--size", type=OneOf(SIZES)),
    )


def points(size: str | None) -> Any:
    """Return a size of the running text that was chosen, as a number; None where none was."""
    return None if size is None else int(size)


def clue_versions(pairs: tuple[str, ...]) -> dict[str, str]:
    """Return `--clue clue=version` wishes as a mapping; raises Refused for another form."""
    return _named("clue", pairs)


def group_levels(pairs: tuple[str, ...]) -> Any:
    """Return `--level-of group=level` wishes as a mapping; raises Refused for another form."""
    named = _named("level-of", pairs)
    return {group: _chosen(level, LEVELS, Where("--level-of")) for group, level in named.items()}


def _named(name: str, pairs: tuple[str, ...]) -> dict[str, str]:
    found = {}
    for pair in pairs:
        key, value = (part.strip() for part in f"{pair}=".split("=", 2)[:2])
        if not (key and value):
            refuse(Problem.of(f"option.{name}-form", Where(f"--{name}"), text=pair[:60]))
        found[key] = value
    return found

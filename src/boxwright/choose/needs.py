"""What a kind needs before it can make a sheet: tables of its sort, choices that it wants made."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from boxwright.choose.sheets import read_options
from boxwright.content.lesson import ALSO
from boxwright.content.tables import Content
from boxwright.dice import Dice
from boxwright.problems import Problem, Where
from boxwright.puzzles.contract import Answer, Facts, Given, Kind

HERE = Where("")


def content_for(facts: Facts, content: Content) -> Content:
    """Return those of the teacher's tables that a kind can draw on."""
    tables = {
        need.table: content.tables[need.table]
        for need in facts.content
        if need.table in content.tables
        and set(need.columns) <= set(content.tables[need.table].columns)
    }
    return Content(tables)


def files_for(facts: Facts, contents: Mapping[str, Content]) -> tuple[str, ...]:
    """Return those of the teacher's files, each read as what sheets can draw on, that serve."""
    return tuple(name for name, one in contents.items() if content_for(facts, one).tables)


def tables_that_serve(facts: Facts) -> tuple[str, ...]:
    """Return what sorts of table a kind can draw on."""
    return tuple(one for need in facts.content for one in (need.table, *ALSO.get(need.table, ())))


def options_for(
    name: str,
    kind: Kind,
    answer: Answer,
    given: Given,
    dice: Dice,
    wished: Mapping[str, Any] | None = None,
) -> tuple[Mapping[str, Any], Problem | None]:
    """Return options with which a kind can make it, or the problem that it has as wished.

    Where those `wished` will not do, one choice more is made of those that it leaves.
    """
    mine = wished or {}
    first = _refusal(kind, mine, answer, given)
    if first is None:
        return mine, None
    for more in dice.child("options", name).shuffled(list(_choices(kind))):
        if _refusal(kind, {**mine, **more}, answer, given) is None:
            return {**mine, **more}, None
    return mine, first


def _refusal(
    kind: Kind, options: Mapping[str, Any], answer: Answer, given: Given
) -> Problem | None:
    return kind.refuse(answer, read_options(kind, options, lambda path: HERE), given)


def _choices(kind: Kind) -> Iterator[dict[str, Any]]:
    """Yield every choice that a kind leaves, one option at a time."""
    for name, field in kind.Options.model_json_schema().get("properties", {}).items():
        ways = [field, *field.get("anyOf", ())]
        yield from ({name: value} for way in ways for value in way.get("enum", ()))

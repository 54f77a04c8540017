"""What commands ask for is limited in every direction, and described for those who ask."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from boxwright.game.commands import COMMANDS
from tests.game.commands.conftest import Player

FREE = {"value", "options"}
"""Fields that hold anything; they are held to a limit by other means."""


def endless(node: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    """Yield the path of each text or list in a schema that has no end."""
    if isinstance(node, list):
        for inner in node:
            yield from endless(inner, path)
    if not isinstance(node, dict):
        return
    is_text = node.get("type") == "string" and not {"enum", "const"} & node.keys()
    bounded = (
        "maxLength" in node
        or "{0,39}" in node.get("pattern", "")
        or "{1,3}" in node.get("pattern", "")
        or node.get("format") == "binary"
    )
    if is_text and not bounded:
        yield path
    if node.get("type") == "array" and "maxItems" not in node:
        yield path
    for key, inner in node.items():
        yield from endless(inner, (*path, key))


@pytest.mark.parametrize("name", COMMANDS)
def test_every_text_and_list_has_an_end(name: str) -> None:
    schema = COMMANDS[name].asks.model_json_schema()
    assert schema["additionalProperties"] is False
    assert [path for path in endless(schema) if not FREE & set(path)] == []


@pytest.mark.parametrize(
    "value",
    ["x" * 4001, ["x"] * 201, {"a": {"b": {"c": {"d": {"e": {"f": {"g": 1}}}}}}}, {"x" * 4001: 1}],
)
def test_what_may_be_anything_has_an_end_too(play: Player, value: Any) -> None:
    problem = play.refused("thing.set", id="safe", field="inside_mm", value=value)
    assert problem.where.path[:1] == ("value",)
    problem = play.refused(
        "version.change", clue="sheaves", version="daylight", options={"a": value}
    )
    assert problem.where.path[:1] == ("options",)


@pytest.mark.parametrize("name", COMMANDS)
def test_a_command_bears_its_own_name_and_knows_nothing_else(play: Player, name: str) -> None:
    assert COMMANDS[name].name == name
    problem = play.refused(name, unheard_of=1)
    assert problem.where.file == name

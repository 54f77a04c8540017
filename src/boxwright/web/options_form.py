"""A kind's options as fields of a form, from the JSON Schema of its `Options`.

Titles, help and choices stand in the kind's own catalogue: `KIND.option-NAME`,
`KIND.option-NAME-help`, `KIND.option-NAME-VALUE`. A kind whose catalogue has none of them
still gets its form, with the names from its code.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from boxwright.problems import say
from boxwright.puzzles.contract import PICTURES
from boxwright.puzzles.shelf import kind
from boxwright.web.render import told

Sort = Literal["choice", "several", "tick", "number", "text", "lines"]
Choices = tuple[tuple[str, str], ...]
ANY = frozenset({"auto", "none"})  # what stands for no wish, whatever the option


@dataclass(frozen=True, slots=True)
class Field:
    """One option: how it is asked for, what it may be, and what it is now.

    `default` is what it is when nothing is chosen; `choices` are (value, words).
    """

    name: str
    sort: Sort
    label: str
    help: str
    value: Any
    default: Any
    choices: Choices = ()
    least: int | None = None
    most: int | None = None

    @property
    def lines(self) -> str:
        """A list's members, each on a line of its own."""
        return "\n".join(self.value) if isinstance(self.value, list | tuple) else ""


def fields(name: str, values: Mapping[str, Any], pictures: Iterable[str] = ()) -> list[Field]:
    """Return the fields for the options of the kind `name`, filled with `values`.

    `pictures` are the names of the teacher's own, of which some options may name some.
    """
    named = tuple((one, one) for one in pictures)
    return [_field(name, option, schema, values, named) for option, schema in _schema(name).items()]


@cache
def _schema(name: str) -> Mapping[str, Any]:
    found: Mapping[str, Any] = kind(name).Options.model_json_schema().get("properties", {})
    return found


def _field(
    name: str, option: str, schema: Mapping[str, Any], values: Mapping[str, Any], pictures: Choices
) -> Field:
    shape = _shape(schema)
    spoken = f"{name}.option-{option.replace('_', '-')}"
    default, of_pictures = schema.get("default"), schema.items() >= PICTURES.items()
    return Field(
        name=option,
        sort=_picture_sort(shape) if of_pictures else _sort(shape),
        label=_words(spoken) or option.replace("_", " "),
        help=_words(f"{spoken}-help"),
        value=values.get(option, default),
        default=default,
        choices=pictures if of_pictures else tuple(_choices(spoken, shape)),
        least=shape.get("minimum"),
        most=shape.get("maximum"),
    )


def _shape(schema: Mapping[str, Any]) -> Mapping[str, Any]:
    """Return the schema without the way out of having no value."""
    ways = [one for one in schema.get("anyOf", ()) if one.get("type") != "null"]
    return ways[0] if ways else schema


def _sort(shape: Mapping[str, Any]) -> Sort:
    if "enum" in shape:
        return "choice"
    sorts: Mapping[str, Sort] = {
        "boolean": "tick",
        "integer": "number",
        "number": "number",
        "array": "lines",
    }
    return sorts.get(shape.get("type", ""), "text")


def _picture_sort(shape: Mapping[str, Any]) -> Sort:
    return "several" if shape.get("type") == "array" else "choice"


def _choices(spoken: str, shape: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    for value in shape.get("enum", ()):
        own = _words(f"{spoken}-{value}")
        yield value, own or (_words(f"page-clues.choice-{value}") if value in ANY else value)


def _words(id: str) -> str:
    """Return the words of a message; empty where no catalogue has it."""
    found = told(say(id))
    return "" if found == id else found

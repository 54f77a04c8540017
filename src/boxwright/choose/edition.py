"""An edition: a game made concrete for the groups that share its codes and its ways.

It keeps the sheets as they were made, so that last year's print-outs come out again;
the seed serves only to make new ones. `edition_json` and `edition_from_json` go to the
file and back; the id follows from all the rest.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any

from pydantic import ConfigDict, TypeAdapter
from pydantic.dataclasses import dataclass as checked

from boxwright import __version__
from boxwright.choose.marks import Mark, Triple
from boxwright.game.arranged import ArrangedGame
from boxwright.game.mechanisms import Code
from boxwright.game.model import FORMAT
from boxwright.text import content_id

_STRICT = ConfigDict(extra="forbid")


@checked(frozen=True, slots=True, config=_STRICT)
class EditionSheet:
    """The sheet of one clue: JSON of what is printed and what is known, and where parts lie."""

    kind: str
    mark: Triple
    throw: int
    sheet: Mapping[str, Any]
    knows: Mapping[str, Any]
    parts: Mapping[str, str]


@checked(frozen=True, slots=True, config=_STRICT)
class Edition:
    """One printed set; ids of the game lead to places, codes, sheets and each group's stickers."""

    seed: int
    set: str
    groups: tuple[str, ...]
    printing: Triple
    game: ArrangedGame
    chosen: Mapping[str, str]
    stickers: Mapping[str, Mapping[str, str]]
    places: Mapping[str, str]
    codes: Mapping[str, Code]
    sheets: Mapping[str, EditionSheet]
    format: int = FORMAT
    boxwright: str = __version__
    id: str = ""

    def mark(self, clue: str) -> Mark:
        """Return the signs in the foot of a clue's sheets."""
        return Mark(self.printing, self.sheets[clue].mark)


@lru_cache(maxsize=1)
def _adapter() -> TypeAdapter[Edition]:
    return TypeAdapter(Edition)


def edition_json(edition: Edition) -> dict[str, Any]:
    """Return `edition` as JSON values."""
    value: dict[str, Any] = _adapter().dump_python(edition, mode="json")
    return value


def edition_from_json(value: Any) -> Edition:
    """Return the edition that `edition_json` gave; pydantic.ValidationError otherwise."""
    return _adapter().validate_python(value)


def named(edition: Edition) -> Edition:
    """Return `edition` under the name that follows from its content."""
    value = edition_json(edition)
    del value["id"]
    return replace(edition, id=content_id(value))

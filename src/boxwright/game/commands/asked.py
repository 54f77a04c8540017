"""What commands ask for: frozen, strictly typed, and limited in every direction.

What a page or a script sends may be anything. Whether it makes a sound game is judged on
the whole game afterwards; here it is only held to what a game's file could hold at all.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, StringConstraints

from boxwright.game.model import (
    Count,
    Facility,
    Id,
    Level,
    MechanismName,
    Millimetres,
    Setting,
    Text,
)

MOST_MEMBERS = 200
DEEPEST = 6
LONGEST = 4000

Wish = Annotated[str, StringConstraints(min_length=1, max_length=60)]
Place = Wish | Annotated[tuple[Wish, ...], Field(min_length=1, max_length=20)]
"""Where a thing goes: a box, a place, `any TAG`, `table`, `start`; or several, in order."""
Short = Annotated[str, StringConstraints(max_length=200)]
FileName = Annotated[str, StringConstraints(min_length=1, max_length=120)]
Code = Annotated[str, StringConstraints(max_length=2000)]
Size = tuple[Millimetres, Millimetres, Millimetres]
Ids = Annotated[tuple[Id, ...], Field(max_length=40)]
Face = Annotated[str, StringConstraints(min_length=1, max_length=60)]
Faces = Annotated[tuple[Face, ...], Field(max_length=200)]


def _limited(value: Any, depth: int = 0) -> Any:
    """Return `value`; ValueError where it is deeper, longer or larger than any game needs."""
    if isinstance(value, Mapping):
        inner: list[Any] = [*value.keys(), *value.values()]
    else:
        inner = list(value) if isinstance(value, list | tuple) else []
    if depth > DEEPEST or len(inner) > MOST_MEMBERS:
        raise ValueError("too deep or too many")
    if isinstance(value, str):
        value.encode()  # a half of a sign is none: UnicodeEncodeError is a ValueError
        if len(value) > LONGEST:
            raise ValueError("too long")
    for one in inner:
        _limited(one, depth + 1)
    return value


Value = Annotated[Any, AfterValidator(_limited)]
"""Anything that a field of a game may hold."""


class Asked(BaseModel):
    """What one command asks for."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, defer_build=True)


class ShapeAsked(Asked):
    """What a lock's codes can be."""

    wheels: Annotated[int, Field(ge=1, le=10)] | None = None
    faces: Code | Faces | Annotated[tuple[Faces, ...], Field(max_length=20)] | None = None
    length: tuple[Count, Count] | None = None
    moves: Annotated[int, Field(ge=4, le=8)] | None = None
    numbers: Annotated[int, Field(ge=2, le=200)] | None = None
    tolerance: Annotated[int, Field(ge=0, le=5)] | None = None
    keys: Code | Faces | None = None
    order_matters: bool | None = None


class WayAsked(Asked):
    """One way to do a clue, but for its kind."""

    level: Level | None = None
    content: FileName | Annotated[dict[Id, FileName], Field(max_length=20)] | None = None
    options: Annotated[dict[Short, Any], AfterValidator(_limited)] | None = None
    place: Place | None = None
    parts: Annotated[dict[Id, Place], Field(max_length=20)] | None = None
    on: Id | None = None
    hints: tuple[Text, Text, Text] | None = None
    written_on: bool | None = None
    rooms: Annotated[tuple[Setting, ...], Field(max_length=20)] | None = None
    facilities: Annotated[tuple[Facility, ...], Field(max_length=20)] | None = None
    needs: Ids | None = None
    adds: Ids | None = None
    drops: Ids | None = None
    moves: Annotated[dict[Id, Id], Field(max_length=40)] | None = None


Mechanism = MechanismName


def given(asked: Asked, *without: str) -> dict[str, Any]:
    """Return what was given of `asked` as a file is to hold it; None where it is to go."""
    values = asked.model_dump(exclude_unset=True, by_alias=True, exclude=set(without))
    return {key: filed(value) for key, value in values.items()}


def held(asked: Asked, *without: str) -> dict[str, Any]:
    """Return what was given of `asked`, without what is None."""
    return {key: value for key, value in given(asked, *without).items() if value is not None}


def filed(value: Any) -> Any:
    """Return `value` as TOML reads it: lists for tuples, whole numbers without a point.

    What is None inside of it is left out.
    """
    if isinstance(value, Mapping):
        return {key: filed(inner) for key, inner in value.items() if inner is not None}
    if isinstance(value, list | tuple):
        return [filed(inner) for inner in value]
    return int(value) if isinstance(value, float) and value.is_integer() else value

"""A game folder's files as far as they could be read: what the checks of names work on.

A faulty part is cut out and the rest is still looked at, so that a teacher hears of all
faults at once. Names come from the raw files: a box with a wrong size is still a box.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from copy import deepcopy
from dataclasses import field
from pathlib import Path as File
from typing import Any, Literal, TypeVar

from pydantic import BaseModel, ValidationError

from boxwright.frozen import frozen_value
from boxwright.game.faults import problems_of
from boxwright.game.model import ID_PATTERN, GameFile, KitFile, RoomFile
from boxwright.game.toml_file import TomlFile
from boxwright.game.union_faults import frozen
from boxwright.problems import Path, Problem, Where

GAME, KIT, ROOM = "game.toml", "kit.toml", "room.toml"
Sort = Literal["box", "lock", "item", "clue", "place", "unsure"]
SECTIONS: Mapping[str, Sort] = {"boxes": "box", "locks": "lock", "items": "item", "clues": "clue"}

M = TypeVar("M", bound=BaseModel)

_STAND_INS: Mapping[str, Any] = {
    "format": 1,
    "game": {"id": "x", "title": "x", "ages": (9, 11)},
    "kit": {"id": "x", "name": "x"},
    "room": {"id": "x", "name": "x"},
}
_ROUNDS = 6


@frozen_value
class Draft:
    """What could be read; `files` by role: game.toml, kit.toml, room.toml."""

    path: File
    game: GameFile
    kit: KitFile | None
    room: RoomFile | None
    files: Mapping[str, TomlFile]
    sorts: Mapping[str, Sort] = field(default_factory=dict)

    def where(self, file: str, path: Path) -> Where:
        """Return the place of `path` in the file of that role."""
        return self.files[file].where(path)

    def raw(self, file: str, *path: str) -> Mapping[str, Any]:
        """Return the table at `path` of a file as it stands; an empty one where there is none."""
        table: Any = self.files[file].data if file in self.files else {}
        for step in path:
            table = table.get(step) if isinstance(table, Mapping) else None
        return table if isinstance(table, Mapping) else {}

    def named(self, *sorts: Sort) -> tuple[str, ...]:
        """Return the ids of things of these sorts that are fit to be named."""
        return tuple(
            id for id, sort in self.sorts.items() if sort in sorts and re.fullmatch(ID_PATTERN, id)
        )


Extra = Callable[[Draft], Iterator[Problem]]
"""A check of another unit, run with the checks of names: codes, kinds, content."""


def read_part(file: TomlFile, model: type[M]) -> tuple[M | None, list[Problem]]:
    """Return what of `file` fits `model`, and a Problem for each part that does not.

    None where even the rest makes no file of that sort.
    """
    data = frozen(file.data)
    try:
        return model.model_validate(data), []
    except ValidationError as error:
        return _rest(data, model, error), problems_of(error, file, model)


def _rest(data: dict[str, Any], model: type[M], error: ValidationError) -> M | None:
    """Cut out faulty parts until what is left is valid."""
    data = deepcopy(data)
    for _ in range(_ROUNDS):
        for item in error.errors(include_url=False, include_context=False):
            _cut(data, _unit(tuple(item["loc"])))
        data |= {key: _STAND_INS[key] for key in _required(model) if key not in data}
        try:
            return model.model_validate(data)
        except ValidationError as again:
            error = again
    return None


def _required(model: type[BaseModel]) -> list[str]:
    return [name for name, info in model.model_fields.items() if info.is_required()]


def _unit(location: Path) -> Path:
    """Return the smallest part that can be left out without harm to the others."""
    if location[0] == "clues" and len(location) > 3 and location[2] == "versions":
        return location[:4]
    return location[:1] if location[0] in _STAND_INS else location[:2]


def _cut(data: Any, path: Path) -> None:
    *way, last = path
    for step in way:
        if not isinstance(data, dict) or step not in data:
            return
        data = data[step]
    if isinstance(data, dict):
        data.pop(last, None)


def sorts_of(game: Mapping[str, Any], room: Mapping[str, Any]) -> dict[str, Sort]:
    """Return what each id of the raw game and room files is; the first use counts.

    Members of a table whose own name is not known may be anything.
    """
    found: dict[str, Sort] = {}
    for section, things in game.items():
        sort = SECTIONS.get(section)
        if isinstance(things, Mapping) and (sort or section not in GameFile.model_fields):
            for id in things:
                found.setdefault(id, sort or "unsure")
    places = room.get("places")
    for id in places if isinstance(places, Mapping) else ():
        found.setdefault(id, "place")
    return found

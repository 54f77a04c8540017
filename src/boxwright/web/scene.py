"""A game as the shelf of boxes shows it: what lies where, what it is called, where it may go.

Worked out from the files and the wishes alone, so that it stands before any sheet is made.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from boxwright.game.arrange import arrange
from boxwright.game.arranged import Arranged, ArrangedGame
from boxwright.game.choosing import Wishes
from boxwright.game.compared import Compared, compared
from boxwright.game.folder import Folder
from boxwright.game.mechanisms import Code, Device, device_of
from boxwright.game.model import START, TABLE
from boxwright.game.nesting import NOWHERE, Nesting, Packed, Spot, as_played, as_written
from boxwright.game.targets import Mover, mover, size_of, targets, way_of
from boxwright.game.telling import name_of
from boxwright.game.ties import Tie, ties
from boxwright.problems import Message, Problem, say
from boxwright.web.game import Game
from boxwright.web.render import told

SORTS: Mapping[str, str] = {"boxes": "box", "locks": "lock", "items": "item", "clues": "clue"}
SPOTS: Mapping[str, str] = {START: "start", TABLE: "table", NOWHERE: "nowhere"}
EVERYTHING = "box small sheet"  # not read by people


@dataclass(frozen=True)
class Scene:
    """A game's things under the wishes of an address; `bars` is why it cannot be so played."""

    folder: Folder
    play: ArrangedGame | None
    bars: tuple[Problem, ...]
    compared: Compared | None

    @cached_property
    def nesting(self) -> Nesting:
        """What lies in what."""
        if self.play is None:
            return as_written(self.folder)
        return as_played(self.folder, self.play)

    def sort(self, id: str) -> str:
        """Return whether `id` is a box, a lock, an item, a clue, or a spot."""
        game = self.folder.game
        return next((sort for name, sort in SORTS.items() if id in getattr(game, name)), "spot")

    def thing(self, id: str) -> Any:
        """Return the thing `id` as its file has it; None for a spot."""
        game = self.folder.game
        return next((things[id] for name in SORTS if id in (things := getattr(game, name))), None)

    def knows(self, id: str) -> bool:
        """Tell whether there is a thing or a spot `id`."""
        return self.thing(id) is not None or any(spot.id == id for spot in self.nesting.spots)

    def name(self, id: str) -> str:
        """Return what a thing or a spot is called where it is named in a sentence."""
        sort = self.sort(id)
        if sort in ("lock", "clue"):
            return told(say(f"page-boxes.named-{sort}", id=id))
        return (
            told(say(f"page-boxes.spot-{SPOTS[id]}")) if id in SPOTS else name_of(self.folder, id)
        )

    def called(self, id: str) -> str:
        """Return what anything that a finding names is called: things, parts, places, else `id`."""
        clue, _, part = id.partition("/")
        if part and self.thing(clue) is not None:
            code = "page-boxes.sheet-of" if part == "sheet" else "page-boxes.part-of"
            return told(say(code, part=self.part(part), clue=clue))
        return self.name(id)

    def way(self, clue: str) -> str:
        """Return the way in which a clue is made now."""
        return way_of(self.folder, self.play, clue)

    def kind(self, clue: str) -> str:
        """Return the kind of puzzle that a clue is now."""
        return self.folder.game.clues[clue].versions[self.way(clue)].kind

    def ties(self, id: str) -> tuple[Tie, ...]:
        """Return what a thing hangs together with."""
        return () if self.play is None else ties(self.play, id)

    def targets(self, id: str) -> tuple[str, ...]:
        """Return where a thing may be put."""
        return targets(self.folder, self.nesting, id)

    def mover(self, id: str, part: str = "") -> Mover:
        """Return how a thing is put elsewhere."""
        return mover(self.folder, self.play, id, part)

    def moves(self, id: str, part: str = "") -> str:
        """Return how a thing is put elsewhere, as a page's script reads it."""
        one = self.mover(id, part)
        return json.dumps({"do": one.command, "args": one.args, "at": one.at})

    def size(self, id: str) -> str:
        """Return what a place must hold for a thing to be put there."""
        return size_of(self.folder, id)

    def holds(self, spot: str) -> str:
        """Return the sizes that may be put at a spot."""
        room = self.folder.room
        place = room.places.get(spot) if room is not None else None
        return EVERYTHING if place is None else " ".join(place.holds)

    def places(self, id: str) -> tuple[tuple[str, str], ...]:
        """Return where a thing is now: each part of it, and its place."""
        lock = self.folder.game.locks.get(id)
        if lock is not None:
            on = self.play.locks[id].closes if self.play and id in self.play.locks else lock.closes
            return (("", on),)
        found = (one.thing for one in self.nesting if one.thing.id == id)
        return tuple((one.part, one.place) for one in found)

    def drawing(self, lock: str) -> dict[str, Any]:
        """Return how a lock is drawn as the game wants it, its code unset."""
        where = self.folder.where("game.toml", ("locks", lock))
        return drawing(device_of(self.folder.game.locks[lock], where))

    def stays(self, id: str) -> bool:
        """Tell whether a thing stays in the cupboard this time."""
        return id in self.nesting.left_out

    def tells(self, one: Packed) -> str:
        """Return what a screen reader says of a thing: its name, its sort, what is in it."""
        thing = one.thing
        if thing.sort == "box":
            n, locks = len(one.inside), len(one.locks)
            said = say("page-boxes.tells-box", name=self.name(thing.id), holds=_holds(n, locks))
        elif thing.sort == "item":
            said = say("page-boxes.tells-item", name=self.name(thing.id))
        else:
            puzzle = say(f"{self.kind(thing.id)}.title")
            part: tuple[Message, ...] = (self.part(thing.part),) if thing.part else ()
            said = say("page-boxes.tells-sheet", puzzle=(puzzle, *part), id=thing.id)
        return told(said)

    def part(self, name: str) -> Message:
        """Return the words for a part of a sheet that lies apart."""
        return say("page-boxes.part", name=name)

    def spots(self) -> Iterator[Spot]:
        """Yield the spots: what is handed out, the table, and places that hold something."""
        for spot in self.nesting.spots:
            if spot.inside or spot.id in (START, TABLE):
                yield spot

    def bare_spots(self) -> Iterator[Spot]:
        """Yield the places of the room at which nothing lies."""
        for spot in self.nesting.spots:
            if not spot.inside and spot.id not in (START, TABLE):
                yield spot


def _holds(things: int, locks: int) -> tuple[Message, ...]:
    return say("page-boxes.holds-locks", n=locks), say("page-boxes.holds-things", n=things)


def drawing(device: Device, code: Code | None = None) -> dict[str, Any]:
    """Return how a lock is drawn, with its code if one is given."""
    first = device.positions[0] if device.positions else ()
    return {
        "mechanism": device.mechanism,
        "wheels": device.longest,
        "code": list(code or ()) or None,
        "faces": [list(faces) for faces in device.positions],
        "keys": list(first),
        "marks": len(first),
        "ways": 8 if len(first) > 4 else 4,
        "ordered": device.order_matters,
    }


def scene_of(game: Game) -> Scene:
    """Return the game as the shelf shows it; raises Refused where its files have faults."""
    key = ("scene", game.path, game.tag, repr(game.wishes))
    return game.studio.memory.recall(key, lambda: _scene(game.folder, game.wishes))


def _scene(folder: Folder, wishes: Wishes) -> Scene:
    found, plain = arrange(folder, wishes), arrange(folder)
    if isinstance(found, tuple):
        return Scene(folder, None, found, None)
    play = found.games[0].game
    told_of = compared(plain.games[0].game, play) if isinstance(plain, Arranged) else None
    return Scene(folder, play, (), told_of)

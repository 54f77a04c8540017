"""A game as it will be played: nothing optional, one way for each clue, places settled.

What comes out of `game.arrange`. These are plain frozen dataclasses of text, numbers,
tuples and mappings, so that an edition keeps them as JSON.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal

from boxwright.frozen import frozen_value
from boxwright.game.model import Level, LockShape, MechanismName
from boxwright.problems import Where

Answers = Literal["lock", "item", "place"]


@frozen_value
class TimePlan:
    """Whole seconds from bell to bell."""

    bell_to_bell_s: int
    settle_s: int
    briefing_s: int
    debrief_s: int
    tidy_s: int

    @property
    def play_s(self) -> int:
        """What the other parts leave for play."""
        return self.bell_to_bell_s - self.settle_s - self.briefing_s - self.debrief_s - self.tidy_s


@frozen_value
class Question:
    """A question of the debrief, and the goal that it is about."""

    ask: str
    goal: str | None


@frozen_value
class Told:
    """What is told before and after, names filled in, and talked over at the end."""

    opening: tuple[str, ...]
    closing: tuple[str, ...]
    unfinished: tuple[str, ...]
    debrief: tuple[Question, ...]


@frozen_value
class ArrangedBox:
    """A box in play; `place` is a box, a place of the room, `table` or `start`."""

    name: str
    place: str
    inside_mm: tuple[float, float, float] | None
    locks: int | None
    own_lock: bool


@frozen_value
class ArrangedLock:
    """A lock in play, and the box that it closes; what its codes can be is its `shape`."""

    mechanism: MechanismName
    closes: str
    code: str
    stand_in: Literal["allowed", "never"]
    opened_by: str | None
    wheels: int | None
    faces: str | tuple[str, ...] | tuple[tuple[str, ...], ...] | None
    length: tuple[int, int] | None
    moves: Literal[4, 8] | None
    numbers: int | None
    tolerance: int | None
    keys: str | tuple[str, ...] | None
    order_matters: bool | None

    @property
    def shape(self) -> LockShape:
        """What the lock's codes can be, as mechanisms take it."""
        return LockShape(**{name: getattr(self, name) for name in LockShape.model_fields})


@frozen_value
class ArrangedItem:
    """A thing in play, and where it lies."""

    name: str
    place: str
    tool: str | None
    wins: bool


@frozen_value
class ArrangedClue:
    """A clue in play, made in one way.

    `way` names that way for the clue's dice and means nothing else; `source` is where it
    stands, for remedies. `gives` is an id of the sort `leads_to`.
    """

    gives: str
    leads_to: Answers
    goals: tuple[str, ...]
    kind: str
    content: str | Mapping[str, str] | None
    options: Mapping[str, Any]
    level: Level
    place: str
    parts: Mapping[str, str]
    on: str | None
    hints: tuple[str, str, str] | None
    written_on: bool
    needs: tuple[str, ...]
    way: str
    source: Where


@frozen_value
class ArrangedGame:
    """A game as some groups will play it; every id named in it is in play."""

    id: str
    title: str
    summary: str
    language: str
    licence: str
    authors: tuple[str, ...]
    ages: tuple[int, int]
    pupils: tuple[int, int]
    hints: Literal["auto"] | int
    time: TimePlan
    goals: Mapping[str, str]
    story: Told
    boxes: Mapping[str, ArrangedBox]
    locks: Mapping[str, ArrangedLock]
    items: Mapping[str, ArrangedItem]
    clues: Mapping[str, ArrangedClue]

    def name_of(self, id: str) -> str:
        """Return the name of a box or item; other ids are returned as they are."""
        thing = self.boxes.get(id) or self.items.get(id)
        return thing.name if thing is not None else id

    def chosen(self) -> dict[str, str]:
        """Return the way of each clue, as editions name them."""
        return {id: clue.way for id, clue in self.clues.items()}


def boxes_around(game: ArrangedGame, place: str) -> tuple[str, ...]:
    """Return the boxes that hold a place, from the inside out."""
    found: list[str] = []
    while place in game.boxes and place not in found:
        found.append(place)
        place = game.boxes[place].place
    return tuple(found)


@frozen_value
class Sharing:
    """One arranged game, and the groups that play it."""

    game: ArrangedGame
    groups: tuple[str, ...]


@frozen_value
class Arranged:
    """All groups of one play, by the game that they share; the first group's game first."""

    games: tuple[Sharing, ...]

    @property
    def groups(self) -> tuple[str, ...]:
        """The names of all groups: "1", "2", and so on."""
        return tuple(sorted((one for share in self.games for one in share.groups), key=int))

    def of(self, group: str) -> ArrangedGame:
        """Return the game of `group`; KeyError where there is no such group."""
        for share in self.games:
            if group in share.groups:
                return share.game
        raise KeyError(group)

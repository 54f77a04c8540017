"""The lock in somebody's hand: what an address of the first page says of it, and of a lesson.

All state of that page stands in its address, but for the rows of a lesson, which are too
long for one; nothing is kept.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Annotated, Any, Literal

from pydantic import Field, model_validator

from boxwright.game.model import LockMake, MechanismName
from boxwright.messages import words
from boxwright.paper.frame import PaperName
from boxwright.problems import Problem, Where, refuse, say
from boxwright.web.sent import Sent

TURN = r"^[a-z][a-z-]{1,30}:(easier|ordinary|harder|hardest):[0-9]{1,4}$"
NO_LESSON, OWN_ROWS = "none", "own"
USUAL_WHEELS: Mapping[str, int] = {"letter-wheels": 5}
WHEELS = 3
PRESSES = 4
TYPED = range(3, 7)
"""How long a typed code may be for the lock to be taken to be as long; others are told of."""
_BETWEEN = re.compile(r"[\s,;/|]+")
_APART = re.compile(r"[\s,;/|.-]+")
Years = Annotated[int, Field(ge=3, le=99)]


class Hand(Sent):
    """What stands in the address: a lock, a code, pupils, a lesson, and which way each sheet."""

    lock: MechanismName | None = None
    wheels: Annotated[int, Field(ge=1, le=10)] | None = None
    faces: Annotated[str, Field(max_length=400)] = ""
    ways: Literal["4", "8"] = "4"
    marks: Annotated[int, Field(ge=10, le=200)] | None = None
    keys: Annotated[str, Field(max_length=60)] = ""
    length: Annotated[int, Field(ge=1, le=12)] | None = None
    any_order: bool = False
    code: Annotated[str, Field(max_length=120)] = ""
    draw: Annotated[int, Field(ge=0, le=9999)] = 0
    youngest: Years = 9
    oldest: Years = 11
    lesson: Annotated[str, Field(max_length=40, pattern=r"^[a-z-]+$")] = NO_LESSON
    three: Annotated[int, Field(ge=0, le=9999)] = 0
    turn: Annotated[tuple[Annotated[str, Field(pattern=TURN)], ...], Field(max_length=24)] = ()
    sheet: Annotated[str, Field(max_length=40, pattern=r"^[a-z-]*$")] = ""

    @model_validator(mode="before")
    @classmethod
    def _left_empty(cls, given: Any) -> Any:
        """Take a field that was left empty for one that was not sent."""
        if not isinstance(given, dict):
            return given
        return {name: value for name, value in given.items() if value not in ("", None)}

    @property
    def usual_wheels(self) -> int:
        """How many wheels such a lock mostly has."""
        return USUAL_WHEELS.get(self.lock or "", WHEELS)

    @property
    def wheels_or_usual(self) -> int:
        """How many wheels it has: as many as a typed code has signs, where nobody said."""
        return self.wheels or self._typed or self.usual_wheels

    @property
    def length_or_usual(self) -> int:
        """How many keys of a keypad are pressed, likewise."""
        return self.length or self._typed or PRESSES

    @property
    def _typed(self) -> int | None:
        """How long the typed code is, where its signs can be counted and such a lock is usual."""
        if self.lock in ("colour-wheels", "symbol-wheels"):
            return None
        signs = len(_APART.sub("", self.code))
        return signs if signs in TYPED else None

    @property
    def faces_or_usual(self) -> str:
        """What stands on its wheels, as typed; colours and signs that are usual, if nothing is."""
        if self.faces.strip() or self.lock not in ("colour-wheels", "symbol-wheels"):
            return self.faces
        return words(say(f"page-lock-in-hand.usual-{self.lock}"))

    def make(self) -> LockMake:
        """Return the lock as a kit would have it; raises Refused where none was chosen."""
        if self.lock is None:
            refuse(Problem.of("page-lock-in-hand.no-lock", Where("lock")))
        fields = _FIELDS[self.lock](self)
        return LockMake.model_validate({"mechanism": self.lock} | fields)


class Asked(Hand):
    """The same with the rows of a lesson, and the paper to print on."""

    rows: Annotated[str, Field(max_length=200_000)] = ""
    paper: PaperName = "a4"


def _lettered(hand: Hand) -> dict[str, Any]:
    """Return the letters of each wheel; one string alone is for all wheels."""
    given = tuple(part for part in _BETWEEN.split(hand.faces) if part)
    if len(given) > 1:
        return {"faces": given}
    faces = {"faces": given[0]} if given else {}
    return {"wheels": hand.wheels_or_usual} | faces


def _named(hand: Hand) -> dict[str, Any]:
    given = tuple(part for part in _BETWEEN.split(hand.faces_or_usual) if part)
    return {"wheels": hand.wheels_or_usual, "faces": given}


def _keypad(hand: Hand) -> dict[str, Any]:
    presses = hand.length_or_usual
    keys = {"keys": hand.keys} if hand.keys.strip() else {}
    return {"length": (presses, presses), "order_matters": not hand.any_order} | keys


_FIELDS: Mapping[str, Callable[[Hand], dict[str, Any]]] = {
    "number-wheels": lambda hand: {"wheels": hand.wheels_or_usual},
    "letter-wheels": _lettered,
    "colour-wheels": _named,
    "symbol-wheels": _named,
    "direction": lambda hand: {"moves": int(hand.ways)},
    "dial": lambda hand: {"numbers": hand.marks},
    "keypad": _keypad,
    "key": lambda hand: {},
}

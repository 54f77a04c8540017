"""Every number of the forecast that is not in the game: name, unit, default, source.

Most are assumptions, and say so: no measured times of classes at such games were found. A
game may set each by its name; what sessions teach about its clues comes on top (`learning`).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal, NamedTuple

from boxwright.frozen import frozen_value

Unit = Literal["s", "words/min", "share", "log s", "power", "pupils", "times"]
Source = Literal[
    "assumption, no source",
    "Hasbrouck & Tindal 2017, winter, median",
    "Hasbrouck & Tindal 2017, winter, grade 4, from the 10th to the 90th percentile",
    "Brysbaert 2019, adults aloud",
]

GUESS: Source = "assumption, no source"
MEDIAN: Source = "Hasbrouck & Tindal 2017, winter, median"
SPREAD: Source = "Hasbrouck & Tindal 2017, winter, grade 4, from the 10th to the 90th percentile"
ADULTS: Source = "Brysbaert 2019, adults aloud"


TARGET = 0.9
"""The chance to finish in time that is wished for, hints given. Assumption, no source."""


MOST: Mapping[Unit, float] = {
    "s": 86_400,
    "words/min": 2_000,
    "share": 10,
    "log s": 3,
    "power": 1,
    "pupils": 60,
    "times": 100,
}
"""What is too much of anything, by its unit: far beyond sense, and well within what is reckoned."""


class Parameter(NamedTuple):
    """One number, from `least` to `most`; without a `most` of its own, that of its unit."""

    name: str
    unit: Unit
    default: float
    source: Source = GUESS
    most: float | None = None
    least: float = 0

    @property
    def limit(self) -> float:
        """The most that it may be."""
        return MOST[self.unit] if self.most is None else self.most


ALL = (
    # Finding one piece, for one pupil.
    Parameter("find.given", "s", 5),
    Parameter("find.box", "s", 10),
    Parameter("find.led", "s", 20),
    Parameter("find.room", "s", 90),
    Parameter("find.spread", "log s", 0.6),
    # Reading, words correct per minute; grade 1 is taken to be six and a half years old.
    Parameter("read.grade-1", "words/min", 29, MEDIAN, least=1),
    Parameter("read.grade-2", "words/min", 84, MEDIAN, least=1),
    Parameter("read.grade-3", "words/min", 97, MEDIAN, least=1),
    Parameter("read.grade-4", "words/min", 120, MEDIAN, least=1),
    Parameter("read.grade-5", "words/min", 133, MEDIAN, least=1),
    Parameter("read.grade-6", "words/min", 145, MEDIAN, least=1),
    Parameter("read.adults", "words/min", 183, ADULTS, least=1),
    Parameter("read.again", "times", 1.5),
    Parameter("read.spread", "log s", 0.34, SPREAD),
    # Solving, for one pupil of twelve.
    Parameter("solve.mark", "s", 2),
    Parameter("solve.step-logic", "s", 12),
    Parameter("solve.step-counting", "s", 3),
    Parameter("solve.step-knowledge", "s", 5),
    Parameter("solve.step-space", "s", 3),
    Parameter("solve.step-codes", "s", 6),
    Parameter("solve.step-looking", "s", 8),
    Parameter("solve.step-reading", "s", 6),
    Parameter("solve.step-other", "s", 6),
    Parameter("solve.deeper", "share", 0.1),
    Parameter("solve.younger", "share", 0.08),
    Parameter("solve.spread", "log s", 0.5),
    # Entering a code once it is known.
    Parameter("enter.walk", "s", 10),
    Parameter("enter.fetch", "s", 30),
    Parameter("enter.number-wheels", "s", 4),
    Parameter("enter.letter-wheels", "s", 5),
    Parameter("enter.colour-wheels", "s", 4),
    Parameter("enter.symbol-wheels", "s", 5),
    Parameter("enter.direction", "s", 3),
    Parameter("enter.dial", "s", 15),
    Parameter("enter.keypad", "s", 2),
    Parameter("enter.key", "s", 10),
    Parameter("enter.spread", "log s", 0.4),
    # Wrong answers that are tried at the lock before the right one.
    Parameter("wrong.easier", "share", 0.1, most=0.9),
    Parameter("wrong.ordinary", "share", 0.15, most=0.9),
    Parameter("wrong.harder", "share", 0.2, most=0.9),
    Parameter("wrong.hardest", "share", 0.25, most=0.9),
    Parameter("wrong.looking-again", "share", 0.15),
    # What is told before play besides the story, which is read at the pace of adults.
    Parameter("rules.told", "s", 60),
    # The group: n pupils at one sheet are as quick as n to this power alone.
    Parameter("group.power", "power", 0.6, most=1),
    Parameter("group.seats", "pupils", 3),
    # How much of what makes one clue slow is the group's own, and of that, the class's.
    Parameter("group.alike", "share", 0.4, most=1),
    Parameter("class.alike", "share", 0.3, most=1),
    # A hint is given when so long nothing was opened or found.
    Parameter("hint.after", "s", 300),
    Parameter("hint.leaves", "share", 0.4, most=1),
    # What sessions teach: how far clues may be from what is reckoned, in logarithms of times.
    Parameter("learn.kind", "log s", 0.3),
    Parameter("learn.level", "log s", 0.2),
    Parameter("learn.clue", "log s", 0.2),
    # How far a class, a group of it, and one group at one clue may be from that.
    Parameter("learn.class", "log s", 0.17),
    Parameter("learn.group", "log s", 0.26),
    Parameter("learn.chance", "log s", 0.4, least=0.05),
    Parameter("learn.hint", "log s", 0.5),
)
KNOWN: Mapping[str, Parameter] = {parameter.name: parameter for parameter in ALL}


@frozen_value
class Rules:
    """How a group goes about it: what the trials need besides times."""

    power: float
    seats: int
    hint_after_s: float
    hint_leaves: float

    def speed(self, pupils: int) -> float:
        """Return how many times as quick `pupils` at one sheet are as one alone."""
        return float(pupils**self.power)


class Parameters(Mapping[str, float]):
    """The value of every parameter: those given, the others at their defaults.

    Raises ValueError for a name that there is not, or a value that makes no sense.
    """

    def __init__(self, given: Mapping[str, float] | None = None) -> None:
        self.given = dict(given or {})
        for name, value in self.given.items():
            _hold(name, value)

    def __getitem__(self, name: str) -> float:
        return self.given.get(name, KNOWN[name].default)

    def __iter__(self) -> Iterator[str]:
        return iter(KNOWN)

    def __len__(self) -> int:
        return len(KNOWN)

    @property
    def rules(self) -> Rules:
        """How a group goes about it."""
        seats = max(1, round(self["group.seats"]))
        return Rules(self["group.power"], seats, self["hint.after"], self["hint.leaves"])


def _hold(name: str, value: float) -> None:
    if name not in KNOWN:
        raise ValueError(f"no parameter {name!r}")
    if not KNOWN[name].least <= value <= KNOWN[name].limit:
        raise ValueError(f"{name} cannot be {value}")

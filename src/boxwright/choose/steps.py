"""One step of setting up or of resetting: an act, its objects, for which groups.

A step is one act of a hand. It says nothing in words (`step_words` does) and nothing
about how it is drawn, so that paper, a live page and a simulation follow the same list.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from boxwright.frozen import frozen_value

Block = Literal["paper", "count", "shelf", "fresh", "locks", "boxes", "room", "arrival"]
Act = Literal[
    "print",
    "print-tables",
    "print-own",
    "trace",
    "cut",
    "fold",
    "count",
    "renew",
    "look-over",
    "fetch",
    "label",
    "try-tool",
    "set",
    "test",
    "spare",
    "put",
    "hang",
    "take-key",
    "scramble",
    "pull",
    "seal",
    "hide",
    "lay",
    "lay-cards",
    "give",
    "keep",
    "read",
]

BEFORE: tuple[Block, ...] = ("paper", "count", "shelf", "fresh", "locks", "boxes")
"""What is done outside the room, the day before."""

# Seconds for one act for one group. Assumptions, no source: a hand that does it the second time.
SECONDS: Mapping[Act, int] = {
    "print": 20,
    "print-tables": 20,
    "print-own": 30,
    "trace": 240,
    "cut": 120,
    "fold": 60,
    "count": 60,
    "renew": 10,
    "look-over": 10,
    "fetch": 10,
    "label": 20,
    "try-tool": 10,
    "set": 60,
    "test": 40,
    "spare": 10,
    "put": 8,
    "hang": 12,
    "take-key": 5,
    "scramble": 8,
    "pull": 4,
    "seal": 30,
    "hide": 20,
    "lay": 10,
    "lay-cards": 15,
    "give": 10,
    "keep": 20,
    "read": 0,
}


ONCE: frozenset[Act] = frozenset(
    {"print", "print-tables", "print-own", "cut", "fold", "read", "keep"}
)
"""Done once, however many groups there are."""


@frozen_value
class Tick:
    """One box to tick of a step: done for all of `groups`.

    The id says the act, its thing and the first group, so it is the same whenever the card of
    the same printed set is made, and no two steps of a card share it.
    """

    id: str
    act: Act
    groups: tuple[str, ...]

    @property
    def seconds(self) -> int:
        """How long what it stands for takes."""
        return SECONDS[self.act] * len(self.groups)


@frozen_value
class Step:
    """One act on `thing` for each of `groups`; `at` is the box or place that it goes to.

    Things go by their ids: boxes, locks, items, `CLUE/PART`; for `print`, a pile's name.
    """

    block: Block
    act: Act
    thing: str
    groups: tuple[str, ...]
    at: str = ""

    @property
    def seconds(self) -> int:
        """How long it takes for all its groups."""
        return SECONDS[self.act] * len(self.groups)

    @property
    def ticks(self) -> tuple[Tick, ...]:
        """The boxes to tick: one for each group, or a single one for what is done once."""
        together = (self.groups,) if self.act in ONCE else tuple((one,) for one in self.groups)
        return tuple(Tick(self._id(groups[0]), self.act, groups) for groups in together)

    def _id(self, group: str) -> str:
        return f"{self.act}:{self.thing}:{group}"

"""Where dots of ink go: right under a picture that was placed for it, or beside any other."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from math import hypot

from boxwright.dice import Dice
from boxwright.puzzles.picture_field import Field, Placed, Sort
from boxwright.puzzles.unseen_ink_parts import LEAD, Dot
from boxwright.text import mm

STRIP = 3.5  # kept free under each picture for its dot
UNDER = 1.9  # from a picture's box to the middle of the dot in its strip
BESIDE = 1.6  # the same on a sheet that keeps no strips
EDGE = 1.6  # from the frame to the middle of a dot
SPARE = 0.05  # for rounding


def under(field: Field, number: int) -> Dot:
    """Return the dot under a picture whose field keeps a strip free."""
    it = field.placed[number]
    return Dot(it.x, it.y, 0.0, mm(_sort(field, it.picture).height / 2 + UNDER))


def beside(field: Field) -> dict[int, Dot]:
    """Return a dot for each picture that has room for one: no other picture is nearly as near."""
    found = {}
    for number in range(len(field.placed)):
        dot = next((dot for dot in _sides(field, number) if _clear(field, number, dot)), None)
        if dot is not None:
            found[number] = dot
    return found


def _sides(field: Field, number: int) -> Iterator[Dot]:
    it = field.placed[number]
    sort = _sort(field, it.picture)
    across, down = mm(sort.width / 2 + BESIDE), mm(sort.height / 2 + BESIDE)
    for right, low in ((0.0, down), (across, 0.0), (-across, 0.0), (0.0, -down)):
        yield Dot(it.x, it.y, right, low)


def _clear(field: Field, number: int, dot: Dot) -> bool:
    """Tell whether a dot lies within the frame, and far enough from all other pictures."""
    x, y = dot.x + dot.right, dot.y + dot.down
    if not (EDGE <= x <= field.width - EDGE and EDGE <= y <= field.height - EDGE):
        return False
    boxes = {sort.name: sort for sort in field.sorts}
    return all(
        _distance(x, y, other, boxes[other.picture]) >= BESIDE + LEAD + SPARE
        for at, other in enumerate(field.placed)
        if at != number
    )


def _distance(x: float, y: float, it: Placed, sort: Sort) -> float:
    across = max(0.0, abs(x - it.x) - sort.width / 2)
    down = max(0.0, abs(y - it.y) - sort.height / 2)
    return hypot(across, down)


def _sort(field: Field, name: str) -> Sort:
    return next(sort for sort in field.sorts if sort.name == name)


def capacities(field: Field, dots: Mapping[int, Dot]) -> dict[str, int]:
    """Return how many of each sort can be marked, while one at least stays without a dot."""
    there = Counter(it.picture for it in field.placed)
    room = Counter(field.placed[at].picture for at in dots)
    return {name: min(room[name], count - 1) for name, count in there.items()}


def matched(digits: Sequence[int], most: Mapping[str, int], dice: Dice) -> tuple[str, ...] | None:
    """Return a sort for each of `digits` that can show so many dots; None where there is none.

    The largest digits choose first: what serves them would serve a smaller one as well.
    """
    found: dict[int, str] = {}
    for at in sorted(range(len(digits)), key=lambda at: -digits[at]):
        free = [name for name, room in most.items() if room >= digits[at]]
        free = [name for name in free if name not in found.values()]
        if not free:
            return None
        found[at] = dice.pick(free)
    return tuple(found[at] for at in range(len(digits)))

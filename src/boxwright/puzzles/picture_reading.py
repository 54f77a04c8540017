"""Looks at a printed field as pupils do: which pictures are sure to be seen for what they are.

A picture that comes nearer to another than `LEAST_GAP`, is cut by the frame, or is turned
so that it could be another one, may be overlooked or be taken for a part of its neighbour.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import hypot
from typing import NamedTuple

from boxwright.puzzles.drawn import tilt_of
from boxwright.puzzles.picture_field import LEAST_GAP, Field

ROUNDING = 0.011  # millimetres: places and sizes are rounded to 0.01


class Seen(NamedTuple):
    """What one looks at: pictures (their numbers on the sheet) that are one blot, or just one.

    `sure` says that the picture is seen for what it is.
    """

    numbers: tuple[int, ...]
    sure: bool


def looked_at(field: Field) -> list[Seen]:
    """Return all that is seen in the field, each picture in one place."""
    blots = _blots(field)
    return [
        Seen(tuple(blot), len(blot) == 1 and _whole(field, blot[0]) and _upright(field, blot[0]))
        for blot in blots
    ]


def counts(field: Field, names: Iterable[str]) -> dict[str, range]:
    """Return in how many ways a pupil may count the pictures of each name: most often just one.

    A blot of one sort is seen as one picture at least, a blot of several perhaps as another.
    """
    seen = looked_at(field)
    return {name: _count(field, seen, name) for name in names}


def _count(field: Field, all_seen: Sequence[Seen], name: str) -> range:
    least = most = 0
    for seen in all_seen:
        same = sum(field.placed[at].picture == name for at in seen.numbers)
        most += same
        if seen.sure:
            least += same
        elif same == len(seen.numbers) > 1:
            least += 1
    return range(least, most + 1)


def gap(field: Field, one: int, other: int) -> float:
    """Return the distance of two pictures' boxes in millimetres; 0 where they touch."""
    a, b = field.placed[one], field.placed[other]
    (a_wide, a_high), (b_wide, b_high) = _box(field, a.picture), _box(field, b.picture)
    across = abs(a.x - b.x) - (a_wide + b_wide) / 2
    down = abs(a.y - b.y) - (a_high + b_high) / 2
    return hypot(max(0.0, across), max(0.0, down))


def _box(field: Field, name: str) -> tuple[float, float]:
    for sort in field.sorts:
        if sort.name == name:
            return sort.width, sort.height
    return 0.0, 0.0


def _blots(field: Field) -> Iterator[list[int]]:
    """Yield the pictures in lots, those that come too near to each other in one lot."""
    left = set(range(len(field.placed)))
    while left:
        blot = [min(left)]
        left.remove(blot[0])
        for one in blot:
            near = {at for at in left if gap(field, one, at) < LEAST_GAP - ROUNDING}
            left -= near
            blot += sorted(near)
        yield blot


def _whole(field: Field, number: int) -> bool:
    """Tell whether a picture lies within the frame."""
    it = field.placed[number]
    wide, high = _box(field, it.picture)
    return (
        wide / 2 <= it.x + ROUNDING
        and it.x + wide / 2 <= field.width + ROUNDING
        and high / 2 <= it.y + ROUNDING
        and it.y + high / 2 <= field.height + ROUNDING
    )


def _upright(field: Field, number: int) -> bool:
    it = field.placed[number]
    turn = (it.turn + 180) % 360 - 180
    return abs(turn) <= tilt_of(it.picture)

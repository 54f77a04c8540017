"""Reads dots of ink as pupils do: each belongs to the picture that it is nearest to.

Where two pictures are about as near, where black print may hide a dot, or where it lies
too far from every picture, it can be read in more than one way; all ways are followed.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import product
from math import hypot, prod

from boxwright.puzzles.contract import GaveUp
from boxwright.puzzles.picture_field import MOST_COUNT, Field
from boxwright.puzzles.picture_reading import looked_at
from boxwright.puzzles.unseen_ink_parts import LEAD, OFF_PRINT, REACH, Dot

MOST_READINGS = 10_000
ROUNDING = 0.02
Marked = frozenset[int]


def marked(field: Field, dots: Sequence[Dot]) -> Iterator[Marked]:
    """Yield each set of pictures (their numbers) that pupils may take to be marked.

    Raises:
        GaveUp: where there are too many ways to read the dots.
    """
    sure = {at for seen in looked_at(field) if seen.sure for at in seen.numbers}
    ways = [_owners(field, dot, sure) for dot in dots]
    if prod(map(len, ways)) > MOST_READINGS:
        raise GaveUp(MOST_READINGS)
    readings = (frozenset(at for at in way if at is not None) for way in product(*ways))
    yield from dict.fromkeys(readings)


def _owners(field: Field, dot: Dot, sure: set[int]) -> list[int | None]:
    """Return the pictures that a dot may belong to; None among them if perhaps to no picture."""
    away = [_away(field, number, dot) for number in range(len(field.placed))]
    near = min(away, default=REACH)
    owners: list[int | None] = [
        at
        for at, far in enumerate(away)
        if far < near + LEAD - ROUNDING or _is_middle(field, at, dot)
    ]
    if near > REACH or near < OFF_PRINT - ROUNDING or not sure.issuperset(owners):
        owners.append(None)
    return owners


def _is_middle(field: Field, number: int, dot: Dot) -> bool:
    """Tell whether a dot goes with this picture where the page draws places farther apart."""
    it = field.placed[number]
    return (it.x, it.y) == (dot.x, dot.y)


def _away(field: Field, number: int, dot: Dot) -> float:
    """Return how far a dot lies from a picture's box, in millimetres."""
    it = field.placed[number]
    for sort in field.sorts:
        if sort.name == it.picture:
            across = abs(dot.x + dot.right - it.x) - sort.width / 2
            down = abs(dot.y + dot.down - it.y) - sort.height / 2
            return hypot(max(across, 0.0), max(down, 0.0))
    return REACH


def shown_codes(
    field: Field, asked: Sequence[str], dots: Sequence[Dot]
) -> dict[tuple[int, ...], Marked]:
    """Return every code that the dots may show, with the pictures then taken as marked."""
    found: dict[tuple[int, ...], Marked] = {}
    for pictures in marked(field, dots):
        amounts = Counter(field.placed[at].picture for at in pictures)
        numbers = tuple(amounts[name] for name in asked)
        if all(0 < number <= MOST_COUNT for number in numbers):
            found.setdefault(numbers, pictures)
    return found


def guesses(field: Field, asked: Sequence[str]) -> Iterator[tuple[int, ...]]:
    """Yield every code that is possible while no dot is seen: any of each sort may be marked.

    Raises:
        GaveUp: where there are too many.
    """
    there = Counter(it.picture for it in field.placed)
    names = list(dict.fromkeys(asked))
    most = [min(MOST_COUNT, there[name]) for name in names]
    if prod(most) > MOST_READINGS:
        raise GaveUp(MOST_READINGS)
    for numbers in product(*(range(1, count + 1) for count in most)):
        amounts = dict(zip(names, numbers, strict=True))
        yield tuple(amounts[name] for name in asked)

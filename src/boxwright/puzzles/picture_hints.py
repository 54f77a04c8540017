"""What can be said of a field of pictures without counting it for others."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence

from boxwright.problems import Message, say
from boxwright.puzzles.drawn import family_of
from boxwright.puzzles.picture_field import Field

Test = Callable[[float, float, float], bool]


def look_alike(field: Field) -> tuple[str, str | None]:
    """Return the asked picture that most others look like, and the commonest of these, if any."""
    amounts = Counter(it.picture for it in field.placed)
    pairs = [
        (asked, name)
        for asked in field.asked
        for name in amounts
        if name != asked and family_of(name) == family_of(asked)
    ]
    if not pairs:
        return field.asked[0], None
    return max(pairs, key=lambda pair: amounts[pair[1]])


def place_said(field: Field, numbers: Sequence[int]) -> tuple[int, Message]:
    """Return how many of the pictures `numbers` lie in one part of the field, and which part.

    A part is taken only if none of them lies across its border, so that it can be counted.
    """
    for part in ("left", "right", "top", "bottom"):
        inside = [at for at in numbers if _side(field, at, part) > 0]
        if all(_side(field, at, part) for at in numbers) and 0 < len(inside) < len(numbers):
            return len(inside), say(f"drawn.place-{part}")
    highest = min(numbers, key=lambda at: field.placed[at].y)
    third = min(2, int(3 * field.placed[highest].x / field.width))
    return 1, say(f"drawn.place-highest-{('left', 'middle', 'right')[third]}")


def _side(field: Field, number: int, part: str) -> int:
    """Return 1 for a picture in a half of the field, -1 for one in the other, 0 for across."""
    it = field.placed[number]
    sort = next(sort for sort in field.sorts if sort.name == it.picture)
    across = part in ("left", "right")
    place, half = (it.x, sort.width / 2) if across else (it.y, sort.height / 2)
    middle = (field.width if across else field.height) / 2
    if abs(place - middle) < half:
        return 0
    return 1 if (place < middle) == (part in ("left", "top")) else -1

"""Makes a sheet of its own for dots of ink: a field with room under every picture."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from boxwright.dice import Dice
from boxwright.game.model import Level
from boxwright.puzzles.contract import Answer, Given
from boxwright.puzzles.picture_choice import chosen, field_of, shared_out
from boxwright.puzzles.picture_field import MOST_PICTURES, Field
from boxwright.puzzles.picture_wishes import Wishes
from boxwright.puzzles.unseen_ink_dots import STRIP, under
from boxwright.puzzles.unseen_ink_parts import Dot, Guide, Ink, Sheet

# Pictures beside those that count and one of each sort, and how many there are at the least.
MORE_AT: Mapping[Level, tuple[int, int]] = {
    "easier": (1, 12),
    "ordinary": (3, 18),
    "harder": (5, 25),
    "hardest": (6, 32),
}


def least_pictures(answer: Answer, wishes: Wishes) -> int:
    """Return how many pictures there must be: those that count, one more of each, one other."""
    digits = len(answer.symbols)
    others = not wishes.own or len(wishes.own) > digits
    return sum(map(int, answer.symbols)) + digits + others


def on_own_sheet(answer: Answer, wishes: Wishes, given: Given, dice: Dice) -> Sheet:
    """Make the field, and choose what is marked in it."""
    choice = chosen(len(answer.symbols), wishes, given.level, dice.child("choice"))
    wanted = dict(zip(choice.asked, map(int, answer.symbols), strict=True))
    least = least_pictures(answer, wishes)
    more, floor = MORE_AT[given.level]
    total = wishes.pictures or min(MOST_PICTURES, max(least + more, floor))
    rest = total - sum(wanted.values())
    spread = dice.child("shares")
    spare = rest - len(wanted)
    others = choice.others[:spare]
    strange = max(len(others), (spare + 1) // 2) if others else 0
    plain = shared_out(rest - strange, len(wanted), spread)
    amounts = {
        name: count + more for (name, count), more in zip(wanted.items(), plain, strict=True)
    }
    shares = shared_out(strange, len(others), spread)
    amounts |= dict(zip(others, shares, strict=True))
    marked = wanted | {name: (amounts[name] + 1) // 2 for name in others}
    names = list(Counter(amounts).elements())
    field = field_of(choice.asked, names, given, STRIP, dice.child("places"))
    numbers = drawn_by_lot(field, range(len(names)), marked, dice.child("dots"))
    return with_guide(field, field, [under(field, at) for at in numbers])


def drawn_by_lot(
    field: Field, free: Sequence[int], marked: Mapping[str, int], dice: Dice
) -> list[int]:
    """Return as many of each sort as are to be marked, out of the pictures `free`, in order."""
    found: list[int] = []
    for name, count in marked.items():
        found += dice.sample([at for at in free if field.placed[at].picture == name], count)
    return sorted(found)


def with_guide(shown: Field, field: Field, dots: Sequence[Dot]) -> Sheet:
    """Return the sheet whose pupils' part is `shown`, with its ink and the guide to it."""
    ink = Ink(field.width, field.height, tuple(dots))
    return Sheet(shown, ink, Guide(field, tuple(dots)))

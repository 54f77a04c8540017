"""Which pictures are asked for, which are strewn among them, and the field made of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import sqrt
from typing import NamedTuple

from boxwright.dice import Dice
from boxwright.game.model import Level
from boxwright.puzzles.contract import Given
from boxwright.puzzles.drawn import DRAWN, FAMILIES
from boxwright.puzzles.picture_field import HEIGHT, WIDTH, Field, Placed, Sort
from boxwright.puzzles.picture_placing import Shape, size_for, strewn
from boxwright.puzzles.picture_wishes import Wishes
from boxwright.text import mm

# The more alike the pictures are, the longer one looks at each.
FAMILIES_AT: Mapping[Level, int] = {"easier": 3, "ordinary": 2, "harder": 1, "hardest": 1}
OTHERS_AT: Mapping[Level, int] = {"easier": 1, "ordinary": 2, "harder": 2, "hardest": 5}


class Choice(NamedTuple):
    """The pictures that are asked for, in the order of the code, and those that are not."""

    asked: tuple[str, ...]
    others: tuple[str, ...]


def chosen(digits: int, wishes: Wishes, level: Level, dice: Dice) -> Choice:
    """Choose `digits` pictures to ask for, and others that look like them."""
    if wishes.own:
        names = dice.shuffled(wishes.own)
        return Choice(tuple(names[:digits]), tuple(names[digits:]))
    families = dice.sample(FAMILIES, FAMILIES_AT[level])
    if wishes.family != "auto":
        families = [wishes.family]
    asked: list[str] = []
    for at in range(digits):
        family = families[at % len(families)]
        asked.append(dice.pick([one for one in _members(family) if one not in asked]))
    alike = [one for family in families[:digits] for one in _members(family) if one not in asked]
    return Choice(tuple(asked), tuple(dice.shuffled(alike)[: OTHERS_AT[level]]))


def _members(family: str) -> list[str]:
    return [name for name, drawn in DRAWN.items() if drawn.family == family]


def shared_out(amount: int, count: int, dice: Dice) -> list[int]:
    """Share `amount` among `count` as evenly as whole numbers can, who gets more by chance."""
    if count == 0:
        return []
    low, more = divmod(amount, count)
    return dice.shuffled([low + (at < more) for at in range(count)])


def field_of(
    asked: Sequence[str], names: Sequence[str], given: Given, more_height: float, dice: Dice
) -> Field:
    """Strew pictures over a field, `names` with each as often as it is to be seen.

    `more_height` millimetres are kept free under each.
    """
    size = size_for(len(names), more_height)
    sorts = {name: _sort(name, given, size) for name in dict.fromkeys((*asked, *names))}
    shapes = [Shape(sorts[name].width, sorts[name].height + more_height) for name in names]
    placed = [
        Placed(name, x, mm(y - more_height / 2), _turn(name, dice))
        for name, (x, y) in zip(names, strewn(shapes, dice), strict=True)
    ]
    in_reading_order = sorted(placed, key=lambda one: (one.y, one.x))
    return Field(WIDTH, HEIGHT, tuple(asked), tuple(sorts.values()), tuple(in_reading_order))


def _sort(name: str, given: Given, size: float) -> Sort:
    """Return the box of a picture: all have the same area, drawn ones are square."""
    width, height = (1.0, 1.0) if name in DRAWN else given.pictures[name]
    stretch = sqrt(width / height)
    return Sort(name, mm(size * stretch), mm(size / stretch))


def _turn(name: str, dice: Dice) -> int:
    tilt = DRAWN[name].tilt if name in DRAWN else 0
    return dice.between(0, 359) if tilt == 180 else dice.between(-tilt, tilt)

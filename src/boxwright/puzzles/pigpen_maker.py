"""Makes keys and signs: the order of the letters, what of it is printed, the signs of a word."""

from __future__ import annotations

from typing import NamedTuple

from boxwright.dice import Dice
from boxwright.game.model import Level
from boxwright.puzzles.pigpen_fences import (
    CELLS,
    ORDERS,
    SYMBOLS,
    Carried,
    Fence,
    Key,
    Row,
    Rule,
    Shape,
    Sheet,
    Sign,
)

Fences = tuple[tuple[Shape, bool], ...]

FILLED = 26
HALF = 13  # cells that are printed at the second level
CONSONANTS = "BCDFGHJKLMNPQRSTVWXZ"  # so that letters drawn by chance form no word
FIRST = 6  # letters that a key drawn by chance begins with


class _Order(NamedTuple):
    """What stands in all cells, how many of them tell it, and the rule for the others."""

    cells: str
    told: int
    rule: Rule


def sheet_for(
    symbols: tuple[str, ...], carries: Carried, keyword: str, order: str, level: Level, dice: Dice
) -> Sheet:
    """Return signs for `symbols` and the key to them.

    Args:
        symbols: letters, or figures.
        carries: which of the two, and what they are wanted for.
        keyword: letters that the key begins with, each once; "" for none.
        order: a name in `ORDERS`; "" to leave it to the level.
        level: how much of the key is printed.
        dice: what is left to chance.
    """
    hard = level in ("harder", "hardest")
    names = tuple(ORDERS)
    fences = ORDERS[order or (dice.child("fences").pick(names) if hard else names[0])]
    written = _order(carries, keyword, level, dice.child("order"))
    shown = _shown(written, fences, level, dice.child("shown"))
    key = _key(written, fences, shown)
    choices = _signs(written.cells, fences)
    chance = dice.child("signs")
    return Sheet(Row(carries, tuple(chance.pick(choices[it]) for it in symbols)), key)


def _order(carries: Carried, keyword: str, level: Level, dice: Dice) -> _Order:
    symbols = SYMBOLS[carries]
    if carries == "digits":
        if level == "hardest":
            ten = "".join(dice.shuffled(symbols))
            return _Order((ten * 3)[:FILLED], 10, "again")
        start = dice.below(10) if level == "harder" else 0
        return _Order((symbols * 4)[start : start + FILLED], 1, "run")
    if not keyword and level == "hardest":
        keyword = "".join(dice.sample(CONSONANTS, FIRST))
    if keyword:
        rest = "".join(letter for letter in symbols if letter not in keyword)
        return _Order(keyword + rest, len(keyword), "rest")
    start = dice.between(1, 25) if level == "harder" else 0
    return _Order(symbols[start:] + symbols[:start], 1, "run")


def _shown(written: _Order, fences: Fences, level: Level, dice: Dice) -> frozenset[int]:
    """Return the numbers of the cells that are printed."""
    told = range(written.told)
    firsts = [sum(CELLS[shape] for shape, _ in fences[:n]) for n in range(4)]
    if level == "easier":
        return frozenset(range(FILLED))
    if level == "ordinary":
        free = [cell for cell in range(FILLED) if cell not in {*told, *firsts}]
        taken = len({*told, *firsts})
        return frozenset({*told, *firsts, *dice.sample(free, max(0, HALF - taken))})
    return frozenset({*told, *firsts} if level == "harder" else told)


def _key(written: _Order, fences: Fences, shown: frozenset[int]) -> Key:
    printed = [it if at in shown else "" for at, it in enumerate(written.cells)]
    built, start = [], 0
    for shape, dot in fences:
        stop = start + CELLS[shape]
        built.append(Fence(shape, dot, tuple(printed[start:stop])))
        start = stop
    return Key(tuple(built), "whole" if len(shown) == FILLED else written.rule)


def _signs(cells: str, fences: Fences) -> dict[str, list[Sign]]:
    """Return the signs for each letter or figure."""
    found: dict[str, list[Sign]] = {}
    number = 0
    for shape, dot in fences:
        for cell in range(CELLS[shape]):
            found.setdefault(cells[number], []).append(Sign(shape, cell, dot))
            number += 1
    return found

"""Likely wrong answers: figures read in another order, and a statement read the wrong way."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice
from typing import NamedTuple

from boxwright.problems import Message, say
from boxwright.puzzles.contract import GaveUp
from boxwright.puzzles.logic_grid_forms import (
    Arrangement,
    Form,
    Puzzle,
    Statement,
)
from boxwright.puzzles.logic_grid_solver import arrangements, read, squares_read
from boxwright.puzzles.logic_grid_words import mark

OPPOSITE: dict[Form, Form] = {"not": "is", "is": "not", "neither": "either", "either": "neither"}


class Misreading(NamedTuple):
    """What is read, what that means, and whether pupils could notice it themselves."""

    symbols: tuple[str, ...]
    means: Message
    noticed: bool


def misreadings(puzzle: Puzzle, symbols: tuple[str, ...]) -> Iterator[Misreading]:
    """Yield likely wrong answers of a puzzle that reads as `symbols`, the likeliest first."""
    arrangement = next((a for a in arrangements(puzzle) if read(puzzle, a) == symbols), None)
    if arrangement is not None:
        yield from _other_orders(puzzle, arrangement, symbols)
    for number, statement in enumerate(puzzle.statements):
        for wrong, means in _wrong_ways(statement, number):
            yield from _read_with(puzzle, number, wrong, means)


def _other_orders(
    puzzle: Puzzle, arrangement: Arrangement, symbols: tuple[str, ...]
) -> Iterator[Misreading]:
    squares = list(squares_read(puzzle, arrangement))
    listed = sorted(zip(puzzle.order, symbols, strict=True))
    orders = {
        "logic-grid.mistake-rows": sorted(squares),
        "logic-grid.mistake-columns": sorted(squares, key=lambda square: square[::-1]),
    }
    for id, places in orders.items():
        read_so = tuple(puzzle.figures[row][column] for row, column in places)
        yield Misreading(read_so, Message(id), False)
    yield Misreading(tuple(figure for _, figure in listed), say("logic-grid.mistake-list"), False)
    yield Misreading(symbols[::-1], say("logic-grid.mistake-backwards"), False)


def _wrong_ways(statement: Statement, number: int) -> Iterator[tuple[Statement, Message]]:
    """Yield how a statement may be misread."""
    sign = mark(number)
    if statement.form in OPPOSITE:
        wrong = replace(statement, form=OPPOSITE[statement.form])
        missed = statement.form in ("not", "neither")
        id = "logic-grid.mistake-missed-not" if missed else "logic-grid.mistake-opposite"
        yield wrong, Message(id, {"mark": sign})
    if statement.form in ("before", "by"):
        turned = replace(statement, items=statement.items[::-1])
        yield turned, say("logic-grid.mistake-turned", mark=sign)
    if statement.form == "by" and statement.by > 1:
        yield replace(statement, by=statement.by - 1), say("logic-grid.mistake-count", mark=sign)


def _read_with(
    puzzle: Puzzle, number: int, wrong: Statement, means: Message
) -> Iterator[Misreading]:
    """Yield the one reading with a statement replaced; several or none lead nobody astray."""
    others = [*puzzle.statements]
    others[number] = wrong
    try:
        found = {read(puzzle, one) for one in islice(arrangements(puzzle, others), 3)}
    except GaveUp:
        return
    if len(found) == 1:
        yield Misreading(found.pop(), means, False)

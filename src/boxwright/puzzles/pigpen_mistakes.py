"""What signs are taken for: without their dots, turned, mirrored, or by a key known before."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import product

from boxwright.problems import Message, say
from boxwright.puzzles.pigpen_fences import ORDERS, SYMBOLS, Row, Sign
from boxwright.puzzles.pigpen_reading import Written, behind, keys_of

Misread = tuple[tuple[str, ...], Message, bool]
UPSIDE_DOWN = {"grid": (8, 7, 6, 5, 4, 3, 2, 1, 0), "cross": (3, 2, 1, 0)}
MIRRORED = {"grid": (2, 1, 0, 5, 4, 3, 8, 7, 6), "cross": (0, 2, 1, 3)}


def misreadings(row: Row, written: Written, right: tuple[str, ...]) -> Iterator[Misread]:
    """Yield misreadings, the likeliest first; some may be alike, or right."""
    yield from _all(row, written, lambda it: replace(it, dot=False), "pigpen.mistake-dots", True)
    if row.carries != "digits":
        yield from _by_usual_order(row)
    yield from _all(row, written, _mirrored, "pigpen.mistake-mirrored", False)
    turned = Row(row.carries, row.signs[::-1])
    yield from _all(turned, written, _turned, "pigpen.mistake-turned", True)
    yield right[::-1], say("pigpen.mistake-backwards"), False


def _all(
    row: Row, written: Written, change: Callable[[Sign], Sign], id: str, noticed: bool
) -> Iterator[Misread]:
    for symbols in product(*(behind(written, change(sign)) for sign in row.signs)):
        yield symbols, Message(id), noticed


def _by_usual_order(row: Row) -> Iterator[Misread]:
    """Read the signs by the alphabet from A, in either usual order of the fences."""
    usual = list(keys_of(None, row.carries))
    for written in usual[:: len(SYMBOLS[row.carries])][: len(ORDERS)]:
        for symbols in product(*(behind(written, sign) for sign in row.signs)):
            yield symbols, say("pigpen.mistake-other-key"), False


def _turned(sign: Sign) -> Sign:
    return replace(sign, cell=UPSIDE_DOWN[sign.shape][sign.cell])


def _mirrored(sign: Sign) -> Sign:
    return replace(sign, cell=MIRRORED[sign.shape][sign.cell])

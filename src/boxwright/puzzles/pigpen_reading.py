"""Reads signs with a key: fills in its empty cells by its rule, then looks each sign up."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice, product

from boxwright.puzzles.contract import GaveUp
from boxwright.puzzles.pigpen_fences import CELLS, ORDERS, SYMBOLS, Carried, Fence, Key, Row, Sign

MOST = 1_000
Written = tuple[Fence, ...]


def keys_of(key: Key | None, carries: Carried) -> Iterator[Written]:
    """Yield every way to fill in the key; without a key, every usual order from every start."""
    symbols = SYMBOLS[carries]
    if key is None:
        for order in ORDERS.values():
            empty = tuple(Fence(shape, dot, ("",) * CELLS[shape]) for shape, dot in order)
            for start in range(len(symbols)):
                yield _refilled(empty, _running(symbols, start, 26))
        return
    printed = [cell for fence in key.fences for cell in fence.cells]
    for cells in dict.fromkeys(tuple(it) for it in _fillings(printed, key.rule, symbols)):
        if all(given in ("", cell) for given, cell in zip(printed, cells, strict=True)):
            yield _refilled(key.fences, list(cells))


def _fillings(printed: list[str], rule: str, symbols: str) -> Iterator[list[str]]:
    """Yield what `rule` would put into all cells; whether the printed ones agree is not asked."""
    count = len(printed)
    if rule == "whole":
        yield printed
    elif rule == "run":
        for start in range(len(symbols)):
            yield _running(symbols, start, count)
    elif rule == "rest":
        told = next((at for at, cell in enumerate(printed) if not cell), count)
        rest = [letter for letter in symbols if letter not in printed[:told]]
        if told + len(rest) == count:
            yield printed[:told] + rest
    else:
        period = len(symbols)
        yield [printed[at % period] for at in range(count)]


def _running(symbols: str, start: int, count: int) -> list[str]:
    return [symbols[(start + at) % len(symbols)] for at in range(count)]


def _refilled(fences: Written, cells: list[str]) -> Written:
    rest = iter(cells)
    return tuple(Fence(it.shape, it.dot, tuple(islice(rest, len(it.cells)))) for it in fences)


def behind(written: Written, sign: Sign) -> list[str]:
    """Return what may stand behind `sign`, in every fence that has such a piece."""
    found = (
        fence.cells[sign.cell]
        for fence in written
        if (fence.shape, fence.dot) == (sign.shape, sign.dot) and sign.cell < len(fence.cells)
    )
    return list(dict.fromkeys(cell for cell in found if cell))


def readings(row: Row, key: Key | None) -> Iterator[tuple[tuple[str, ...], Written]]:
    """Yield every different text that the signs can be read as, with a key that gives it.

    Raises:
        GaveUp: after `MOST` readings.
    """
    seen: set[tuple[str, ...]] = set()
    for written in keys_of(key, row.carries):
        for symbols in product(*(behind(written, sign) for sign in row.signs)):
            if len(seen) == MOST:
                raise GaveUp(MOST)
            if symbols not in seen:
                seen.add(symbols)
                yield symbols, written

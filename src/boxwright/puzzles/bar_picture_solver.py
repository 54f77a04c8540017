"""Reads bars as a reader does: widths of bars and spaces, in both directions, by two tables."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from boxwright.puzzles.bar_picture_tables import (
    CHECK_128,
    CODE_39,
    CODE_128,
    LAST_BAR,
    START_A,
    START_B,
    START_C,
    STOP_39,
    STOP_128,
)

ELEMENTS_128, MODULES_128 = 6, 11
OFF = 0.25  # of a module, up to which a width counts as so many whole ones
ELEMENTS_39, WIDE_39 = 9, 3
LEAST_RATIO = 1.7  # between the narrowest wide element and the widest narrow one
TO_C, TO_B, TO_A, SHIFT = 99, 100, 101, 98
_BY_WIDTHS = {widths: value for value, widths in enumerate(CODE_128)}
_BY_WIDE = {wide: sign for sign, wide in CODE_39.items()}


def said(runs: Sequence[float]) -> Iterator[str]:
    """Yield all that bars with these widths can be read as, each once."""
    found: dict[str, None] = {}
    for way in (runs, runs[::-1]):
        for text in (_code_128(way), _code_39(way)):
            if text:
                found[text] = None
    yield from found


def _code_128(runs: Sequence[float]) -> str | None:
    if len(runs) % ELEMENTS_128 != 1 or len(runs) < 4 * ELEMENTS_128:
        return None
    groups = range(0, len(runs) - 1, ELEMENTS_128)
    values = [_value(runs[at : at + ELEMENTS_128]) for at in groups]
    if None in values or values[-1] != STOP_128 or not _last_bar(runs):
        return None
    whole = [value for value in values if value is not None]
    start, *data, check, _ = whole
    total = start + sum(at * value for at, value in enumerate(data, 1))
    return _text(start, data) if total % CHECK_128 == check else None


def _value(group: Sequence[float]) -> int | None:
    """Return the symbol whose widths these are; None where one is between two numbers."""
    module = sum(group) / MODULES_128
    if module <= 0:
        return None
    whole = [round(width / module) for width in group]
    if any(abs(width / module - one) > OFF for width, one in zip(group, whole, strict=True)):
        return None
    return _BY_WIDTHS.get("".join(map(str, whole)))


def _last_bar(runs: Sequence[float]) -> bool:
    module = sum(runs[-1 - ELEMENTS_128 : -1]) / MODULES_128
    return abs(runs[-1] / module - LAST_BAR) <= OFF


def _text(start: int, data: Sequence[int]) -> str | None:
    """Return what values say in the three subsets; None where something is no plain sign."""
    if start not in (START_A, START_B, START_C):
        return None
    subset, shifted, text = "ABC"[start - START_A], False, ""
    for value in data:
        here = {"A": "B", "B": "A"}.get(subset, subset) if shifted else subset
        shifted = False
        if here == "C" and value < 100:
            text += f"{value:02}"
        elif here != "C" and value < (64 if here == "A" else 95):
            text += chr(value + 32)
        elif value == SHIFT and here != "C":
            shifted = True
        elif value in (TO_C, TO_B, TO_A):
            subset = {TO_C: "C", TO_B: "B", TO_A: "A"}[value]
        else:
            return None
    return text


def _code_39(runs: Sequence[float]) -> str | None:
    step = ELEMENTS_39 + 1
    if len(runs) % step != ELEMENTS_39 or len(runs) < 3 * step - 1:
        return None
    signs = [_sign(runs[at : at + ELEMENTS_39]) for at in range(0, len(runs), step)]
    if None in signs or signs[0] != STOP_39 or signs[-1] != STOP_39 or STOP_39 in signs[1:-1]:
        return None
    return "".join(sign for sign in signs[1:-1] if sign)


def _sign(group: Sequence[float]) -> str | None:
    order = sorted(group)
    narrow, wide = order[-1 - WIDE_39], order[-WIDE_39]
    if wide < LEAST_RATIO * narrow:
        return None
    bits = ["1" if width >= wide else "0" for width in group]
    return _BY_WIDE.get(("".join(bits[0::2]), "".join(bits[1::2])))

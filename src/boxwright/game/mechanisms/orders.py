"""Counting the orders of a code's symbols that a device can show."""

from __future__ import annotations

from functools import cache

from boxwright.game.mechanisms.device import Code, Device


def count_orders(device: Device, code: Code) -> int:
    """Count the different orders of the symbols of `code` that the device can show."""
    symbols = tuple(dict.fromkeys(code))

    @cache
    def ways(left: tuple[int, ...]) -> int:
        at = len(code) - sum(left)
        if at == len(code):
            return 1
        return sum(
            ways((*left[:i], count - 1, *left[i + 1 :]))
            for i, count in enumerate(left)
            if count and symbols[i] in device.positions[at]
        )

    return ways(tuple(code.count(symbol) for symbol in symbols))

"""Locks as `locks.typ` draws them: with the code that they are to show, or with none."""

from __future__ import annotations

from typing import Any

from boxwright.game.mechanisms import BLANK, Code, Device


def with_code(device: Device, code: Code) -> dict[str, Any]:
    """Return how `device` looks when it shows `code`."""
    picture = without_code(device)
    if picture["sort"] == "wheels":
        picture["faces"] = [None if face == BLANK else face for face in code]
    elif picture["sort"] == "moves":
        picture["moves"] = list(code)
    elif picture["sort"] == "dial":
        picture["numbers"] = [int(number) for number in code]
    elif picture["sort"] == "keys":
        picture["pressed"] = list(code)
    return picture


def without_code(device: Device) -> dict[str, Any]:
    """Return the working parts of `device`, showing nothing."""
    match device.mechanism:
        case "direction":
            return {"sort": "moves", "moves": [], "ways": list(device.faces)}
        case "dial":
            return {"sort": "dial", "marks": len(device.faces), "numbers": []}
        case "keypad":
            return {
                "sort": "keys",
                "keys": list(device.faces),
                "pressed": [],
                "ordered": device.order_matters,
            }
        case "key":
            return {"sort": "key"}
        case _:
            return {"sort": "wheels", "faces": [None] * device.longest}

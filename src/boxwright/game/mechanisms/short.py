"""A lock in a few characters, for the command line: `number-wheels:3`, `dial:40`.

`MECHANISM[:PART...]`, where a part is a plain one, which the mechanism understands, or
`NAME=VALUE` with a name of the table below. docs/locks.md lists examples.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from pydantic import ValidationError

from boxwright.game.mechanisms.making import MECHANISMS, NAMES
from boxwright.game.model import LockMake
from boxwright.problems import Problem, Where, refuse, say
from boxwright.text import nearest

EXAMPLES = {
    "number-wheels": "number-wheels:3",
    "letter-wheels": "letter-wheels:5",
    "colour-wheels": "colour-wheels:red,blue,green:3",
    "symbol-wheels": "symbol-wheels:star,moon,sun:3",
    "direction": "direction:5",
    "dial": "dial:40",
    "keypad": "keypad:4",
    "key": "key",
}
NO_WORDS = ("no", "false", "0")


def _lengths(text: str) -> tuple[int, int]:
    low, _, high = text.partition("-")
    return int(low), int(high or low)


def _listed(text: str) -> str | tuple[str, ...]:
    return tuple(part.strip() for part in text.split(",")) if "," in text else text


NAMED: dict[str, tuple[str, Callable[[str], object]]] = {
    "wheels": ("wheels", int),
    "faces": ("faces", _listed),
    "length": ("length", _lengths),
    "ways": ("moves", int),
    "numbers": ("numbers", int),
    "tolerance": ("tolerance", int),
    "keys": ("keys", _listed),
    "order": ("order_matters", lambda text: text not in NO_WORDS),
    "cheap": ("cheap", lambda text: text not in NO_WORDS),
    "tries": ("wrong_tries", int),
    "rest": ("rest_s", int),
}


def parse_lock(text: str, where: Where) -> LockMake:
    """Return the lock that a short form describes; raises Refused with what cannot be read."""
    name, *parts = (part.strip() for part in text.strip().split(":"))
    name = name.lower()
    if name not in MECHANISMS:
        near = nearest(name, NAMES) or NAMES[0]
        refuse(Problem.of("mechanism.unknown", where, found=name, nearest=near, choices=NAMES))
    fields: dict[str, Any] = {"mechanism": name}
    for part in parts:
        if not part:
            continue
        found = _named(part) if "=" in part else MECHANISMS[name].part(part)
        if found is None:
            refuse(_bad_part(name, part, where))
        fields |= found
    try:
        return LockMake.model_validate(fields)
    except ValidationError as error:
        field = str(error.errors()[0]["loc"][0])
        refuse(_bad_part(name, f"{field} {fields.get(field)}", where))


def _named(part: str) -> dict[str, object] | None:
    name, _, value = (piece.strip() for piece in part.partition("="))
    if name not in NAMED:
        return None
    field, convert = NAMED[name]
    try:
        return {field: convert(value)}
    except ValueError:
        return None


def _bad_part(name: str, part: str, where: Where) -> Problem:
    return Problem.of(
        "mechanism.short-part",
        where,
        mechanism=say(f"mechanism.name-{name}"),
        found=part,
        example=EXAMPLES[name],
        choices=tuple(NAMED),
    )

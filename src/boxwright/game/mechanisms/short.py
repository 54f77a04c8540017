"""A lock in a few characters, for the command line: `number-wheels:3`, `dial:40`.

`MECHANISM[:PART...]`, where a part is a plain one, which the mechanism understands, or
`NAME=VALUE` with a name of the table below. docs/locks.md lists examples.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, get_args

from pydantic import ValidationError

from boxwright.game.mechanisms.making import MECHANISMS, NAMES
from boxwright.game.model import LockMake, LockShape
from boxwright.problems import Arg, Problem, Where, refuse, say
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
OF_ANY = frozenset(LockMake.model_fields) - frozenset(LockShape.model_fields)
"""What may be said of a lock of any mechanism."""
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
        refuse(_no_such_lock(name, where))
    fields: dict[str, Any] = {"mechanism": name}
    for part in parts:
        if not part:
            continue
        found = _named(part) if "=" in part else MECHANISMS[name].part(part)
        if found is None or not _knows(name, found):
            refuse(_bad("mechanism.short-part", name, where, found=part))
        if not fields.keys().isdisjoint(found):
            refuse(_bad("mechanism.short-twice", name, where, found=part))
        fields |= found
    return _held(name, fields, parts, where)


def _held(name: str, fields: dict[str, Any], parts: list[str], where: Where) -> LockMake:
    """Return the lock that `fields` make; raises Refused where a number is out of range."""
    try:
        return LockMake.model_validate(fields)
    except ValidationError as error:
        fault = error.errors()[0]
        field = str(fault["loc"][0])
        short = next(key for key, (known, _) in NAMED.items() if known == field)
        given = f"{fields.get(field)}"
        told = next((part for part in parts if given in part), given)
        low, high = _limits(field)
        if low is None or high is None:
            refuse(_bad("mechanism.short-part", name, where, found=told))
        refuse(
            _bad("mechanism.short-range", name, where, found=told, what=short, low=low, high=high)
        )


def _limits(field: str) -> tuple[int | None, int | None]:
    """Return the least and the most that a field of a lock takes, as far as it says."""
    least: int | None = None
    most: int | None = None
    branches = get_args(LockMake.model_fields[field].annotation)
    for rule in (rule for branch in branches for rule in getattr(branch, "__metadata__", ())):
        for one in getattr(rule, "metadata", ()):
            least = getattr(one, "ge", least)
            most = getattr(one, "le", most)
    return least, most


def _named(part: str) -> dict[str, object] | None:
    name, _, value = (piece.strip() for piece in part.partition("="))
    if name not in NAMED:
        return None
    field, convert = NAMED[name]
    try:
        return {field: convert(value)}
    except ValueError:
        return None


def _knows(name: str, found: Mapping[str, object]) -> bool:
    return found.keys() <= MECHANISMS[name].fields | OF_ANY


def _no_such_lock(name: str, where: Where) -> Problem:
    near = nearest(name, NAMES) or NAMES[0]
    return Problem.of(
        "mechanism.unknown",
        where,
        found=name,
        nearest=near,
        example=EXAMPLES[near],
        choices=tuple(EXAMPLES.values()),
    )


def _bad(code: str, name: str, where: Where, /, **args: Arg) -> Problem:
    known = MECHANISMS[name].fields | OF_ANY
    return Problem.of(
        code,
        where,
        mechanism=say(f"mechanism.name-{name}"),
        example=EXAMPLES[name],
        choices=tuple(key for key, (field, _) in NAMED.items() if field in known),
        edit=None,
        **args,
    )

"""pydantic's errors as Problems: one for each fault, in a teacher's words, with its line.

Choices are printed, the nearest known name is given, and a remedy that needs no thought
comes as an `Edit`.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date, datetime, time
from math import isfinite
from typing import Any

from pydantic import BaseModel, ValidationError

from boxwright.game.format import FORMAT
from boxwright.game.model import ID_PATTERN, TAG_PATTERN
from boxwright.game.right_values import in_toml, meant, numbers_wanted
from boxwright.game.shape import example, known_keys
from boxwright.game.toml_file import TomlFile
from boxwright.game.union_faults import SORTS, Fault, choices_of, faults_of, frozen, sort_of
from boxwright.problems import Arg, Edit, Message, Path, Problem, say
from boxwright.text import better_id, nearest

__all__ = ["dotted", "frozen", "problems_of", "shown"]

SHOWN = 60
ORDINARY = "ordinary"
EXAMPLE_KIND = "nonogram"


def problems_of(error: ValidationError, file: TomlFile, model: type[BaseModel]) -> list[Problem]:
    """Return one Problem for each fault that `model` finds in `file`, in the file's order."""
    faults = faults_of(error, frozen(file.data))
    problems = [_worded(fault, file, model) for fault in faults]
    return sorted(problems, key=lambda one: (one.where.line or 0, one.where.column or 0))


def dotted(path: Path) -> str:
    """Return `path` the way people write it: `locks.wind.code`."""
    return ".".join(str(step + 1) if isinstance(step, int) else step for step in path)


def shown(value: Any) -> Message:
    """Say what `value` is, shortened, with its sort."""
    if isinstance(value, bool):
        return say("folder.found.truth", value=str(value).lower())
    if isinstance(value, str):
        return say("folder.found.text", value=_short(value))
    if isinstance(value, int | float):
        return say("folder.found.number", value=_short(_digits(value)))
    if isinstance(value, date | datetime | time):
        return say("folder.found.date", value=value.isoformat())
    return say("folder.found.list" if isinstance(value, tuple | list) else "folder.found.table")


def _digits(value: float) -> str:
    return str(value) if not isinstance(value, int) or abs(value) < 10**SHOWN else "10…"


def _short(text: str) -> str:
    line = " ".join(text.split())
    return line if len(line) <= SHOWN else line[: SHOWN - 1] + "…"


def _worded(fault: Fault, file: TomlFile, model: type[BaseModel]) -> Problem:
    word = _WORDS.get(fault.type, _odd)
    return word(fault, file, model)


def _problem(
    code: str, fault: Fault, file: TomlFile, edit: Edit | None = None, /, **args: Any
) -> Problem:
    key = dotted(fault.path[-1:])
    table = dotted(fault.path[:-1]) or file.name
    common = {"key": key, "table": table, "path": dotted(fault.path) or file.name}
    found = {} if "found" in args else {"found": shown(fault.found)}
    return Problem.of(
        f"folder.{code}", file.where(fault.path), edit=edit, **common, **found, **args
    )


def _unknown_key(fault: Fault, file: TomlFile, model: type[BaseModel]) -> Problem:
    known = known_keys(model, fault.path[:-1])
    present = _table(file, fault.path[:-1])
    near = nearest(str(fault.path[-1]), [key for key in known if _is_open(present, key, fault)])
    if near is None:
        return _problem("unknown-key", fault, file, choices=known)
    edit = Edit(file.name, fault.path, key=near) if near not in present else None
    return _problem("unknown-key-but", fault, file, edit, near=near, choices=known)


def _is_open(present: Mapping[str, Any], key: str, fault: Fault) -> bool:
    """Tell whether `key` may be meant: it is not there yet, or can take more entries."""
    return key not in present or (
        isinstance(present[key], Mapping) and isinstance(fault.found, Mapping)
    )


def _table(file: TomlFile, path: Path) -> Mapping[str, Any]:
    node: Any = file.data
    for step in path:
        node = node[step]
    return node if isinstance(node, Mapping) else {}


def _missing(fault: Fault, file: TomlFile, model: type[BaseModel]) -> Problem:
    if isinstance(fault.path[-1], int):
        whole = Fault(fault.type, fault.path[:-1], fault.found, fault.limits)
        return _problem("too-few", whole, file, example=example(model, whole.path))
    sample = _own_example(fault, file) or example(model, fault.path)
    if sample.startswith("{"):
        inner = (ORDINARY,) if fault.path[-1] == "versions" else ()
        heading = dotted((*fault.path, *inner))
        return _problem("missing-table", fault, file, heading=heading)
    return _problem("missing-key", fault, file, example=sample)


def _own_example(fault: Fault, file: TomlFile) -> str | None:
    """Return an example out of the file's own names, where the key wants one."""
    key = fault.path[-1]
    if key == "kind":
        return in_toml(EXAMPLE_KIND)
    section = {"closes": "boxes", "gives": "locks"}.get(str(key))
    names = file.data.get(section) if section is not None else None
    ids = [id for id in names if re.fullmatch(ID_PATTERN, id)] if isinstance(names, dict) else []
    if not ids:
        return None
    others = _table(file, fault.path[:1]).values()
    had = [one.get(key) for one in others if isinstance(one, Mapping)]
    # A lock has one clue as a rule, so one that has none yet comes first.
    free = [id for id in ids if key == "closes" or id not in had]
    return in_toml((free or ids)[0])


def _not_a_choice(fault: Fault, file: TomlFile, model: type[BaseModel]) -> Problem:
    if fault.path == ("format",):
        code = "newer-format" if _is_above(fault.found, FORMAT) else "no-format"
        return _problem(code, fault, file, Edit(file.name, fault.path, FORMAT), format=FORMAT)
    choices: tuple[Arg, ...] = (*choices_of(fault), *fault.expected)
    near = nearest(fault.found, choices_of(fault)) if isinstance(fault.found, str) else None
    if near is None:
        return _problem("no-choice", fault, file, choices=choices)
    edit = Edit(file.name, fault.path, near)
    code = "no-member-but" if isinstance(fault.path[-1], int) else "no-choice-but"
    return _problem(code, fault, file, edit, near=near, choices=choices)


def _is_above(found: Any, limit: int) -> bool:
    return isinstance(found, int) and not isinstance(found, bool) and found > limit


def _wrong_sort(fault: Fault, file: TomlFile, model: type[BaseModel]) -> Problem:
    if fault.type in ("model_type", "dict_type") and _is_doubled(fault.found):
        return _problem("double-head", fault, file)
    if fault.type in ("int_type", "float_type") and isinstance(fault.found, str):
        number = re.fullmatch(r"\s*(-?\d{1,9})\s*", fault.found)
        if number is not None:
            edit = Edit(file.name, fault.path, int(number[1]))
            return _problem("quoted-number", fault, file, edit, number=int(number[1]))
    # Where several sorts may stand, what was meant is anybody's guess.
    value = None if fault.tags else meant(fault.type, fault.found, model, fault.path)
    if value is not None:
        return _put_right(fault, file, value)
    wanted = numbers_wanted(model, fault.path)
    if wanted and isinstance(fault.found, int | float):
        return _problem("one-number", fault, file, wanted=wanted, number=in_toml(fault.found))
    expected = (
        fault.expected
        if fault.type == "union"
        else tuple(dict.fromkeys((sort_of(fault), *fault.expected)))
    )
    return _problem("wrong-sort", fault, file, expected=expected)


def _is_doubled(found: Any) -> bool:
    """Tell whether a value comes of a heading with two brackets, which makes a list of tables."""
    members = found if isinstance(found, tuple) else ()
    return bool(members) and all(isinstance(one, Mapping) for one in members)


def _put_right(fault: Fault, file: TomlFile, value: Any) -> Problem:
    """Return the Problem with the value that was meant, as the file is to have it."""
    edit = Edit(file.name, fault.path, value)
    alone = isinstance(fault.path[-1], int)
    right = in_toml(value) if alone else f"{fault.path[-1]} = {in_toml(value)}"
    return _problem("wrong-sort-but", fault, file, edit, expected=sort_of(fault), right=right)


def _bad_form(fault: Fault, file: TomlFile, model: type[BaseModel]) -> Problem:
    pattern, text = fault.limits.get("pattern"), str(fault.found)
    if pattern == ID_PATTERN:
        if fault.is_key or fault.path[-1] == "id":
            return _problem("bad-id", fault, file, better=better_id(text))
        named = _id_of(file, text)
        if named is not None:
            edit = Edit(file.name, fault.path, named)
            return _problem("name-for-id", fault, file, edit, better=named)
        return _problem("bad-id-used", fault, file, better=better_id(text))
    if pattern == TAG_PATTERN:
        better = re.sub(r"[^A-Z0-9]", "", text.upper())
        fits = re.fullmatch(TAG_PATTERN, better) is not None
        return _problem("bad-tag", fault, file, better=better if fits else "N1")
    last = str(fault.path[-1])
    return _problem(f"bad-{last}" if last in ("language", "say") else "odd-value", fault, file)


def _id_of(file: TomlFile, name: str) -> str | None:
    """Return the id of the one thing of `file` that pupils know as `name`, if there is one."""
    found = [
        id
        for things in file.data.values()
        if isinstance(things, Mapping)
        for id, thing in things.items()
        if isinstance(thing, Mapping) and str(thing.get("name", "")).casefold() == name.casefold()
    ]
    return found[0] if len(found) == 1 else None


def _length(fault: Fault, file: TomlFile, model: type[BaseModel]) -> Problem:
    if fault.type == "string_too_short":
        return _problem("empty-text", fault, file)
    if fault.type == "string_too_long":
        return _problem(
            "long-text", fault, file, most=fault.limits["max_length"], n=len(fault.found)
        )
    if fault.type == "too_short":
        return _problem("empty-table", fault, file)
    code = "too-many-numbers" if numbers_wanted(model, fault.path) else "too-many"
    return _problem(code, fault, file, most=fault.limits["max_length"], n=len(fault.found))


def _range(fault: Fault, file: TomlFile, model: type[BaseModel]) -> Problem:
    if isinstance(fault.found, float) and not isfinite(fault.found):
        return _problem("no-number", fault, file)
    (limit,) = (fault.limits[key] for key in ("gt", "ge", "lt", "le") if key in fault.limits)
    code = fault.type.replace("_", "-")
    edge = int(limit) if limit == int(limit) else limit
    return _problem(code, fault, file, limit=edge)


def _odd(fault: Fault, file: TomlFile, model: type[BaseModel]) -> Problem:
    return _problem("odd-value", fault, file)


_WORDS = {
    "extra_forbidden": _unknown_key,
    "missing": _missing,
    "literal_error": _not_a_choice,
    "string_pattern_mismatch": _bad_form,
    "string_too_short": _length,
    "string_too_long": _length,
    "too_short": _length,
    "too_long": _length,
    "greater_than": _range,
    "greater_than_equal": _range,
    "less_than": _range,
    "less_than_equal": _range,
    "finite_number": _range,
    "union": _wrong_sort,
} | dict.fromkeys(SORTS, _wrong_sort)

"""pydantic's errors as faults of a file: one for each slip, at a path of the file.

pydantic tries every branch of a union and reports them all, with the branches' names in
its locations; here the branch that the writer most likely meant is kept.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace
from operator import itemgetter
from typing import Any

from pydantic import ValidationError

from boxwright.frozen import frozen_value
from boxwright.problems import Message, Path, say

SORTS = {
    "string_type": "text",
    "int_type": "whole",
    "float_type": "number",
    "bool_type": "truth",
    "tuple_type": "list",
    "dict_type": "table",
    "model_type": "table",
}


@frozen_value
class Fault:
    """One error of pydantic's, its location made a path of the file.

    `tags` are the union branches on the way: where the union stands, and the branch.
    """

    type: str
    path: Path
    found: Any
    limits: Mapping[str, Any]
    tags: tuple[tuple[Path, str], ...] = ()
    expected: tuple[Message, ...] = ()
    is_key: bool = False


def faults_of(error: ValidationError, data: Any) -> list[Fault]:
    """Return the faults of `data` (as `frozen` gave it) that `error` tells of."""
    return _settled([_fault(item, data) for item in error.errors(include_url=False)], 0)


def frozen(value: Any) -> Any:
    """Return TOML values with tuples for lists, as the strict models want them."""
    if isinstance(value, Mapping):
        return {key: frozen(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return tuple(frozen(inner) for inner in value)
    return value


# From pydantic's locations to paths.


def _fault(item: Mapping[str, Any], data: Any) -> Fault:
    location, kind, found = tuple(item["loc"]), item["type"], item["input"]
    limits = item.get("ctx", {})
    is_key = location[-2:] == (found, "[key]") and kind != "extra_forbidden"
    tail: Path = ()
    if kind == "missing":
        location, tail = location[:-1], location[-1:]
    elif is_key:
        location, tail = location[:-2], location[-2:-1]
    walked = _walk(data, location, None if is_key else found, (), ())
    path, tags = walked if walked is not None else (location, ())
    return Fault(kind, path + tail, found, limits, tags, is_key=is_key)


def _walk(
    node: Any, location: Path, goal: Any, path: Path, tags: tuple[tuple[Path, str], ...]
) -> tuple[Path, tuple[tuple[Path, str], ...]] | None:
    """Follow `location` to the very value `goal`; steps that lead nowhere are union tags."""
    if not location:
        return (path, tags) if goal is None or node is goal or node == goal else None
    step, *rest = location
    if _has(node, step):
        found = _walk(node[step], tuple(rest), goal, (*path, step), tags)
        if found is not None:
            return found
    return _walk(node, tuple(rest), goal, path, (*tags, (path, str(step))))


def _has(node: Any, step: Any) -> bool:
    if isinstance(node, Mapping):
        return step in node
    return isinstance(node, tuple) and isinstance(step, int) and 0 <= step < len(node)


# From all branches of a union to the one that was meant.


def _settled(faults: Iterable[Fault], depth: int) -> list[Fault]:
    settled: list[Fault] = []
    unions: dict[Path, dict[str, list[Fault]]] = {}
    for fault in faults:
        if len(fault.tags) <= depth:
            settled.append(fault)
        else:
            site, tag = fault.tags[depth]
            unions.setdefault(site, {}).setdefault(tag, []).append(fault)
    for site, branches in unions.items():
        settled += _meant(site, list(branches.values()), depth)
    return settled


def _meant(site: Path, branches: list[list[Fault]], depth: int) -> list[Fault]:
    fitting = [branch for branch in branches if not _othersort_of(branch, site)]
    expected = tuple(
        dict.fromkeys(
            sort_of(fault) for branch in branches if branch not in fitting for fault in branch[:1]
        )
    )
    if not fitting:
        first = branches[0][0]
        return [Fault("union", site, first.found, {}, expected=expected)]
    _, best = min(((len(branch), branch) for branch in fitting), key=itemgetter(0))
    return [
        replace(one, expected=expected) if one.path == site else one
        for one in _settled(best, depth + 1)
    ]


def _othersort_of(branch: list[Fault], site: Path) -> bool:
    """Tell whether the value is of another sort than this branch of the union takes."""
    return any(
        fault.path == site
        and (
            fault.type in SORTS
            or (fault.type == "literal_error" and not isinstance(fault.found, str))
        )
        for fault in branch
    )


def sort_of(fault: Fault) -> Message:
    """Say what sort of value a fault wants."""
    if fault.type == "literal_error":
        return say("folder.sort.choice", choices=choices_of(fault))
    return say(f"folder.sort.{SORTS.get(fault.type, 'other')}")


def choices_of(fault: Fault) -> tuple[str, ...]:
    """Return the values that a fault of choice allows."""
    found = re.findall(r"'([^']*)'|(\d+)", str(fault.limits.get("expected", "")))
    return tuple(text or number for text, number in found)

"""One slip, one complaint: what follows from another fault is left out, repeats are gathered.

A misspelt heading makes every use of the right name a fault; a key with a wrong letter is
both unknown and missed. The teacher mends one thing, so one thing is told.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from boxwright.game.toml_file import TomlFile
from boxwright.problems import Edit, Path, Problem, Where
from boxwright.text import better_id, nearest

UNKNOWN = (
    "game.unknown-name",
    "game.unknown-name-but",
    "kit.no-model",
    "kit.no-model-but",
    "kit.no-lock",
    "kit.no-lock-but",
)
MISSING = ("folder.missing-key", "folder.missing-table")
OF_HEAD: Mapping[str, tuple[str, ...]] = {"game": (), "kit": (), "room": ("room.no-plan",)}
"""The table that each file has at its top, and what is found where its keys are lost."""


def told_once(problems: Iterable[Problem], files: Iterable[TomlFile]) -> list[Problem]:
    """Return `problems` of `files`, each slip told once."""
    by_name = {file.name: file for file in files}
    left = list(problems)
    for step in (_misspelt_keys, _clues_apart, _lost_heads, _ill_named, _gathered):
        left = step(left, by_name)
    return left


Files = Mapping[str, TomlFile]


def _misspelt_keys(problems: list[Problem], files: Files) -> list[Problem]:
    """Leave out that a key is missing where a misspelt one is told to be it."""
    meant = {
        (one.where.file, (*one.where.path[:-1], str(one.what.args["near"])))
        for one in problems
        if one.code == "folder.unknown-key-but"
    }
    return [
        one
        for one in problems
        if one.code not in MISSING or (one.where.file, one.where.path) not in meant
    ]


def _clues_apart(problems: list[Problem], files: Files) -> list[Problem]:
    """Tell once of a clue whose versions stand under nearly its name."""
    bare = {_clue(one): one for one in problems if _lacks(one, "versions")}
    parts = {_clue(one): one for one in problems if _lacks(one, "gives")}
    found: list[Problem] = []
    gone: list[Problem] = []
    for name, one in parts.items():
        near = nearest(name, bare)
        if near is not None:
            gone += [one, bare[near]]
            line = bare[near].where.line or 0
            told = Problem.of("game.clue-apart", one.where, id=name, near=near, line=line)
            found.append(told)
    return [one for one in problems if one not in gone] + found


def _lacks(problem: Problem, key: str) -> bool:
    path = problem.where.path
    return problem.code in MISSING and path[:1] == ("clues",) and path[2:] == (key,)


def _clue(problem: Problem) -> str:
    return str(problem.where.path[1])


def _lost_heads(problems: list[Problem], files: Files) -> list[Problem]:
    """Tell once that a file's first heading is missing, not of each line that is then astray."""
    for head in OF_HEAD:
        lost = [one for one in problems if one.code in MISSING and one.where.path == (head,)]
        for one in lost:
            astray = [other for other in problems if _is_astray(other, one.where.file)]
            if astray:
                first = min(astray, key=lambda other: other.where.line or 0)
                where = Where(one.where.file, (head,), first.where.line, 1)
                told = Problem.of("folder.lost-head", where, head=head)
                gone = [one, *astray, *(p for p in problems if p.code in OF_HEAD[head])]
                problems = [p for p in problems if p not in gone] + [told]
    return problems


def _is_astray(problem: Problem, file: str) -> bool:
    unknown = problem.code in ("folder.unknown-key", "folder.unknown-key-but")
    return unknown and problem.where.file == file and len(problem.where.path) == 1


def _ill_named(problems: list[Problem], files: Files) -> list[Problem]:
    """Leave out uses of a name whose heading is told to be ill written."""
    better = [
        better_id(str(one.where.path[-1]))
        for one in problems
        if one.code == "folder.bad-id" and len(one.where.path) == 2
    ]

    def follows(one: Problem) -> bool:
        name = str(one.what.args.get("name", ""))
        alike = name in better or nearest(name, better) is not None
        return one.code in UNKNOWN and (alike or any(name in id.split("-") for id in better))

    return [one for one in problems if not follows(one)]


def _gathered(problems: list[Problem], files: Files) -> list[Problem]:
    """Tell once of each unknown name, at the heading where that is what is misspelt."""
    groups: dict[tuple[str, str], list[Problem]] = {}
    for one in problems:
        if one.code in UNKNOWN:
            key = (one.where.file, str(one.what.args["name"]))
            groups.setdefault(key, []).append(one)
    rest = [one for one in problems if one.code not in UNKNOWN]
    return rest + [_of_name(name, group, files[file]) for (file, name), group in groups.items()]


def _of_name(name: str, group: list[Problem], file: TomlFile) -> Problem:
    first = group[0]
    if len(group) == 1:
        return first
    lines = tuple(sorted({one.where.line or 0 for one in group}))
    near = next((str(one.what.args["near"]) for one in group if "near" in one.what.args), None)
    heading = _unused(near, file) if near is not None else None
    if near is not None and heading is not None:
        where = file.where(heading)
        return Problem.of(
            "game.heading-differs",
            where,
            edit=Edit(file.name, heading, key=name),
            name=name,
            near=near,
            lines=lines,
        )
    code = "game.unknown-name-often" if near is None else "game.unknown-name-often-but"
    return Problem.of(code, first.where, name=name, near=near or "", lines=lines)


def _unused(name: str, file: TomlFile) -> Path | None:
    """Return the path of the heading `name` where no value, text or key of the file names it."""
    headings = [
        (section, name)
        for section, things in file.data.items()
        if isinstance(things, Mapping) and name in things
    ]
    spelt = re.compile(rf"\{{\s*{re.escape(name)}\s*\}}")
    used = any(
        (text == name and (is_value or depth > 1)) or (is_value and spelt.search(text) is not None)
        for depth, text, is_value in _said(file.data, 0)
    )
    return headings[0] if len(headings) == 1 and not used else None


def _said(value: Any, depth: int) -> Iterator[tuple[int, str, bool]]:
    """Yield each key and each text of nested tables: how deep, what, and whether it is a text."""
    if isinstance(value, str):
        yield depth, value, True
    elif isinstance(value, Mapping):
        for key, inner in value.items():
            yield depth, key, False
            yield from _said(inner, depth + 1)
    elif isinstance(value, list):
        for inner in value:
            yield from _said(inner, depth + 1)

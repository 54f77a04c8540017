"""Frozen values as plain JSON and back again, exactly: what is kept is what was made.

A record is a frozen dataclass of str, int, float, bool, tuple, None, mappings by name and
more such dataclasses, so its JSON is objects, lists and plain values: a sheet, an edition,
a list of files. Reading holds it to its type field by field; what is wrong comes back as
problems, each with its path. A field of the type Any is taken as it is.
"""

from __future__ import annotations

import types
from collections.abc import Iterator, Mapping
from dataclasses import MISSING, fields, is_dataclass
from functools import cache
from typing import Any, Literal, TypeVar, Union, get_args, get_origin, get_type_hints

from boxwright.problems import Arg, Message, Path, Problem, Refused, Where, plain, say

T = TypeVar("T")
LONGEST_SHOWN = 40
NAMES = {str: "text", int: "int", float: "float", bool: "bool", type(None): "none"}


def to_json(value: Any) -> Any:
    """Return a record as dicts, lists and plain values."""
    return plain(value)


def from_json(cls: type[T], data: Any, where: Where | None = None) -> T:
    """Return the `cls` that `data` stands for; `where` is the file and path that it came from.

    Raises:
        Refused: with a problem for each field that is missing, unknown or of another type.
    """
    reader = _Reader(where or Where(""))
    value = reader.read(cls, data, ())
    if reader.problems:
        raise Refused(reader.problems)
    return value  # type: ignore[no-any-return]


@cache
def _hints(cls: type) -> dict[str, Any]:
    return get_type_hints(cls)


def _name(kind: Any) -> Message:
    """Say what kind of value a type wants."""
    if kind in NAMES:
        return say(f"record.type-{NAMES[kind]}")
    return say("record.type-list" if get_origin(kind) is tuple else "record.type-object")


class _Reader:
    """Reads values of known types, and gathers what is wrong."""

    def __init__(self, where: Where) -> None:
        self.where = where
        self.problems: list[Problem] = []

    def at(self, path: Path) -> Where:
        """Return the place of `path`, under the one that the data came from."""
        return Where(self.where.file, (*self.where.path, *path), self.where.line)

    def wrong_type(self, path: Path, expected: Arg, data: Any) -> None:
        """Note that `data` at `path` is not what was expected."""
        found = repr(data) if len(repr(data)) <= LONGEST_SHOWN else f"{repr(data)[:LONGEST_SHOWN]}…"
        at = ".".join(map(str, path))
        problem = Problem.of("record.type", self.at(path), at=at, expected=expected, found=found)
        self.problems.append(problem)

    def read(self, kind: Any, data: Any, path: Path) -> Any:
        """Return `data` as a value of the type `kind`."""
        origin = get_origin(kind)
        if origin in (Union, types.UnionType):
            return self._read_union(get_args(kind), data, path)
        if origin is Literal:
            return self._read_literal(get_args(kind), data, path)
        if origin is tuple:
            return self._read_tuple(get_args(kind), data, path)
        if origin is Mapping:
            return self._read_mapping(get_args(kind)[1], data, path)
        if kind is Any:
            return data
        if is_dataclass(kind):
            return self._read_record(kind, data, path)
        return self._read_plain(kind, data, path)

    def _read_plain(self, kind: Any, data: Any, path: Path) -> Any:
        if type(data) is kind:
            return data
        if kind is float and type(data) is int:
            return float(data)
        self.wrong_type(path, _name(kind), data)
        return None

    def _read_literal(self, choices: tuple[Any, ...], data: Any, path: Path) -> Any:
        if any(data == choice and type(data) is type(choice) for choice in choices):
            return data
        self.wrong_type(path, say("record.one-of", choices=tuple(map(str, choices))), data)
        return None

    def _read_union(self, choices: tuple[Any, ...], data: Any, path: Path) -> Any:
        if data is None and type(None) in choices:
            return None
        rest = [choice for choice in choices if choice is not type(None)]
        if len(rest) == 1:
            return self.read(rest[0], data, path)
        for choice in rest:
            trial = _Reader(self.where)
            value = trial.read(choice, data, path)
            if not trial.problems:
                return value
        self.wrong_type(path, say("record.one-of", choices=tuple(map(_name, rest))), data)
        return None

    def _read_tuple(self, inner: tuple[Any, ...], data: Any, path: Path) -> Any:
        if not isinstance(data, list):
            self.wrong_type(path, say("record.type-list"), data)
            return ()
        if inner[-1:] == (...,):
            inner = (inner[0],) * len(data)
        if len(inner) != len(data):
            self.wrong_type(path, say("record.type-list-of", count=len(inner)), data)
            return ()
        pairs = enumerate(zip(inner, data, strict=True))
        return tuple(self.read(kind, item, (*path, at)) for at, (kind, item) in pairs)

    def _read_mapping(self, inner: Any, data: Any, path: Path) -> Any:
        if not isinstance(data, dict):
            self.wrong_type(path, say("record.type-object"), data)
            return {}
        return {name: self.read(inner, item, (*path, name)) for name, item in data.items()}

    def _read_record(self, kind: Any, data: Any, path: Path) -> Any:
        if not isinstance(data, dict):
            self.wrong_type(path, say("record.type-object"), data)
            return None
        hints = _hints(kind)
        for name in data:
            if name not in hints:
                place, choices = self.at((*path, name)), tuple(hints)
                unknown = Problem.of("record.unknown", place, name=name, choices=choices)
                self.problems.append(unknown)
        before = len(self.problems)
        values = {
            name: self.read(hints[name], data[name], (*path, name))
            for name in hints
            if name in data
        }
        for name in self._missing(kind, data):
            self.problems.append(Problem.of("record.missing", self.at((*path, name)), name=name))
        return kind(**values) if len(self.problems) == before else None

    @staticmethod
    def _missing(kind: Any, data: dict[str, Any]) -> Iterator[str]:
        for field in fields(kind):
            optional = field.default is not MISSING or field.default_factory is not MISSING
            if field.name not in data and not optional:
                yield field.name

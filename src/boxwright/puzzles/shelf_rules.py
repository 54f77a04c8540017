"""What the shelf holds a kind to when it loads it: names, types, facts, and the template.

Each rule yields problems with file, name, what was expected and what was found.
"""

from __future__ import annotations

import inspect
import re
import types
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from pathlib import Path
from types import ModuleType
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

from pydantic import BaseModel

from boxwright.frozen import is_frozen
from boxwright.problems import Message, Problem, Where, say
from boxwright.puzzles.contract import Alphabet, Facts, Reader, Use

FUNCTIONS = {
    "refuse": ("answer", "options", "given"),
    "make": ("answer", "options", "given", "dice"),
    "solve": ("sheet", "knows"),
    "describe": ("sheet", "part"),
    "words": ("sheet", "part"),
    "hints": ("sheet", "knows", "solution"),
    "mistakes": ("sheet", "knows", "solution"),
    "effort": ("sheet",),
}
VALUES = {"FACTS": Facts, "RULES": Message}
CLASSES = ("Options", "Sheet", "Knows")
PLAIN = (str, int, float, bool, type(None))
DRAW = re.compile(r"#let\s+draw\(\s*part\s*,\s*sheet\s*,\s*words\s*,\s*look\s*,?\s*\)")


def faults_of(module: ModuleType, file: Path) -> Iterator[Problem]:
    """Yield every breach of the contract by the kind in `file`, loaded as `module`."""
    fault = _Fault(file)
    yield from _missing(module, fault)
    yield from _values(module, fault)
    yield from _functions(module, fault)
    yield from _classes(module, fault)
    if isinstance(getattr(module, "FACTS", None), Facts):
        yield from _facts(module.FACTS, fault)
        yield from _parts(module, fault)
    yield from _template(file)


class _Fault:
    """Makes the problems of one file."""

    def __init__(self, file: Path) -> None:
        self.file = file

    def __call__(self, name: str, expected: Message, found: object) -> Problem:
        where = Where(str(self.file), tuple(name.split(".")))
        shown = found if isinstance(found, Message) else str(found)
        return Problem.of("kind.contract", where, name=name, expected=expected, found=shown)


def _missing(module: ModuleType, fault: _Fault) -> Iterator[Problem]:
    for name in (*VALUES, *CLASSES, *FUNCTIONS):
        if not hasattr(module, name):
            yield fault(name, say(f"kind.expect-{name.lower()}"), say("kind.found-nothing"))


def _values(module: ModuleType, fault: _Fault) -> Iterator[Problem]:
    for name, wanted in VALUES.items():
        value = getattr(module, name, None)
        if value is not None and not isinstance(value, wanted):
            yield fault(name, say(f"kind.expect-{name.lower()}"), type(value).__name__)


def _functions(module: ModuleType, fault: _Fault) -> Iterator[Problem]:
    for name, wanted in FUNCTIONS.items():
        function = getattr(module, name, None)
        if function is None:
            continue
        found = tuple(inspect.signature(function).parameters) if callable(function) else None
        if found != wanted:
            expected = say("kind.expect-signature", arguments=", ".join(wanted))
            yield fault(name, expected, ", ".join(found) if found is not None else repr(function))


def _classes(module: ModuleType, fault: _Fault) -> Iterator[Problem]:
    options = getattr(module, "Options", None)
    if options is not None and not _is_options(options):
        yield fault("Options", say("kind.expect-options"), repr(options))
    for name in ("Sheet", "Knows"):
        kind = getattr(module, name, None)
        if kind is not None:
            for path, found in _not_plain(kind, name):
                yield fault(path, say("kind.expect-plain"), found)


def _is_options(options: Any) -> bool:
    if not (isinstance(options, type) and issubclass(options, BaseModel)):
        return False
    config = options.model_config
    return bool(config.get("frozen")) and config.get("extra") == "forbid"


def _not_plain(
    kind: Any, path: str, seen: frozenset[Any] = frozenset()
) -> Iterator[tuple[str, str]]:
    """Yield each type under `kind` that JSON could not carry there and back."""
    origin = get_origin(kind)
    if kind in PLAIN or kind in seen or origin is Literal:
        return
    if origin in (tuple, Union, types.UnionType):
        for inner in get_args(kind):
            if inner is not Ellipsis:
                yield from _not_plain(inner, path, seen)
    elif isinstance(kind, type) and is_dataclass(kind) and is_frozen(kind):
        hints = get_type_hints(kind)
        for field in fields(kind):
            yield from _not_plain(hints[field.name], f"{path}.{field.name}", seen | {kind})
    else:
        yield path, getattr(kind, "__name__", str(kind))


def _facts(facts: Facts, fault: _Fault) -> Iterator[Problem]:
    if not facts.answers:
        yield fault("FACTS.answers", say("kind.expect-answers"), "()")
    for entry in facts.answers:
        if entry.alphabet not in get_args(Alphabet):
            choices = get_args(Alphabet)
            yield fault("FACTS.answers", say("kind.expect-one-of", choices=choices), entry.alphabet)
        if not 1 <= entry.shortest <= entry.longest:
            found = f"{entry.shortest}, {entry.longest}"
            yield fault("FACTS.answers", say("kind.expect-rising"), found)
    for name in ("ages", "band_minutes"):
        low, high = getattr(facts, name)
        if not 0 < low <= high:
            yield fault(f"FACTS.{name}", say("kind.expect-rising"), f"{low}, {high}")
    for use in sorted(facts.uses - set(get_args(Use))):
        yield fault("FACTS.uses", say("kind.expect-one-of", choices=get_args(Use)), use)


def _parts(module: ModuleType, fault: _Fault) -> Iterator[Problem]:
    parts = module.FACTS.parts
    for part in parts:
        if part.reader not in get_args(Reader):
            choices = get_args(Reader)
            yield fault("FACTS.parts", say("kind.expect-one-of", choices=choices), part.reader)
    sheet = getattr(module, "Sheet", None)
    if not (isinstance(sheet, type) and is_dataclass(sheet)):
        return
    named = [part.name.replace("-", "_") for part in parts]
    hints = get_type_hints(sheet)
    if sorted(named) != sorted(hints):
        yield fault("Sheet", say("kind.expect-parts", names=tuple(named)), ", ".join(hints))
    for name in sorted(set(named) & set(hints)):
        if type(None) not in get_args(hints[name]):
            yield fault(f"Sheet.{name}", say("kind.expect-optional"), hints[name])


def _template(file: Path) -> Iterator[Problem]:
    template = file.with_suffix(".typ")
    text = template.read_text(encoding="utf-8") if template.is_file() else ""
    if not DRAW.search(text):
        yield _Fault(template)("draw", say("kind.expect-draw"), say("kind.found-nothing"))

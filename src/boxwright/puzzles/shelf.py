"""The shelf of kinds: finds them, holds them to the contract, and loads them late.

A kind is a Python file and a Typst file of one stem in this folder; nothing else lists
it. Its id is the stem with hyphens (`quiz_index.py` and `quiz_index.typ` are the kind
`quiz-index`), and its words stand in the catalogue of that id. A file that has no twin
(this one, tables, helpers of a kind) is none.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from functools import cache
from importlib import import_module, util
from pathlib import Path
from types import ModuleType
from typing import cast

from boxwright.problems import Message, Problem, Refused, Where, say
from boxwright.puzzles.contract import Answer, Kind
from boxwright.puzzles.shelf_rules import faults_of
from boxwright.text import nearest

HERE = Path(__file__).parent
PACKAGE = __name__.rpartition(".")[0]


class Shelf:
    """All kinds of some folders, by id; the package's own folder comes first."""

    def __init__(self, *extra: Path) -> None:
        """Look into the package's folder, and then into `extra` ones."""
        self.files: dict[str, Path] = {}
        for folder in (HERE, *extra):
            for file in sorted(folder.glob("*.py")):
                if file.with_suffix(".typ").is_file():
                    self.files.setdefault(file.stem.replace("_", "-"), file)
        self._loaded: dict[str, Kind] = {}

    def names(self) -> tuple[str, ...]:
        """Return the ids of all kinds, in alphabetical order; loads none."""
        return tuple(sorted(self.files))

    def kind(self, name: str) -> Kind:
        """Return the kind `name`, loading it alone.

        Raises:
            Refused: if there is none of that name, or if it does not keep the contract.
        """
        if name not in self.files:
            raise Refused([self.unknown(name, Where(""))])
        if name not in self._loaded:
            self._loaded[name] = load(name, self.files[name])
        return self._loaded[name]

    def all_kinds(self) -> Iterator[tuple[str, Kind]]:
        """Yield every kind with its id, loading each when its turn comes."""
        for name in self.names():
            yield name, self.kind(name)

    def unknown(self, name: str, where: Where) -> Problem:
        """Return the problem that no kind is called `name`, with the nearest that is."""
        choices = self.names()
        near = nearest(name, choices)
        code = "kind.unknown-near" if near else "kind.unknown"
        return Problem.of(code, where, name=name, near=near or "", choices=choices)

    def carriers(self, answer: Answer) -> tuple[str, ...]:
        """Return the ids of all kinds that can carry `answer`."""
        return tuple(name for name, kind in self.all_kinds() if kind.FACTS.carries(answer))

    def cannot_carry(self, name: str, answer: Answer) -> Problem:
        """Return the problem that kind `name` cannot carry `answer`, naming kinds that can.

        The place is the version's own, for the caller to fill in: a kind knows no files.
        """
        carriers = tuple(carrier for carrier in self.carriers(answer) if carrier != name)
        code = "kind.cannot-carry" if carriers else "kind.none-carries"
        return Problem.of(
            code,
            Where("", ("kind",)),
            kind=name,
            title=say(f"{name}.title"),
            answer=" ".join(answer.symbols),
            carries=carried(self.kind(name)),
            choices=carriers,
            titles=tuple(say(f"{carrier}.title") for carrier in carriers),
        )


def carried(kind: Kind) -> tuple[Message, ...]:
    """Say what `kind` carries: `1 to 4 digits`, `1 to 3 letters`."""
    return tuple(
        say(f"kind.carries-{entry.alphabet}", shortest=entry.shortest, longest=entry.longest)
        for entry in kind.FACTS.answers
    )


@cache
def shelf() -> Shelf:
    """Return the shelf of the package's own kinds."""
    return Shelf()


def names() -> tuple[str, ...]:
    """Return the ids of all kinds."""
    return shelf().names()


def kind(name: str) -> Kind:
    """Return the kind `name`; see `Shelf.kind`."""
    return shelf().kind(name)


def all_kinds() -> Iterator[tuple[str, Kind]]:
    """Yield every kind with its id."""
    return shelf().all_kinds()


def kinds_that_carry(answer: Answer) -> tuple[str, ...]:
    """Return the ids of all kinds that can carry `answer`."""
    return shelf().carriers(answer)


def load(name: str, file: Path) -> Kind:
    """Return the kind in `file` under the id `name`, if it keeps the contract.

    Raises:
        Refused: with every breach, each saying file, name, what was expected and found.
    """
    module = _import(name, file)
    faults = tuple(faults_of(module, file))
    if faults:
        raise Refused(faults)
    return cast(Kind, module)


def _import(name: str, file: Path) -> ModuleType:
    """Import one of the package's own as what it is, any other under a name of its own."""
    try:
        if file.parent == HERE:
            return import_module(f"{PACKAGE}.{file.stem}")
        spec = util.spec_from_file_location(f"boxwright_kind_{file.stem}", file)
        assert spec is not None
        assert spec.loader is not None
        module = util.module_from_spec(spec)
        sys.modules[spec.name] = module
        spec.loader.exec_module(module)
    except Exception as error:
        found = f"{type(error).__name__}: {error}"
        raise Refused(
            [Problem.of("kind.import", Where(str(file)), kind=name, found=found)]
        ) from error
    return module

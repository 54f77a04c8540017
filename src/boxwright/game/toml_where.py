"""Where each thing of a TOML text stands: a lexer only; the values come from `tomllib`.

`outline` takes a text that `tomllib` has accepted (TOML 1.0, line feeds alone), so it
need not judge it. It finds every key and every list member, quoted and dotted keys,
tables, lists of tables and inline tables included. Standard: https://toml.io/en/v1.0.0
"""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass, field

from boxwright.frozen import frozen_value
from boxwright.problems import Path

Spot = tuple[int, int]

_BLANK = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_SPACE = re.compile(r"[ \t]*")
_BARE = re.compile(r"[^\s.=\]\"'#]+")
_STRING = re.compile(
    r'"""(?:\\[\s\S]|[^\\])*?"{3,5}'
    r"|'''[\s\S]*?'{3,5}"
    r'|"(?:\\.|[^"\\])*"'
    r"|'[^']*'"
)
_SCALAR = re.compile(r"[^\n,\]}#]+")


@frozen_value
class Token:
    """One key as written: the path it stands for, and its first and last-but-one offset."""

    path: Path
    start: int
    end: int


@dataclass(slots=True)
class Section:
    """A heading and the pairs below it: its path, where it starts, where its last pair ends.

    The pairs before the first heading have the path `()`.
    """

    path: Path
    start: int
    end: int


@frozen_value
class Outline:
    """What stands where in one text.

    `spots` maps each path to its line and column, both from 1; `keys` lists every key
    token, as often as it is written; `values` maps paths to the span of their value,
    for those that have one of their own (tables with a header have none). `sections`
    are in the order of the text; `pairs` maps the path of each pair that stands under a
    heading, not inside another value, to its span.
    """

    spots: Mapping[Path, Spot]
    keys: tuple[Token, ...]
    values: Mapping[Path, tuple[int, int]]
    sections: tuple[Section, ...] = ()
    pairs: Mapping[Path, tuple[int, int]] = field(default_factory=dict)


@dataclass(slots=True)
class _Reader:
    text: str
    at: int = 0
    found: dict[Path, int] = field(default_factory=dict)
    keys: list[Token] = field(default_factory=list)
    values: dict[Path, tuple[int, int]] = field(default_factory=dict)
    last: dict[Path, int] = field(default_factory=dict)
    """For each list of tables, the number of its newest member."""
    sections: list[Section] = field(default_factory=lambda: [Section((), 0, 0)])
    under: dict[Path, tuple[int, int]] = field(default_factory=dict)

    def skip(self, pattern: re.Pattern[str]) -> None:
        match = pattern.match(self.text, self.at)
        self.at = match.end() if match else self.at

    def take(self, mark: str) -> bool:
        """Step over `mark` if it comes next."""
        if not self.text.startswith(mark, self.at):
            return False
        self.at += len(mark)
        return True

    def read(self) -> None:
        self.skip(_BLANK)
        while self.at < len(self.text):
            start = self.at
            if self.text[start] == "[":
                self.sections.append(Section(self.header(), start, self.at))
            else:
                path = self.pair(self.sections[-1].path)
                self.under[path] = (start, self.at)
                self.sections[-1].end = self.at
            self.skip(_BLANK)

    def header(self) -> Path:
        many = self.text.startswith("[[", self.at)
        self.at += 2 if many else 1
        names = self.key()
        self.at += 2 if many else 1
        path: Path = ()
        for place, (name, start, end) in enumerate(names):
            path = (*path, name)
            self.note(path, start, end, named=place == len(names) - 1 and not many)
            if many and place == len(names) - 1:
                self.last[path] = self.last.get(path, -1) + 1
                self.found[(*path, self.last[path])] = start
            if path in self.last:
                path = (*path, self.last[path])
        return path

    def pair(self, prefix: Path) -> Path:
        path = prefix
        for name, start, end in self.key():
            path = (*path, name)
            self.note(path, start, end, named=False)
        self.take("=")
        self.skip(_SPACE)
        self.value(path)
        return path

    def note(self, path: Path, start: int, end: int, *, named: bool) -> None:
        """Keep a key; a table's own header (`named`) goes before an earlier mention of it."""
        self.keys.append(Token(path, start, end))
        if named or path not in self.found:
            self.found[path] = start

    def key(self) -> list[tuple[str, int, int]]:
        """Read a dotted key and the blanks around it; each part with its span."""
        parts = []
        while True:
            self.skip(_SPACE)
            start = self.at
            quoted = self.text[start] in "\"'"
            self.skip(_STRING if quoted else _BARE)
            raw = self.text[start : self.at]
            parts.append((_unquoted(raw) if quoted else raw, start, self.at))
            self.skip(_SPACE)
            if not self.take("."):
                return parts

    def value(self, path: Path) -> None:
        start = self.at
        if self.take("["):
            self.members(path)
        elif self.take("{"):
            self.pairs(path)
        elif self.text[start] in "\"'":
            self.skip(_STRING)
        else:
            self.skip(_SCALAR)
            self.at = start + len(self.text[start : self.at].rstrip())
        self.values[path] = (start, self.at)

    def members(self, path: Path) -> None:
        number = 0
        self.skip(_BLANK)
        while not self.take("]"):
            self.found[(*path, number)] = self.at
            self.value((*path, number))
            number += 1
            self.skip(_BLANK)
            self.take(",")
            self.skip(_BLANK)

    def pairs(self, path: Path) -> None:
        self.skip(_BLANK)
        while not self.take("}"):
            self.pair(path)
            self.skip(_BLANK)
            self.take(",")
            self.skip(_BLANK)


def _unquoted(raw: str) -> str:
    return next(iter(tomllib.loads(f"{raw} = 0")))


def outline(text: str) -> Outline:
    """Return what stands where in `text`, which `tomllib.loads` accepts.

    Raises RecursionError where lists or tables are nested some hundred deep.
    """
    reader = _Reader(text)
    reader.read()
    starts = [0, *(match.end() for match in re.finditer("\n", text))]

    def spot(offset: int) -> Spot:
        line = bisect_right(starts, offset)
        return line, offset - starts[line - 1] + 1

    spots = {path: spot(offset) for path, offset in reader.found.items()}
    return Outline(spots, tuple(reader.keys), reader.values, tuple(reader.sections), reader.under)

"""One TOML file from the disk: its bytes to text, its text to values with their places."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path as File
from typing import Any

from boxwright.game.toml_where import Outline, outline
from boxwright.problems import Path, Problem, Where

BOM = b"\xef\xbb\xbf"
LARGEST = 2_000_000
_LOOK_BACK = 80
_WIDE = (b"\xff\xfe", b"\xfe\xff")


@dataclass(frozen=True, slots=True)
class TomlFile:
    """A file as it was read: how people call it, its values, and where each stands."""

    name: str
    text: str
    data: Mapping[str, Any]
    outline: Outline

    def where(self, path: Path) -> Where:
        """Return the place of `path`, or of the nearest known path that holds it."""
        for length in range(len(path), 0, -1):
            spot = self.outline.spots.get(path[:length])
            if spot is not None:
                return Where(self.name, path, *spot)
        return Where(self.name, path, 1, 1)


def read_bytes(path: File, name: str, largest: int = LARGEST) -> bytes | Problem:
    """Return the bytes of `path`, or why they cannot be had."""
    where = Where(name)
    try:
        if path.stat().st_size > largest:
            return Problem.of("folder.too-large", where, name=name, most=largest // 1000)
        return path.read_bytes()
    except FileNotFoundError:
        return Problem.of("folder.missing", where, name=name)
    except OSError as error:
        return Problem.of("folder.unreadable", where, name=name, why=error.strerror or str(error))


def decoded(raw: bytes, name: str) -> str | Problem:
    """Return UTF-8 `raw` as text with plain line feeds; a byte order mark is dropped."""
    if raw.startswith(_WIDE) or b"\x00" in raw[:200]:
        return Problem.of("folder.utf-16", Where(name), name=name)
    try:
        text = raw.removeprefix(BOM).decode("utf-8")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        return Problem.of("folder.not-utf-8", Where(name, (), line), name=name, line=line)
    return text.replace("\r\n", "\n")


def parsed(text: str, name: str) -> TomlFile | Problem:
    """Return what `text` (decoded) says, or its first fault of form with its line."""
    try:
        return TomlFile(name, text, tomllib.loads(text), outline(text))
    except tomllib.TOMLDecodeError as error:
        return _fault(text, name, str(error))
    except RecursionError:
        return Problem.of("folder.too-deep", Where(name, (), 1), name=name)
    except ValueError:  # Python refuses to read whole numbers of thousands of digits
        return Problem.of("folder.long-number", _longest_digits(text, name), name=name)


def _longest_digits(text: str, name: str) -> Where:
    run = max(re.finditer(r"[0-9_]+", text), key=lambda found: found.end() - found.start())
    return Where(name, (), text[: run.start()].count("\n") + 1)


_FAULTS = (
    ("Unterminated string", "open-text"),
    ("Expected \"'''\"", "open-text"),
    ('Expected \'"""\'', "open-text"),
    ("Expected '\"'", "open-text"),
    ('Expected "\'"', "open-text"),
    ("Illegal character '\\n'", "open-text"),
    ("Found invalid character '\\n'", "open-text"),
    ("Illegal character", "odd-sign"),
    ("Found invalid character", "odd-sign"),
    ("Unescaped '\\'", "backslash"),
    ("Escaped character is not", "backslash"),
    ("Invalid hex value", "backslash"),
    ("Expected '=' after a key", "no-equals"),
    ("Cannot declare", "twice"),
    ("Cannot overwrite", "twice"),
    ("Cannot mutate", "twice"),
    ("Cannot redefine", "twice"),
    ("Duplicate inline table key", "twice"),
    ("Invalid initial character for a key part", "no-key"),
    ("Unclosed array", "open-list"),
    ("Unclosed inline table", "open-braces"),
    ("Expected ']'", "open-head"),
    ("Invalid value", "no-value"),
    ("Expected newline or end of document", "more-on-line"),
    ("Invalid date or datetime", "no-date"),
    ("Invalid statement", "no-statement"),
)


def _fault(text: str, name: str, said: str) -> Problem:
    """Word what `tomllib` said; its English stays inside."""
    at = re.search(r"\(at line (\d+), column (\d+)\)", said)
    lines = text.split("\n")
    line, column = (int(at[1]), int(at[2])) if at else _last_begun(lines)
    sort = next((ours for theirs, ours in _FAULTS if said.startswith(theirs)), "odd-form")
    if sort == "no-value" and not at and _opens_list(lines[line - 1]):
        sort = "open-list"
    shown = lines[line - 1].strip()[:80]
    return Problem.of(
        f"folder.{sort}", Where(name, (), line, column), text=shown, line=line, column=column
    )


def _last_begun(lines: list[str]) -> tuple[int, int]:
    """Find the statement that is still open at the end: all before it reads well."""
    for count in range(len(lines) - 1, max(-1, len(lines) - _LOOK_BACK), -1):
        try:
            tomllib.loads("\n".join(lines[:count]))
        except ValueError:
            continue
        return _first_written(lines, count)
    return len(lines), len(lines[-1]) + 1


def _first_written(lines: list[str], count: int) -> tuple[int, int]:
    """Return the first line from `count` on (from 0) that holds more than a comment."""
    for number in range(count, len(lines)):
        start = lines[number].lstrip()
        if start and not start.startswith("#"):
            return number + 1, len(lines[number]) - len(start) + 1
    return len(lines), 1


def _opens_list(line: str) -> bool:
    return "[" in line.partition("=")[2]


def read_toml(path: File, name: str) -> TomlFile | Problem:
    """Read the file `path`, which people know as `name`."""
    raw = read_bytes(path, name)
    if isinstance(raw, Problem):
        return raw
    return parse_bytes(raw, name)


def parse_bytes(raw: bytes, name: str) -> TomlFile | Problem:
    """Read `raw` as the file `name`."""
    text = decoded(raw, name)
    return text if isinstance(text, Problem) else parsed(text, name)

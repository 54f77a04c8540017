"""One TOML file from the disk: its bytes to text, its text to values with their places."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from pathlib import Path as File
from typing import Any

from boxwright.frozen import frozen_value
from boxwright.game.toml_faults import syntax_fault
from boxwright.game.toml_where import Outline, outline
from boxwright.problems import Path, Problem, Where

BOM = b"\xef\xbb\xbf"
LARGEST = 2_000_000
_WIDE = (b"\xff\xfe", b"\xfe\xff")


@frozen_value
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
        return syntax_fault(text, name, str(error))
    except RecursionError:
        return Problem.of("folder.too-deep", Where(name, (), 1), name=name)
    except ValueError:  # Python refuses to read whole numbers of thousands of digits
        return Problem.of("folder.long-number", _longest_digits(text, name), name=name)


def _longest_digits(text: str, name: str) -> Where:
    run = max(re.finditer(r"[0-9_]+", text), key=lambda found: found.end() - found.start())
    return Where(name, (), text[: run.start()].count("\n") + 1)


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

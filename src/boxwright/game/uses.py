"""Every place in game.toml where an id is used: as a key, as a value, in a text.

The raw values are searched, so that a game with faults can be renamed too.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, Literal

from boxwright.game.draft import SECTIONS
from boxwright.game.placeholders import spans
from boxwright.problems import Path

Use = Literal["key", "value", "text"]

_ANY = "*"
_KEYS: tuple[Path, ...] = (
    *((section, _ANY) for section in SECTIONS),
    ("clues", _ANY, "versions", _ANY, "moves", _ANY),
    ("arrangements", _ANY, "versions", _ANY),
)
_VERSION: Path = ("clues", _ANY, "versions", _ANY)
_VALUES: tuple[Path, ...] = (
    ("boxes", _ANY, "place"),
    ("boxes", _ANY, "place", _ANY),
    ("items", _ANY, "place"),
    ("items", _ANY, "place", _ANY),
    ("locks", _ANY, "closes"),
    ("locks", _ANY, "opened_by"),
    ("clues", _ANY, "gives"),
    *((*_VERSION, key) for key in ("place", "on")),
    *((*_VERSION, key, _ANY) for key in ("place", "parts", "needs", "adds", "drops", "moves")),
    (*_VERSION, "parts", _ANY, _ANY),
    *(("story", part, _ANY, "when") for part in ("opening", "closing", "unfinished")),
)
_TEXTS: tuple[Path, ...] = (
    *(("story", part, _ANY) for part in ("opening", "closing", "unfinished")),
    *(("story", part, _ANY, "text") for part in ("opening", "closing", "unfinished")),
    ("story", "debrief", _ANY, "ask"),
    (*_VERSION, "hints", _ANY),
)


def uses(game: Mapping[str, Any], id: str) -> Iterator[tuple[Use, Path]]:
    """Yield each use of `id` in the raw game file, and its path; a key's own path names it."""
    for path, value in _walk(game, ()):
        if path[-1] == id and _fits(path, _KEYS):
            yield "key", path
        if value == id and _fits(path, _VALUES):
            yield "value", path
        if isinstance(value, str) and _fits(path, _TEXTS) and any(spans(value, id)):
            yield "text", path


def _fits(path: Path, patterns: tuple[Path, ...]) -> bool:
    return any(
        len(path) == len(pattern)
        and all(want in (_ANY, step) for step, want in zip(path, pattern, strict=True))
        for pattern in patterns
    )


def _walk(value: Any, base: Path) -> Iterator[tuple[Path, Any]]:
    pairs: Any = ()
    if isinstance(value, Mapping):
        pairs = value.items()
    elif isinstance(value, list):
        pairs = enumerate(value)
    for key, inner in pairs:
        yield (*base, key), inner
        yield from _walk(inner, (*base, key))

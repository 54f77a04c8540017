"""Whatever is done to a game folder, it is read, or it is told where it is wrong.

A sound folder is spoiled in every way that a hand, an editor or a disk may spoil it.
Nothing may escape as an error of ours, and each fault has a file and a line; a line is
left out only where a file is not there or is no text at all.
"""

from __future__ import annotations

import copy
import json
import tomllib
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from boxwright.content.read import content_faults
from boxwright.game.arrange import Wishes, arrange
from boxwright.game.folder import Folder, read_game
from boxwright.game.toml_literal import literal
from boxwright.messages import words
from boxwright.problems import Problem, plain

SAMPLE = Path(__file__).with_name("sample")
FILES = ("game.toml", "kit.toml", "room.toml")
RAW = {name: (SAMPLE / name).read_bytes() for name in FILES}
DATA = {name: tomllib.loads(raw.decode()) for name, raw in RAW.items()}
NO_LINE = {"folder.utf-16", "folder.missing", "folder.unreadable", "folder.too-large"}
QUIET = settings(
    deadline=None,
    suppress_health_check=list(HealthCheck),
    phases=[Phase.explicit, Phase.reuse, Phase.generate, Phase.shrink],
)


def told(problem: Problem) -> None:
    """A fault has its place, words for a person, and goes into JSON."""
    assert problem.where.file
    assert problem.where.line is not None or problem.code in NO_LINE
    for message in (problem.what, problem.remedy):
        said = words(message)
        assert message.id not in said
        assert "{" not in message.id
    json.dumps(plain(problem), default=str)


def try_all(instead: dict[str, bytes]) -> None:
    outcome = read_game(SAMPLE, also=[content_faults], instead=instead)
    if not isinstance(outcome, Folder):
        assert outcome
        for problem in outcome:
            told(problem)
        return
    for wishes in (Wishes(), Wishes(arrangement=next(iter(outcome.game.arrangements), None))):
        arranged = arrange(outcome, wishes)
        if isinstance(arranged, tuple):
            for problem in arranged:
                told(problem)


# Values swapped, keys misspelt, parts taken out or doubled.


def paths(value: Any, base: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    pairs: Any = value.items() if isinstance(value, dict) else enumerate(value)
    for key, inner in pairs:
        yield (*base, key)
        if isinstance(inner, dict | list):
            yield from paths(inner, (*base, key))


ALL_PATHS = [(name, path) for name, data in DATA.items() for path in paths(data)]
ODD = st.sampled_from(
    ["", "x", "Ünïcødé 数学 🍎", "trunk", "hatch", "any low-shelf", "any ", "{trunk", "{}",
     "../a.csv", "\x00", "=1+1", "#set", "\u202e",
      "e\u0301", "x" * 5000, 0, -1, 3, 10**30, -(10**400), 1.5,
     float("nan"), float("inf"), -0.0, True, False, [], [[]], [1, "a"], ["trunk", 2], {}, {"a": {}},
     {"when": "pouch"}, {"str": 5}, date(2031, 5, 6), [date(2031, 5, 6)]]
)  # fmt: skip
KEYS = st.sampled_from(
    ["", "x", "Trunk", "trunk", "hatch", "start", "shelf", "ä ö", "a.b", "\x07", "versions",
     "place",      "N1", "str", "[key]", "tuple[str, ...]", "x" * 60]
)  # fmt: skip


@st.composite
def spoilt(draw: st.DrawFn) -> dict[str, bytes]:
    """One file with one to three of its parts changed, as TOML."""
    data = copy.deepcopy(DATA)
    changed = set()
    for _ in range(draw(st.integers(1, 3))):
        name, path = draw(st.sampled_from(ALL_PATHS))
        if _spoil(draw, data[name], path):
            changed.add(name)
    return {name: written(data[name]) for name in changed}


def written(data: dict[str, Any]) -> bytes:
    """Write one line for each part of a part (tomlkit's own writing takes most of the time)."""
    lines: list[str] = []
    for key, value in data.items():
        if not isinstance(value, dict):
            lines.insert(0, f"{literal(key)} = {literal(value)}")
            continue
        lines += [f"[{literal(key)}]", *(f"{literal(k)} = {literal(v)}" for k, v in value.items())]
    return "\n".join(lines).encode()


def _spoil(draw: st.DrawFn, data: Any, path: tuple[Any, ...]) -> bool:
    for step in path[:-1]:
        try:
            data = data[step]
        except (KeyError, IndexError, TypeError):
            return False
    if not isinstance(data, dict | list):
        return False
    last = path[-1]
    there = last in (data if isinstance(data, dict) else range(len(data)))
    if not there:
        return False
    way = draw(st.sampled_from(["value", "value", "drop", "key", "swap"]))
    if way == "value":
        data[last] = draw(ODD)
    elif way == "drop":
        del data[last]
    elif way == "key" and isinstance(data, dict):
        data[draw(KEYS)] = data.pop(last)
    else:
        other = draw(st.sampled_from(list(data) if isinstance(data, dict) else range(len(data))))
        data[last], data[other] = data[other], data[last]
    return True


@settings(QUIET, max_examples=150)
@given(spoilt())
def test_changed_values_and_keys(files: dict[str, bytes]) -> None:
    try_all(files)


# Letters and bytes changed, cut off, doubled.


@st.composite
def damaged(draw: st.DrawFn) -> dict[str, bytes]:
    """One file with bytes flipped, cut out, doubled, put in, or cut off at the end."""
    name = draw(st.sampled_from(FILES))
    raw = bytearray(RAW[name])
    for _ in range(draw(st.integers(1, 3))):
        at = draw(st.integers(0, max(len(raw) - 1, 0)))
        length = draw(st.integers(1, 40))
        way = draw(st.sampled_from(["flip", "cut", "double", "put", "end"]))
        if way == "flip" and raw:
            raw[at] ^= 1 << draw(st.integers(0, 7))
        elif way == "cut":
            del raw[at : at + length]
        elif way == "double":
            raw[at:at] = raw[at : at + length]
        elif way == "put":
            raw[at:at] = draw(
                st.sampled_from([b'"', b"'''", b"[", b"]", b"{", b"}", b"=", b"\n", b"\r", b"\\",
                                 b"#", b",", b".", b"\xff", b"\x00", b"\xe9", b"1e999"])
            )  # fmt: skip
        else:
            del raw[at:]
    return {name: bytes(raw)}


@settings(QUIET, max_examples=150)
@given(damaged())
def test_damaged_files(files: dict[str, bytes]) -> None:
    try_all(files)


# Lines moved about, as when pasting.


@st.composite
def pasted(draw: st.DrawFn) -> dict[str, bytes]:
    name = draw(st.sampled_from(FILES))
    lines = RAW[name].split(b"\n")
    start, length, to = (draw(st.integers(0, len(lines))) for _ in range(3))
    piece = lines[start : start + length % 12]
    if draw(st.booleans()):
        del lines[start : start + len(piece)]
    lines[to:to] = piece
    return {name: b"\n".join(lines)}


@settings(QUIET, max_examples=80)
@given(pasted())
def test_lines_pasted_elsewhere(files: dict[str, bytes]) -> None:
    try_all(files)


@settings(QUIET, max_examples=60)
@given(
    st.sampled_from(FILES),
    st.binary(max_size=80)
    | st.text(max_size=80).map(lambda text: text.encode("utf-8", "surrogatepass")),
)
def test_files_of_anything(name: str, raw: bytes) -> None:
    try_all({name: raw})

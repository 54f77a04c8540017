"""Slips of a hurried hand in one line of TOML, each with the line as it was meant.

What is proposed is read by `tomllib` first, so that a remedy never gives a line that is
wrong again.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterator
from typing import NamedTuple

from boxwright.game.right_values import TRUTHS, in_toml
from boxwright.text import better_id

_PAIR = re.compile(r"(?P<key>[A-Za-z0-9_-]+)\s*(?P<mark>[=:])\s*(?P<value>.*)")
_HEAD = re.compile(r"(?P<open>\[\[?)(?P<name>[^\[\]\"'#]*)(?P<close>\]\]?)")
_HALF_HEAD = re.compile(r"(?P<open>\[?)(?P<name>[A-Za-z0-9_-]+(?:\.[A-Za-z0-9_-]+)+)(?P<close>\]?)")
_BLANK_KEY = re.compile(r"(?P<key>[A-Za-z][\w-]*(?:[ \t]+[\w-]+)+)\s*=\s*(?P<value>.+)")
_ODD_BLANK = re.compile(r"[\u00a0\u2000-\u200a\u202f\u205f\u3000]")
_SPLIT = re.compile(r"[\s:/]+")
_FOREIGN_REMARK = re.compile(r"(?://|--|;)\s*(?P<text>.*)")
_REMARK = re.compile(r"\s+#.*$")
_BARE = re.compile(r"[A-Za-z0-9_-]+")
_STICKER = re.compile(r"([A-Z]{1,3})\W?([0-9]{1,3})")
_NOUGHTS = re.compile(r"0[0-9]+")
_COMMA = re.compile(r"([0-9]+),([0-9]+)")
_CURLY = re.compile("[“”„‟«»‘’‚]")
_WORDS = re.compile(r"[^\W\d_][^\"\\\[\]{}=,]*")
_TEXTS = re.compile(r"(?<=\")[ \t]+(?=\")")
_NUMBERS = re.compile(r"[0-9.]+(?:[ \t]+[0-9.]+)+")
_UNIT = re.compile(r"([0-9]+)\s*(?:mm|min|mins|minutes?|years?)")  # not read by people
_CODES = ("code", "shelf_code", "figures")


class Slip(NamedTuple):
    """The sort of a slip, and the line, or its value alone, as it should be."""

    sort: str
    line: str


def slip_in(line: str) -> Slip | None:
    """Return what is wrong with `line` and how it is right, where that can be told.

    None too where the line reads well by itself: its fault is not in it.
    """
    bare = _REMARK.sub("", line.strip()) if not _quoted(line) else line.strip()
    if _reads(bare):
        return None
    return next((slip for slip in _slips(bare) if _reads(slip.line)), None)


def _quoted(line: str) -> bool:
    return '"' in line or "'" in line


def _slips(line: str) -> Iterator[Slip]:
    if _ODD_BLANK.search(line):
        yield Slip("odd-blank", _ODD_BLANK.sub(" ", line))
    remark = _FOREIGN_REMARK.fullmatch(line)
    if remark is not None:
        yield Slip("remark", f"# {remark['text']}")
    yield from _heads(line)
    spaced = _BLANK_KEY.fullmatch(line)
    if spaced is not None:
        yield Slip("spaced-key", f"{'_'.join(spaced['key'].split())} = {spaced['value']}")
    pair = _PAIR.fullmatch(line)
    if pair is None:
        return
    if pair["mark"] == ":":
        mended = next(_values(pair["key"], pair["value"]), Slip("", pair["value"]))
        yield Slip("colon", f"{pair['key']} = {mended.line}")
        return
    for sort, value in _values(pair["key"], pair["value"]):
        yield Slip(sort, f"{pair['key']} = {value}")


def _heads(line: str) -> Iterator[Slip]:
    half = _HALF_HEAD.fullmatch(line)
    if half is not None and bool(half["open"]) != bool(half["close"]):
        yield Slip("half-head", f"[{half['name']}]")
    head = _HEAD.fullmatch(line)
    if head is not None:
        name = head["name"].strip()
        parts = name.split(".") if "." in name else _SPLIT.split(name, maxsplit=1)
        right = ".".join(_name(part.strip()) for part in parts)
        yield Slip("name-in-head", head["open"] + right + head["close"])


def _name(part: str) -> str:
    if _BARE.fullmatch(part) or not part:
        return part
    sticker = _STICKER.fullmatch(part)
    return sticker[1] + sticker[2] if sticker else better_id(part)


def _values(key: str, value: str) -> Iterator[Slip]:
    for sort, mend in _MENDS.items():
        mended = mend(key, value)
        if mended is not None and _reads(f"{key} = {mended}"):
            yield Slip(sort, mended)


def _nought(key: str, value: str) -> str | None:
    if not _NOUGHTS.fullmatch(value):
        return None
    return f'"{value}"' if key in _CODES else str(int(value))


def _comma(key: str, value: str) -> str | None:
    found = _COMMA.fullmatch(value)
    if found is None:
        return None
    return f"{found[1]}.{found[2]}"


def _unit(key: str, value: str) -> str | None:
    found = _UNIT.fullmatch(value)
    return None if found is None else str(int(found[1]))


def _quotes(key: str, value: str) -> str | None:
    """Mend a text in single quotes with an apostrophe in it, or one with quotes in it."""
    mark = value[:1]
    if len(value) < 3 or mark not in ("'", '"') or value[-1] != mark:
        return None
    inner = value[1:-1].replace('\\"', '"')
    return '"' + inner.replace("\\", "\\\\").replace('"', '\\"') + '"'


def _tail(key: str, value: str) -> str | None:
    return value.rstrip(";,% ") if value[-1:] in (";", ",", "%") else None


def _curly(key: str, value: str) -> str | None:
    if not value or not _CURLY.match(value[0]):
        return None
    inner = value[1:-1] if _CURLY.match(value[-1]) and len(value) > 1 else value[1:]
    return None if '"' in inner else f'"{inner}"'


def _truth(key: str, value: str) -> str | None:
    truth = TRUTHS.get(value.lower())
    return None if truth is None else in_toml(truth)


def _bare(key: str, value: str) -> str | None:
    return f'"{value}"' if _WORDS.fullmatch(value) else None


def _list(key: str, value: str) -> str | None:
    if not (value.startswith("[") and value.endswith("]")):
        return None
    inner = value[1:-1].strip()
    if _NUMBERS.fullmatch(inner):
        return f"[{', '.join(inner.split())}]"
    if _TEXTS.search(inner):
        return f"[{_TEXTS.sub(', ', inner)}]"
    parts = [part.strip() for part in inner.split(",")]
    return f"[{', '.join(_member(key, part) for part in parts)}]"


def _member(key: str, part: str) -> str:
    for mend in (_nought, _curly, _bare):
        mended = mend(key, part)
        if mended is not None:
            return mended
    return part


_MENDS: dict[str, Callable[[str, str], str | None]] = {
    "nought": _nought,
    "decimal-comma": _comma,
    "unit": _unit,
    "tail": _tail,
    "quotes": _quotes,
    "curly": _curly,
    "truth": _truth,
    "bare": _bare,
    "in-list": _list,
}


def _reads(line: str) -> bool:
    try:
        tomllib.loads(line)
    except ValueError:
        return False
    return True


def comma_missing(lines: list[str], number: int) -> int | None:
    """Return the line (from 1) that lacks a comma, where a list stops being one at `number`.

    None where what stands at `number` is no further member: then the list is not closed.
    """
    if not lines[number - 1].lstrip().startswith(('"', "'", "{", "[")):
        return None
    if _HEAD.fullmatch(_REMARK.sub("", lines[number - 1].strip())):
        return None
    written = (at for at in range(number - 1, 0, -1) if lines[at - 1].strip().strip("#"))
    above = next(written, None)
    return above if above is not None and not lines[above - 1].rstrip().endswith("[") else None


def first_of(lines: list[str], number: int) -> int | None:
    """Return the line (from 1) that says first what line `number` says a second time.

    A heading is looked for in all lines above, a name up to its heading.
    """
    said = lines[number - 1].strip()
    pair = _PAIR.fullmatch(said)
    for above in range(number - 1, 0, -1):
        line = lines[above - 1].strip()
        if pair is None and _REMARK.sub("", line) == _REMARK.sub("", said):
            return above
        if pair is not None and line.startswith("["):
            return None
        other = _PAIR.fullmatch(line)
        if pair is not None and other is not None and other["key"] == pair["key"]:
            return above
    return None

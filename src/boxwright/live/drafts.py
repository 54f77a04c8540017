"""What a page sends, held to what it must be before anything is kept."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, fields
from typing import Any

from boxwright.live.events import DATA, Data
from boxwright.problems import Problem, Refused, Where, refuse
from boxwright.records import from_json
from boxwright.text import nearest

NAME_SIGNS = 40
"""In a group's name."""
LONGEST = {"name": NAME_SIGNS, "text": 2000, "note": 2000}
OTHERWISE = 200
SEVERAL_LINES = frozenset({"text", "note"})
NEVER_EMPTY = frozenset({"name", "text", "step", "thing"})
MOST_S = 24 * 3600
LEAST_S = {"planned_s": 1, "seconds": -MOST_S}
ID = re.compile(r"[0-9A-Za-z-]{8,64}")
SHORT = re.compile(r"[0-9A-Za-z._-]{1,40}")


@dataclass(frozen=True, slots=True)
class Draft:
    """What a page sends: an event without what the desk adds to it.

    `id` is the page's own, so that what it sends twice is kept once; `happened_ms`, at most 0,
    is how long ago the tap was made.
    """

    type: str
    data: Mapping[str, Any]
    id: str
    device: str
    rights: str
    happened_ms: int = 0


def check_draft(draft: Draft) -> Data:
    """Return what a draft says; raises Refused where that is not as it must be."""
    patterns = {"id": ID, "device": SHORT, "rights": SHORT}
    for name, pattern in patterns.items():
        value = getattr(draft, name)
        if not isinstance(value, str) or not pattern.fullmatch(value):
            refuse(Problem.of("live.wrong-head", Where(str(draft.type)), field=name))
    if type(draft.happened_ms) is not int:
        refuse(Problem.of("live.wrong-head", Where(str(draft.type)), field="happened_ms"))
    return read_data(draft.type, draft.data)


def read_data(name: str, data: Any) -> Data:
    """Return what `data` says for an event of the type `name`; raises Refused if it is not fit."""
    if name not in DATA:
        near = nearest(str(name), DATA)
        code = "live.no-type" if near is None else "live.no-type-but"
        where = Where(str(name)[:OTHERWISE])
        refuse(Problem.of(code, where, type=where.file, near=near or "", choices=tuple(DATA)))
    try:
        found = from_json(DATA[name], dict(data) if isinstance(data, Mapping) else data)
    except Refused as refused:
        paths = (".".join(map(str, one.where.path)) for one in refused.problems)
        at = tuple(dict.fromkeys(path or name for path in paths))
        known = tuple(field.name for field in fields(DATA[name]))
        code = "live.wrong-data" if known else "live.no-data"
        raise Refused([Problem.of(code, Where(name), type=name, at=at, fields=known)]) from None
    _hold_to_limits(name, found)
    return found


def _hold_to_limits(name: str, data: Data) -> None:
    """Refuse texts that are too long, of several lines, or unfit to be kept, and odd numbers."""
    for field in fields(data):
        value = getattr(data, field.name)
        if isinstance(value, str):
            _hold_text(Where(name, (field.name,)), field.name, value)
        least = LEAST_S.get(field.name)
        if least is not None and (value == 0 or not least <= value <= MOST_S):
            refuse(Problem.of("live.no-time", Where(name, (field.name,)), found=value))


def _hold_text(where: Where, name: str, text: str) -> None:
    most = LONGEST.get(name, OTHERWISE)
    if len(text) > most:
        refuse(Problem.of("live.too-long", where, found=len(text), most=most))
    for sign in text:
        if not _keepable(sign) and not (sign == "\n" and name in SEVERAL_LINES):
            refuse(Problem.of("live.one-line", where))
    if name in NEVER_EMPTY and not text.strip():
        refuse(Problem.of("live.empty", where, field=name))


def _keepable(sign: str) -> bool:
    return unicodedata.category(sign) not in ("Cc", "Cs", "Zl", "Zp")

"""What a hurried teacher types, cut into symbols: shared by the mechanisms that read codes."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from typing import NamedTuple

from boxwright.game.mechanisms.device import BLANK, Code
from boxwright.problems import Arg, Problem, Where
from boxwright.text import nfc

DASHES = "-\u00ad\u2010\u2011\u2012\u2013\u2014\u2015\u2212"
_SEPARATORS = frozenset(",;.:/|·•") | frozenset(DASHES)
_BETWEEN = re.compile(r"[\s,;/|·•]+")
_SELECTORS = {0xFE0E: None, 0xFE0F: None}
_SHARP_S, _CAPITAL_SHARP_S = "ß", "\u1e9e"

Canon = Callable[[str], str | None]
"""Makes one typed character a symbol, or None where it cannot be one."""


def inside(where: Where, *path: str | int) -> Where:
    """Return the place `path` below `where`; whoever has the file finds its line."""
    return replace(where, path=(*where.path, *path), line=None, column=None) if path else where


def unreadable(
    where: Where, expected: str, found: str, position: int, example: Arg, **args: Arg
) -> Problem:
    """Return the problem that a code holds something its lock has no symbol for."""
    return Problem.of(
        f"mechanism.unreadable-{expected}",
        where,
        found=shown(found),
        position=position,
        example=example,
        edit=None,
        **args,
    )


def shown(character: str) -> str:
    """Return a character as a message shows it: with its name where it is easily mistaken."""
    named = "" if len(character) != 1 else unicodedata.name(character, "").lower()
    return f"{character} ({named})" if named and not character.isascii() else character


def plain(text: str) -> str:
    """Return `text` without full widths and the like; digits of any script as 0 to 9."""
    return "".join(digit(c) or c for c in unicodedata.normalize("NFKC", text))


def digit(character: str) -> str | None:
    """Return the digit 0 to 9 that `character` stands for in any script, if it is one."""
    one = len(character) == 1 and character.isdecimal()
    return str(unicodedata.decimal(character)) if one else None


def letter(character: str) -> str | None:
    """Return `character` as a capital letter, or the blank, if it is one."""
    face = capital(plain(character))
    return face if face == BLANK or (len(face) == 1 and face.isalpha()) else None


def capital(text: str) -> str:
    """Return `text` in capitals, a sharp s as its own capital, composed (NFC)."""
    return nfc(nfc(text).replace(_SHARP_S, _CAPITAL_SHARP_S).upper())


def name(text: str) -> str:
    """Return a face's name in its one form: lower case, composed, a hyphen for each gap."""
    return "-".join(nfc(text).translate(_SELECTORS).lower().split())


def signs(text: str) -> tuple[str, ...]:
    """Return what people see as single signs: marks stay with the sign that they are set on.

    Variation selectors, which only ask for a colour picture, are dropped.
    """
    found: list[str] = []
    for character in nfc(text).translate(_SELECTORS):
        if found and unicodedata.combining(character):
            found[-1] += character
        else:
            found.append(character)
    return tuple(found)


def characters(text: str, keep: Iterable[str]) -> list[str]:
    """Return the signs of `text` without spaces and separators, those in `keep` kept."""
    kept = frozenset(keep)
    return [c for c in signs(text) if c in kept or not (c.isspace() or c in _SEPARATORS)]


def tokens(text: str) -> list[str]:
    """Return the pieces of `text` between spaces, commas and slashes, in lower case."""
    plainly = nfc(text).translate(_SELECTORS).strip().lower()
    return [piece for piece in _BETWEEN.split(plainly) if piece]


class Unread(NamedTuple):
    """A piece that no name begins with, and its position in the code (from 1)."""

    piece: str
    position: int


def by_names(pieces: list[str], known: Mapping[str, str]) -> Code | Unread:
    """Read `pieces` as names, the longest first, so that `light blue` may be one of them.

    What is no name is cut at its dashes, then into signs that are names.
    """
    code: list[str] = []
    rest = list(pieces)
    while rest:
        sizes = range(len(rest), 0, -1)
        size = next((n for n in sizes if "-".join(rest[:n]) in known), 0)
        if size:
            code.append(known["-".join(rest[:size])])
            rest = rest[size:]
        elif len(split := [part for part in re.split(f"[{DASHES}]", rest[0]) if part]) > 1:
            rest = [*split, *rest[1:]]
        elif len(rest[0]) > 1 and all(sign in known for sign in signs(rest[0])):
            rest = [*signs(rest[0]), *rest[1:]]
        else:
            return Unread(rest[0], len(code) + 1)
    return tuple(code)


def initials(names: Iterable[str]) -> dict[str, str]:
    """Map each name to itself, and each first letter that only one name has to that name."""
    faces = tuple(names)
    firsts = [face[0] for face in faces]
    short = {face[0]: face for face in faces if firsts.count(face[0]) == 1}
    return short | {face: face for face in faces}

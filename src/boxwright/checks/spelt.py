"""Every code that may be read out of a text: written, spaced out, spelled in words, drawn.

A run counts with what separates its symbols taken out, and as a whole: 427 is read from
"4-2-7" and "four two seven", but not from 14270 nor from the list "1 4 2 7".
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache

from boxwright.checks.number_words import figures_of, number_words
from boxwright.game.mechanisms import BLANK, Code, Device, entry
from boxwright.problems import Problem, Where

SHORTEST = 3
"""Codes of fewer symbols cannot be told from chance."""

AROUND = 20
"""Letters shown on either side of a code that was found."""

Span = tuple[int, int]
Token = re.Match[str]

_TOKEN = re.compile(r"\d+|[^\W\d_]+")
_GAP = re.compile(r"[\s.,;:·/_|()\-–—]{0,3}")
_AND = "and"  # not said to anyone: only to read "four hundred and twenty-seven"
_ARROWS = re.compile(r"[↑↓←→↖↗↙↘⬆⬇⬅➡⇑⇓⇐⇒\ufe0f][\s,↑↓←→↖↗↙↘⬆⬇⬅➡⇑⇓⇐⇒\ufe0f]+")
_INITIALS = re.compile(r"(?<!\w)[UDLR](?:[ ,\-]*[UDLR])+(?!\w)")


def given_away(text: str, device: Device, code: Code, language: str) -> Span | None:
    """Return where `text` gives `code` away, the right way round or backwards; else None."""
    bare = tuple("".join(code).rstrip(BLANK)) if device.mechanism == "letter-wheels" else code
    if len(bare) < SHORTEST:
        return None
    orders = _orders(bare)
    read = _readings(text, device.faces, language)
    found = [read[order] for order in orders if order in read]
    if device.mechanism == "direction":
        found += [span for moves, span in _drawn(text, device) if moves in orders]
    return min(found, default=None)


def around(text: str, span: Span) -> str:
    """Return what stands at `span` of `text`, and a little on either side, in one line."""
    start, end = span
    return " ".join(text[max(0, start - AROUND) : end + AROUND].split())


@lru_cache(maxsize=256)
def _orders(code: Code) -> frozenset[Code]:
    return frozenset(tuple(symbol.upper() for symbol in order) for order in (code, code[::-1]))


@lru_cache(maxsize=4096)  # asked for every lock in turn, of which many have the same faces
def _readings(text: str, faces: tuple[str, ...], language: str) -> dict[Code, Span]:
    """Return codes in capitals, in symbols of `faces`, and where each stands first."""
    if all(len(face) == 1 for face in faces):
        runs = _figures(text, language) if _decimal(faces) else _letters(text)
        found = [(tuple(run.upper()), span) for run, span in runs]
    else:
        found = list(_named(text, faces))
    return dict(reversed(found))


def _decimal(faces: Sequence[str]) -> bool:
    return all(face.isdecimal() for face in faces)


Runs = list[tuple[str, Span]]


def _figures(text: str, language: str) -> Runs:
    """Return each number as written, and each row of numbers, in figures or words, as one."""
    known = number_words(language)
    tokens = [
        token
        for token in _TOKEN.finditer(text)
        if (said := token.group().lower()).isdecimal() or said in known or said == _AND
    ]
    numbers = [(token.group(), token.span()) for token in tokens if token.group().isdecimal()]
    rows = [
        (figures_of((token.group() for token in row), language), _span(row))
        for row in _rows(text, tokens)
    ]
    return numbers + rows


def _letters(text: str) -> Runs:
    """Return each word, and each row of single letters of one case, as one."""
    tokens = list(_TOKEN.finditer(text))
    found = [(token.group(), token.span()) for token in tokens]
    for upper in (True, False):
        single = [t for t in tokens if len(t.group()) == 1 and t.group().isupper() is upper]
        rows = _rows(text, single)
        found += [("".join(token.group() for token in row), _span(row)) for row in rows]
    return found


@lru_cache(maxsize=64)
def _names(faces: tuple[str, ...]) -> re.Pattern[str]:
    longest_first = sorted(faces, key=len, reverse=True)
    name = rf"(?<!\w)(?:{'|'.join(map(re.escape, longest_first))})(?!\w)"
    return re.compile(name, re.IGNORECASE)


def _named(text: str, faces: tuple[str, ...]) -> Iterator[tuple[Code, Span]]:
    """Yield each row of symbols that have names: colours, moves, numbers of a dial."""
    for row in _rows(text, list(_names(faces).finditer(text))):
        yield tuple(token.group().upper() for token in row), _span(row)
    if _decimal(faces):
        for token in _TOKEN.finditer(text):
            yield from ((cut, token.span()) for cut in _cuts(token.group()))


def _cuts(run: str) -> Iterator[Code]:
    """Yield the ways to cut a run of digits into three numbers of one or two, as dials have."""
    if not run.isdecimal() or not SHORTEST <= len(run) <= 2 * SHORTEST:
        return
    for one in (1, 2):
        for two in (1, 2):
            if 1 <= len(run) - one - two <= 2:
                yield run[:one], run[one : one + two], run[one + two :]


def _drawn(text: str, device: Device) -> Iterator[tuple[Code, Span]]:
    """Yield moves drawn as arrows or as first letters, read as the lock itself reads them."""
    for drawn, span in _drawings(text):
        read = entry(device).read(device, drawn, Where(""))
        if not isinstance(read, Problem):
            yield tuple(move.upper() for move in read), span


@lru_cache(maxsize=1024)
def _drawings(text: str) -> tuple[tuple[str, Span], ...]:
    found = (match for pattern in (_ARROWS, _INITIALS) for match in pattern.finditer(text))
    return tuple((match.group().strip(" ,\n"), match.span()) for match in found)


def _rows(text: str, tokens: Sequence[Token]) -> Iterator[list[Token]]:
    """Yield the longest rows of `tokens` between which only separators stand."""
    row: list[Token] = []
    for token in tokens:
        if row and not _GAP.fullmatch(text, row[-1].end(), token.start()):
            yield row
            row = []
        row.append(token)
    if row:
        yield row


def _span(row: Sequence[Token]) -> Span:
    return row[0].start(), row[-1].end()

"""No code stands in a text that pupils read: not as it is, not spaced out, not backwards.

Looked at: story, names, hints, and the sentences and JSON of all sheets, save the body of
a sheet whose kind prints the code's symbols by design. A code of fewer than three symbols
cannot be told from chance and is passed over.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from boxwright.checks import About
from boxwright.checks.sheets import Opened, opened, pupil_parts, texts_of
from boxwright.choose.edition import Edition
from boxwright.messages import words
from boxwright.problems import Excerpt, Finding, Path, Problem, plain
from boxwright.puzzles.contract import GaveUp

CODE = "leak.code"
SHORTEST = 3
AROUND = 20
SEPARATORS = re.compile(r"[\s.,;:·/\-–—]+")

Text = tuple[str, Path, str]
"""A text that pupils read: what it is of, its place in the game file, the words."""


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a stop for each text that gives a code away."""
    runs = {id: _runs(code) for id, code in edition.codes.items()}
    for of, path, text in _texts(edition, about):
        for lock, patterns in runs.items():
            found = next((m for p in patterns if (m := p.search(text))), None)
            if found is not None:
                start, end = found.span()
                shown = text[max(0, start - AROUND) : end + AROUND]
                problem = Problem.of(CODE, about.where(*path), lock=lock, of=of, text=shown)
                yield Finding(problem, "stop", "computed", Excerpt(text, (start, end)))


def _runs(code: tuple[str, ...]) -> tuple[re.Pattern[str], ...]:
    """Return patterns for a code, and for it backwards, as one run within no longer one."""
    if len(code) < SHORTEST:
        return ()
    between = r"[\s.,;:·/\-–—]*"
    edge = r"\d" if all(symbol.isdecimal() for symbol in code) else r"\w"
    orders = {code, tuple(reversed(code))}
    return tuple(
        re.compile(rf"(?<!{edge}){between.join(map(re.escape, order))}(?!{edge})", re.IGNORECASE)
        for order in sorted(orders)
    )


def _texts(edition: Edition, about: About) -> Iterator[Text]:
    game = edition.game
    yield "title", ("game", "title"), game.title
    for part in ("opening", "closing", "unfinished"):
        for at, text in enumerate(getattr(game.story, part)):
            yield part, ("story", part, at), text
    for sort in ("boxes", "items"):
        for id, thing in getattr(game, sort).items():
            yield "name", (sort, id, "name"), thing.name
    for one in opened(edition, about):
        yield from _sheet_texts(edition, one)


def _sheet_texts(edition: Edition, one: Opened) -> Iterator[Text]:
    clue, language = edition.game.clues[one.clue], edition.game.language
    for at, hint in enumerate(clue.hints or _made_hints(one, language)):
        yield "hint", (*clue.source.path, "hints", at), hint
    for part in pupil_parts(one):
        for text in texts_of(one, part, language).values():
            yield "sheet", clue.source.path, text
        yield "sheet", clue.source.path, words(one.kind.describe(one.sheet, part), language)
        if not one.kind.FACTS.prints_symbols:
            for text in _strings(plain(getattr(one.sheet, part.replace("-", "_")))):
                yield "sheet", clue.source.path, text


def _made_hints(one: Opened, language: str) -> tuple[str, ...]:
    solution = one.solution()
    if solution is None:
        return ()
    try:
        hints = one.kind.hints(one.sheet, one.knows, solution)
    except GaveUp:
        return ()
    return tuple(words(hint, language) for hint in hints)


def _strings(value: Any) -> Iterator[str]:
    """Yield every text in a sheet's JSON; bare numbers are facts of their own, not text."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for inner in value.values():
            yield from _strings(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from _strings(inner)

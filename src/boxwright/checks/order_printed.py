"""A sheet whose answer has several symbols says in which order they are read.

Looked for is one of the ways to say so that the catalogue lists. A page of the teacher's
own is on the teacher's word, and what a reader shows comes in its order by itself.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.sheets import Opened, opened
from boxwright.choose.edition import Edition
from boxwright.messages import words
from boxwright.problems import Excerpt, Finding, Problem, say

CODE = "sheet.order"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix for each sheet that leaves the order open."""
    language = edition.game.language
    for one in opened(edition, about):
        said = " ".join(
            text for part in one.pupil_parts() for text in one.texts(part, language).values()
        )
        if _must_say(one) and not says_order(said, language):
            problem = Problem.of(CODE, one.where, clue=one.clue, kind=edition.sheets[one.clue].kind)
            yield Finding(problem, "fix", "computed", Excerpt(said, (0, len(said))))


def _must_say(one: Opened) -> bool:
    facts = one.kind.FACTS
    if facts.own or "scanner" in facts.uses or one.answer is None:
        return False
    return len(one.answer.symbols) > 1


def says_order(text: str, language: str) -> bool:
    """Tell whether `text` says in which order something is read."""
    ways = words(say("sheet.order-said"), language).split("|")
    low = " ".join(text.lower().split())
    return any(way in low for way in ways)

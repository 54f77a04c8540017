"""What pupils read is written for their age: the Flesch-Kincaid grade of all texts in English.

Grade = 0.39 words a sentence + 11.8 syllables a word - 15.59 (Kincaid, Fishburne, Rogers
and Chissom 1975). A pupil of age A is in grade A - 5 (United States); the youngest count.
A rough measure of short texts, so it takes two grades too many to be worth a note.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.sheets import opened
from boxwright.checks.syllables import syllables
from boxwright.choose.edition import Edition
from boxwright.problems import Count, Finding, Path, Problem

CODE = "text.reading-level"
AGE_OF_GRADE_0 = 5
SLACK = 2
FEWEST_WORDS = 25
SHOWN = 60
SENTENCE = re.compile(r"[.!?…]+(?=\s|$)")
WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)?")


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note for each text that is two grades or more above the youngest."""
    game = edition.game
    if game.language.partition("-")[0] != "en":
        return
    limit = max(game.ages[0] - AGE_OF_GRADE_0, 1) + SLACK
    for path, text in _texts(edition, about):
        if len(WORD.findall(text)) < FEWEST_WORDS:
            continue
        found = grade(text)
        if found >= limit:
            where, age = about.where(*path), round(found) + AGE_OF_GRADE_0
            problem = Problem.of(CODE, where, age=age, youngest=game.ages[0], text=_start(text))
            yield Finding(problem, "note", "computed", Count(round(found), limit))


def _texts(edition: Edition, about: About) -> Iterator[tuple[Path, str]]:
    for part in ("opening", "closing", "unfinished"):
        told = getattr(edition.game.story, part)
        if told:
            yield ("story", part), " ".join(told)
    for one in opened(edition, about):
        clue = edition.game.clues[one.clue]
        for part in one.pupil_parts():
            said = one.texts(part, edition.game.language)
            yield clue.source.path, " ".join(said.values())
        if clue.hints is not None:
            yield (*clue.source.path, "hints"), " ".join(clue.hints)


def _start(text: str) -> str:
    """Return the first words of a text, cut between words."""
    return text if len(text) <= SHOWN else text[:SHOWN].rpartition(" ")[0]


def grade(text: str) -> float:
    """Return the Flesch-Kincaid grade of an English text of one word or more."""
    words = WORD.findall(text)
    sentences = max(len(SENTENCE.findall(text)), 1)
    spoken = sum(map(syllables, words))
    return 0.39 * len(words) / sentences + 11.8 * spoken / len(words) - 15.59

"""Flesch-Kincaid grade: Kincaid, Fishburne, Rogers and Chissom 1975; sentences as in Wikipedia, "Flesch-Kincaid readability tests"; textstat 0.7.8 as a second reckoner."""  # noqa: E501

from __future__ import annotations

import pytest
import textstat

from boxwright.checks.reading_level import WORD, grade
from boxwright.checks.syllables import syllables

PLATYPUS = "The Australian platypus is seemingly a hybrid of a mammal and reptilian creature."
CAT = "The cat sat on the mat."
POINT = "This sentence, taken as a reading passage unto itself, is being used to prove a point."

# Reckoners count the syllables of some words otherwise; one in a sentence of ten words is
# worth 1.18 grades.
TOLERANCE = 1.2
STORIES = (
    "The old mill on the estuary is driven by the tide. This morning its wheel stood still.",
    "Shade the squares from the numbers beside them. The figures of the code appear.",
    "A glacier is a slow river of ice. It carries stones down into the valley and leaves them.",
    "Photosynthesis transforms carbon dioxide and water into carbohydrates and oxygen.",
)


def test_the_platypus_is_of_the_eleventh_grade() -> None:
    # Published: 11.3, for 24 syllables in 13 words.
    assert round(grade(PLATYPUS), 1) == 11.3


def test_the_words_and_syllables_are_counted_as_published() -> None:
    counts = {PLATYPUS: (13, 24), CAT: (6, 6), POINT: (16, 23)}
    for text, (words, spoken) in counts.items():
        found = WORD.findall(text)
        assert len(found) == words
        assert sum(map(syllables, found)) == spoken


def test_the_lowest_grade_is_that_of_one_short_word() -> None:
    assert grade("Go.") == pytest.approx(-3.40)


def test_the_formula_is_the_published_one() -> None:
    assert grade(CAT) == pytest.approx(0.39 * 6 + 11.8 * 6 / 6 - 15.59)
    assert grade(POINT) == pytest.approx(0.39 * 16 + 11.8 * 23 / 16 - 15.59)


@pytest.mark.parametrize("text", [PLATYPUS, CAT, POINT, *STORIES])
def test_textstat_comes_to_about_the_same(text: str) -> None:
    assert grade(text) == pytest.approx(textstat.flesch_kincaid_grade(text), abs=TOLERANCE)

"""Texts far above the youngest are noted; short and simple ones are not."""

from __future__ import annotations

from pathlib import Path

from boxwright.checks.reading_level import grade
from boxwright.problems import Count
from tests.games import base, found, remedy, said

CODE = "text.reading-level"
NOBODY = "Nobody knows where she put the seeds for the new beds."
HEAVY = (
    "Notwithstanding considerable horticultural experience, contemporary administrators "
    "systematically neglected cataloguing procedures, consequently complicating identification "
    "of indispensable agricultural material, particularly ornamental perennials, culinary "
    "herbaceous varieties and experimental leguminous cultivars."
)
SIMPLE = (
    "She put the seeds in a bag. She shut the bag in a box. Then she hid the box. It is in this "
    "room. We look for it now. Who will find it first?"
)
HINTS = 'needs = ["torch"]'


def test_an_opening_for_adults_is_noted_for_nine_year_olds(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (NOBODY, HEAVY)), CODE)
    assert (finding.severity, finding.basis) == ("note", "computed")
    assert isinstance(finding.evidence, Count)
    assert finding.evidence.need == 6
    assert finding.evidence.have > 6
    assert finding.problem.where.path == ("story", "opening")
    assert finding.problem.where.line
    assert "9" in said(finding)
    assert "The gardener is away" in said(finding)


def test_so_are_hints_for_adults(tmp_path: Path) -> None:
    first, second = HEAVY[: len(HEAVY) // 2].rpartition(" ")[::2]
    hints = f'{HINTS}\nhints = ["{HEAVY}", "{first}", "{second} it."]'
    (finding,) = found(base(tmp_path, (HINTS, hints)), CODE)
    assert finding.problem.where.path == ("clues", "glow", "versions", "one", "hints")


def test_plain_sentences_are_fine(tmp_path: Path) -> None:
    assert found(base(tmp_path, (NOBODY, SIMPLE)), CODE) == []


def test_the_same_is_fine_for_grown_ups(tmp_path: Path) -> None:
    assert (
        found(base(tmp_path, (NOBODY, SIMPLE), ("ages = [9, 11]", "ages = [16, 18]")), CODE) == []
    )


def test_only_english_is_measured_whatever_its_region(tmp_path: Path) -> None:
    game = base(tmp_path, (NOBODY, HEAVY), ('language = "en"', 'language = "en-GB"'))
    assert len(found(game, CODE)) == 1
    base(tmp_path, ('language = "en-GB"', 'language = "de"'))
    assert found(game, CODE) == []


def test_shorter_sentences_and_words_clear_it(tmp_path: Path) -> None:
    game = base(tmp_path, (NOBODY, HEAVY))
    (finding,) = found(game, CODE)
    assert "Shorter sentences" in remedy(finding)
    base(tmp_path, (HEAVY, SIMPLE))
    assert found(game, CODE) == []


def test_long_words_and_long_sentences_raise_the_grade() -> None:
    assert grade("The cat sat. The dog ran.") < grade("The cat sat and the dog ran.")
    assert grade("The cat sat.") < grade("The caterpillar hesitated.")

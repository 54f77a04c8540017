"""Play too short for one group in ten, or far too long, and stories longer than the briefing."""

from __future__ import annotations

from pathlib import Path

from boxwright.build import about_of
from boxwright.checks.play_time import read_aloud_s
from boxwright.problems import Seconds
from tests.games import base, built, found, remedy, said

BELL = "bell_to_bell = 75"
NOBODY = "Nobody knows where she put the seeds for the new beds."
LONG = " ".join(["We go to it now."] * 190)  # 950 words, 35 more than five minutes hold
OTHERS = 20  # minutes of the base game that are not play


def slow_s(game: Path) -> float:
    """Return how long nine groups of ten take at most."""
    made = built(game)
    told = about_of(made.folder, made.edition).forecast(made.edition)
    assert told is not None
    assert told.finish.p90 is not None
    return told.finish.p90


def test_play_too_short_for_one_group_in_ten_is_told(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (BELL, "bell_to_bell = 40")), "time.play")
    assert (finding.severity, finding.basis) == ("fix", "estimated")
    assert isinstance(finding.evidence, Seconds)
    assert finding.evidence.limit == 20 * 60
    assert abs(finding.evidence.found - slow_s(tmp_path / "game")) <= 1
    assert finding.problem.where.path == ("time", "bell_to_bell")
    assert finding.problem.where.line
    assert "20 are left" in said(finding)


def test_one_pupil_who_must_do_it_all_is_too_slow(tmp_path: Path) -> None:
    alone = ("pupils = [3, 4]", "pupils = [1, 1]")
    (finding,) = found(base(tmp_path, alone, (BELL, "bell_to_bell = 52")), "time.play")
    assert finding.problem.code == "time.play"


def test_play_that_just_suffices_is_fine(tmp_path: Path) -> None:
    enough = int(slow_s(base(tmp_path)) // 60) + 1 + OTHERS
    assert found(base(tmp_path, (BELL, f"bell_to_bell = {enough}")), "time.play") == []
    base(tmp_path, (f"bell_to_bell = {enough}", f"bell_to_bell = {enough - 1}"))
    assert len(found(tmp_path / "game", "time.play")) == 1


def test_play_for_hours_with_half_an_hour_of_clues_is_noted(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (BELL, "bell_to_bell = 180")), "time.short")
    assert finding.severity == "note"
    assert isinstance(finding.evidence, Seconds)
    assert finding.evidence.limit == 160 * 60


def test_a_story_longer_than_the_briefing_is_told(tmp_path: Path) -> None:
    game = base(tmp_path, (NOBODY, LONG))
    (finding,) = found(game, "time.briefing")
    assert finding.severity == "fix"
    assert finding.problem.where.path == ("time", "briefing")
    assert finding.problem.where.line
    assert "5 are set aside" in said(finding)


def test_a_minute_holds_as_many_words_as_adults_read_aloud() -> None:
    # Brysbaert 2019, Journal of Memory and Language 109, 104047: 183 words a minute.
    assert read_aloud_s((" ".join(["word"] * 183),)) == 60


def test_a_longer_period_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (BELL, "bell_to_bell = 40"))
    (finding,) = found(game, "time.play")
    assert "make bell_to_bell longer" in remedy(finding)
    base(tmp_path, ("bell_to_bell = 40", BELL))
    assert found(game, "time.play") == []

"""Clues that take longer than play, or far less, and stories longer than the briefing, are told."""

from __future__ import annotations

from pathlib import Path

from boxwright.checks.play_time import read_aloud_s
from boxwright.problems import Seconds
from tests.games import base, found, remedy, said

BELL = "bell_to_bell = 75"
NOBODY = "Nobody knows where she put the seeds for the new beds."
LONG = " ".join(["We go to it now."] * 190)  # 950 words, 35 more than five minutes hold
# Of each band's minutes: 0.2 of a nonogram's 5 to 25 (easier), 0.4 of the others'.
CHAIN = 540 + 432 + 396 + 504


def test_a_chain_longer_than_play_is_told(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (BELL, "bell_to_bell = 45")), "time")
    assert finding.problem.code == "time.play"
    assert (finding.severity, finding.basis) == ("fix", "computed")
    assert finding.evidence == Seconds(CHAIN, 25 * 60)
    assert finding.problem.where.path == ("time", "bell_to_bell")
    assert finding.problem.where.line
    assert all(part in said(finding) for part in ("31", "25"))


def test_a_chain_that_just_fits_is_fine(tmp_path: Path) -> None:
    assert found(base(tmp_path, (BELL, "bell_to_bell = 52")), "time") == []


def test_what_one_pupil_cannot_do_alone_is_told(tmp_path: Path) -> None:
    # All at the start: any one takes ten minutes, but one pupil has all of them to do.
    places = [
        (f'place = "{one}"\n\n[clues', 'place = "start"\n\n[clues') for one in ("crate", "tin")
    ]
    game = base(
        tmp_path,
        *places,
        ("pupils = [3, 4]", "pupils = [1, 1]"),
        ('kind = "pigpen"\nplace = "jar"\nparts = { key = "crate" }', 'kind = "pigpen"'),
        ('place = "folder"\n', ""),
        ('place = "tin"\n\n[items.seeds]', 'place = "table"\n\n[items.seeds]'),
        (BELL, "bell_to_bell = 45"),
    )
    (finding,) = found(game, "time")
    assert finding.problem.code == "time.play-all"
    assert finding.evidence == Seconds(CHAIN + 396, 25 * 60)


def test_play_for_hours_with_half_an_hour_of_clues_is_noted(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (BELL, "bell_to_bell = 180")), "time")
    assert finding.problem.code == "time.short"
    assert finding.severity == "note"
    assert finding.evidence == Seconds(CHAIN + 396, 160 * 60)


def test_a_story_longer_than_the_briefing_is_told(tmp_path: Path) -> None:
    game = base(tmp_path, (NOBODY, LONG))
    (finding,) = found(game, "time")
    assert finding.problem.code == "time.briefing"
    assert finding.severity == "fix"
    assert finding.problem.where.path == ("time", "briefing")
    assert finding.problem.where.line
    assert "5 are set aside" in said(finding)


def test_a_minute_holds_as_many_words_as_adults_read_aloud() -> None:
    # Brysbaert 2019, Journal of Memory and Language 109, 104047: 183 words a minute.
    assert read_aloud_s((" ".join(["word"] * 183),)) == 60


def test_a_longer_period_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (BELL, "bell_to_bell = 45"))
    (finding,) = found(game, "time")
    assert "make bell_to_bell longer" in remedy(finding)
    base(tmp_path, ("bell_to_bell = 45", BELL))
    assert found(game, "time") == []


def test_a_shorter_opening_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (NOBODY, LONG))
    (finding,) = found(game, "time")
    assert "Shorten the opening" in remedy(finding)
    base(tmp_path, (LONG, NOBODY))
    assert found(game, "time") == []

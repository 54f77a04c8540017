"""The forecast of a printed set, and what it promises of changes, kept when they are made."""

from __future__ import annotations

from pathlib import Path

import pytest

from boxwright.build import Asked, Built, build
from boxwright.build.forecasting import Foreseen, Play, foresee, play_s_of
from boxwright.choose.chance import Chance
from boxwright.forecast.parameters import Parameters
from boxwright.game.arrange import Wishes
from tests.games import EXAMPLES, changed

PLAY = Play(trials=4000, changes=True)
CHANCE = Chance(5)
SHORTER = ("bell_to_bell = 70", "bell_to_bell = 56")


@pytest.fixture
def slow(tmp_path: Path) -> Built:
    """The example, with too little time for play."""
    return build(Asked(changed(EXAMPLES / "tide-mill", tmp_path, SHORTER, file="game.toml")))


def seen(built: Built, play: Play = PLAY) -> Foreseen:
    """Return the forecast of a printed set's first edition."""
    return foresee(built, play)[0]


def made_easier(built: Built, clue: str, ways: dict[str, str]) -> Built:
    """Return the set with an easier sheet for the clue, and `ways` for those made so before.

    In a way of it that is easier; where it has none, in its only one, set to be easier.
    """
    versions = built.folder.game.clues[clue].versions
    way = next((name for name, one in versions.items() if one.level == "easier"), None)
    if way is not None:
        ways[clue] = way
    else:
        (only,) = versions
        head = f"[clues.{clue}.versions.{only}]\n"
        at = (head, f'{head}level = "easier"\n')
        changed(EXAMPLES / "tide-mill", built.folder.path.parent, at, file="game.toml")
    wishes = Wishes(versions=dict(ways))
    return build(Asked(built.folder.path, wishes, Chance(built.edition.seed)))


def test_what_is_proposed_for_a_game_too_long_moves_it_as_promised(slow: Built) -> None:
    before = seen(slow)
    assert before.forecast.one.value < 0.9
    assert len(before.proposals) == 3
    now, ways = slow, dict[str, str]()
    for one in before.proposals:
        assert one.alone.change.sort == "easier"
        assert one.alone.change.task is not None
        now = made_easier(now, one.alone.change.task, ways)
        after = seen(now, Play(trials=4000)).forecast.one
        assert after.value > before.forecast.one.value
        assert after.value == pytest.approx(one.together.value, abs=3 * one.together.error)


def test_a_story_longer_than_its_time_eats_into_play(tmp_path: Path) -> None:
    game = changed(
        EXAMPLES / "tide-mill", tmp_path, ("briefing = 5", "briefing = 1"), file="game.toml"
    )
    parameters = Parameters()
    edition = build(Asked(game, chance=CHANCE)).edition
    words = sum(len(one.split()) for one in edition.game.story.opening)
    told_s = 60 * words / parameters["read.adults"] + parameters["rules.told"]
    assert told_s > 60
    assert play_s_of(edition, parameters) == pytest.approx(52 * 60 - (told_s - 60))


def test_a_story_within_its_time_leaves_play_as_planned(tmp_path: Path) -> None:
    game = changed(EXAMPLES / "tide-mill", tmp_path, SHORTER, file="game.toml")
    edition = build(Asked(game, chance=CHANCE)).edition
    assert play_s_of(edition, Parameters()) == edition.game.time.play_s


def test_more_pupils_are_quicker_and_all_groups_less_likely_than_one(slow: Built) -> None:
    few, many = (seen(slow, Play(pupils=n, groups=4, trials=2000)).forecast for n in (2, 4))
    assert (few.finish.p50 or 0) > (many.finish.p50 or 0)
    assert few.all.value <= few.one.value


def test_a_game_with_time_to_spare_is_made_longer_and_still_ends_in_time(tmp_path: Path) -> None:
    longer = ("bell_to_bell = 70", "bell_to_bell = 100")
    game = changed(EXAMPLES / "tide-mill", tmp_path, longer, file="game.toml")
    found = seen(build(Asked(game, chance=CHANCE))).proposals
    assert {one.alone.change.sort for one in found} == {"harder"}
    assert all(one.together.value >= 0.9 for one in found)

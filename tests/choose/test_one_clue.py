"""One clue tried alone comes out as the whole game would have it, and keeps nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from boxwright.build import Asked, build, read
from boxwright.choose.chance import Chance
from boxwright.choose.offers import offers
from boxwright.choose.one_clue import Trial, bench, tried
from boxwright.game.choosing import Wishes
from boxwright.problems import Refused
from tests import test_build
from tests.games import EXAMPLES, changed, demo

MILL = EXAMPLES / "tide-mill"
WAYS = [
    (clue, way) for clue, one in read(MILL).game.clues.items() for way in one.versions
]  # every way of the example
STUCK = 'level = "ordinary"\nkind = "count-sheet"'  # for a direction lock


def refused(
    game: Path, clue: str, way: str, trial: Trial
) -> list[tuple[str, tuple[str | int, ...]]]:
    with pytest.raises(Refused) as found:
        tried(bench(read(game), Wishes(), clue, way), trial, Chance(1))
    return [(one.code, one.where.path) for one in found.value.problems]


@pytest.mark.parametrize(("clue", "way"), [one for one in WAYS if one[1] != "bars"])
def test_a_way_as_it_stands_is_the_sheet_of_the_printed_set(clue: str, way: str) -> None:
    folder, wishes = read(MILL), Wishes(versions={clue: way})
    whole = build(Asked(MILL, wishes)).edition
    alone = tried(bench(folder, Wishes(), clue, way), _as_it_stands(clue, way), Chance(1))
    assert alone.sheets == {clue: whole.sheets[clue]}
    assert alone.codes.items() <= whole.codes.items()
    assert alone.mark(clue) == whole.mark(clue)


def _as_it_stands(clue: str, way: str) -> Trial:
    return Trial.of(read(MILL).game.clues[clue].versions[way])


def test_a_way_for_another_room_can_be_tried_in_this_one() -> None:
    made = tried(
        bench(read(MILL), Wishes(), "find-key", "bars"),
        _as_it_stands("find-key", "bars"),
        Chance(1),
    )
    assert made.sheets["find-key"].kind == "bar-picture"


def test_another_kind_gets_the_code_that_the_changed_game_would_have(tmp_path: Path) -> None:
    trial = Trial("count-sheet", level="ordinary")
    alone = tried(bench(read(MILL), Wishes(), "flour-sacks", "large"), trial, Chance(3))
    large = '[clues.flour-sacks.versions.large]\nlevel = "ordinary"\nkind = "{}"'
    change = (large.format("nonogram"), large.format("count-sheet"))
    game = changed(MILL, tmp_path, change, file="game.toml")
    whole = build(Asked(game, chance=Chance(3))).edition
    assert alone.sheets["flour-sacks"] == whole.sheets["flour-sacks"]
    assert alone.codes["sluice"] == whole.codes["sluice"]
    assert "0" not in alone.codes["sluice"]  # which pictures cannot be counted to


def test_words_with_their_meanings_serve_a_quiz_alone_and_in_the_whole_game(tmp_path: Path) -> None:
    words = "\n".join(f"word{at},meaning {at}" for at in range(8))
    trial = Trial("quiz-index", content="words.csv")
    large = '[clues.flour-sacks.versions.large]\nlevel = "ordinary"\nkind = "{}"'
    change = (large.format("nonogram"), large.format("quiz-index") + '\ncontent = "words.csv"')
    game = changed(MILL, tmp_path, change, file="game.toml")
    (game / "content" / "words.csv").write_text(f"term,meaning\n{words}\n", encoding="utf-8")
    alone = tried(bench(read(game), Wishes(), "flour-sacks", "large"), trial, Chance(3))
    whole = build(Asked(game, chance=Chance(3))).edition
    assert alone.sheets["flour-sacks"] == whole.sheets["flour-sacks"]
    assert set(alone.codes["sluice"]) <= set("123456")  # what six options can bear


def test_a_code_can_be_tried_that_the_game_does_not_have() -> None:
    made = tried(
        bench(read(MILL), Wishes(), "flour-sacks", "large"),
        Trial("nonogram", code="427"),
        Chance(1),
    )
    assert made.codes["sluice"] == ("4", "2", "7")


def test_another_throw_changes_this_sheet_and_no_code() -> None:
    at = bench(read(MILL), Wishes(), "flour-sacks", "large")
    first, second = (tried(at, Trial("nonogram", throw=throw), Chance(1)) for throw in (0, 1))
    assert first.sheets["flour-sacks"].sheet != second.sheets["flour-sacks"].sheet
    assert first.codes == second.codes
    again = build(Asked(MILL, chance=Chance(1, throws={"flour-sacks": 1}))).edition
    assert second.sheets["flour-sacks"] == again.sheets["flour-sacks"]


def test_what_a_kind_refuses_is_told_at_its_field() -> None:
    at = ("clues", "flour-sacks", "versions", "large")
    wrong = Trial("nonogram", options={"ground": "sand"})
    assert refused(MILL, "flour-sacks", "large", wrong)[0][1] == (*at, "options", "ground")
    assert refused(MILL, "flour-sacks", "large", Trial("sudoko")) == [("kind.unknown", at)]
    assert refused(MILL, "flour-sacks", "large", Trial("quiz-index")) == [
        ("quiz-index.no-table", (*at, "content"))
    ]
    unread = Trial("nonogram", code="forty")
    assert refused(MILL, "flour-sacks", "large", unread)[0][1] == ("locks", "sluice", "code")


def test_a_code_that_the_lock_cannot_show_is_told_at_the_code() -> None:
    long = refused(MILL, "flour-sacks", "large", Trial("nonogram", code="4271"))
    assert long == [("mechanism.wrong-length", ("locks", "sluice", "code"))]
    sign = refused(MILL, "float-or-sink", "things", Trial("nonogram", code="QQQ"))
    assert sign == [("mechanism.cannot-show", ("locks", "water", "code"))]


def test_a_page_written_by_hand_wants_a_code_that_stays() -> None:
    written = {"text": ["Count the sacks."]}
    drawn = refused(MILL, "flour-sacks", "large", Trial("own-sheet", options=written))
    assert drawn == [("code.own-drawn", ("locks", "sluice"))]
    at = bench(read(MILL), Wishes(), "flour-sacks", "large")
    made = tried(at, Trial("own-sheet", options=written, code="318"), Chance(1))
    assert made.codes["sluice"] == ("3", "1", "8")


def test_a_clue_can_be_tried_while_another_cannot_be_made(tmp_path: Path) -> None:
    game = changed(
        MILL, tmp_path, ('level = "easier"\nkind = "route-map"', STUCK), file="game.toml"
    )
    with pytest.raises(Refused):
        build(Asked(game))
    made = tried(bench(read(game), Wishes(), "mill-hands", "three"), Trial("logic-grid"), Chance(1))
    assert list(made.sheets) == ["mill-hands"]


def test_a_clue_that_is_not_in_play_is_tried_with_what_brings_it_in(tmp_path: Path) -> None:
    optional = ('gives = "gear"\n', 'gives = "gear"\noptional = true\n')
    brings = ('adds = ["torch"]', 'adds = ["torch", "mill-hands"]')
    game = changed(MILL, tmp_path, optional, brings, file="game.toml")
    at = bench(read(game), Wishes(level="easier"), "mill-hands", "four")
    assert "mill-hands" in at.share.game.clues


def test_a_clue_that_nothing_brings_in_is_told(tmp_path: Path) -> None:
    optional = ('gives = "gear"\n', 'gives = "gear"\noptional = true\n')
    game = changed(MILL, tmp_path, optional, file="game.toml")
    with pytest.raises(Refused) as found:
        bench(read(game), Wishes(), "mill-hands", "four")
    assert [one.code for one in found.value.problems] == ["clue.never-in-play"]


def test_offers_say_which_kinds_can_carry_the_codes_of_a_lock() -> None:
    folder = read(MILL)

    def carrying(gives: str, code: str | None = None) -> set[str]:
        return {one.name for one in offers(folder, gives, code, Chance(1)) if one.carries}

    assert carrying("race") == {"quiz-index", "route-map"}
    assert "count-sheet" in carrying("sluice")  # some codes have no nought
    assert "count-sheet" not in carrying("sluice", "407")
    assert "own-sheet" not in carrying("sluice")
    assert "own-sheet" in carrying("sluice", "407")
    assert carrying("brass-key") == {"bar-picture", "pigpen", "own-sheet"}


def test_every_offer_that_stands_can_be_made() -> None:
    folder = read(MILL)
    at = bench(folder, Wishes(), "flour-sacks", "large")
    for one in offers(folder, "sluice", None, Chance(1)):
        if one.carries and not one.kind.FACTS.content:
            assert tried(at, Trial(one.name), Chance(1)).sheets["flour-sacks"].kind == one.name


def test_offers_of_a_code_that_cannot_be_read_are_refused() -> None:
    with pytest.raises(Refused):
        offers(read(MILL), "sluice", "forty", Chance(1))


@pytest.mark.parametrize("seed", range(6))
def test_a_guest_is_tried_on_its_hosts_sheet(tmp_path: Path, seed: int) -> None:
    old, new = test_build.TestASheetOnASheet.ON_ANOTHER
    folder = read(demo(tmp_path, (old, new.replace("CODE", '"auto"'))))
    at = bench(folder, Wishes(), "sacks", "one")
    made = tried(at, Trial.of(folder.game.clues["sacks"].versions["one"]), Chance(seed))
    whole = build(Asked(folder.path, chance=Chance(seed))).edition
    assert made.sheets == {id: whole.sheets[id] for id in ("host", "sacks")}

"""Another throw of one sheet is kept in the printed set, or waits for the first one."""

from __future__ import annotations

from pathlib import Path

from boxwright.build import Built, build
from boxwright.build.current import keep, kept, last_asked
from boxwright.build.throwing import chance_shown, keep_throw
from boxwright.choose.chance import Chance
from boxwright.choose.edition import Edition
from boxwright.choose.store import EDITIONS, TO_COME
from tests.games import base

SHOWN = Chance(1)
CLUE = "stencil"


def first(game: Path) -> Edition:
    """Make the first printed set, as a command does."""
    keep(built := build(asked := last_asked(game)), asked)
    return built.edition


def current(game: Path) -> Edition:
    found = kept(game)
    assert isinstance(found, Built)
    return found.edition


def others(edition: Edition) -> dict[str, object]:
    return {id: sheet for id, sheet in edition.sheets.items() if id != CLUE}


def test_the_printed_set_is_made_anew_with_one_other_sheet(tmp_path: Path) -> None:
    game = base(tmp_path)
    before = first(game)
    assert keep_throw(game, CLUE, 3, SHOWN)
    after = current(game)
    assert after.sheets[CLUE].throw == 3
    assert after.sheets[CLUE].sheet != before.sheets[CLUE].sheet
    assert others(after) == others(before)
    assert after.codes == before.codes


def test_it_can_be_thrown_back(tmp_path: Path) -> None:
    game = base(tmp_path)
    before = first(game)
    keep_throw(game, CLUE, 1, SHOWN)
    keep_throw(game, CLUE, 0, SHOWN)
    assert current(game) == before


def test_without_a_printed_set_it_waits_with_the_dice_that_were_shown(tmp_path: Path) -> None:
    game = base(tmp_path)
    assert not keep_throw(game, CLUE, 2, SHOWN)
    assert chance_shown(game, Chance(9)) == Chance(1, throws={CLUE: 2})
    made = first(game)
    assert made.seed == 1
    assert made.sheets[CLUE].throw == 2
    assert not (game / EDITIONS / TO_COME).exists()
    assert chance_shown(game, Chance(9)) == Chance(1, throws={CLUE: 2})


def test_several_throws_wait_together(tmp_path: Path) -> None:
    game = base(tmp_path)
    other = next(id for id in build(last_asked(game)).edition.sheets if id != CLUE)
    keep_throw(game, CLUE, 2, SHOWN)
    keep_throw(game, other, 1, SHOWN)
    assert chance_shown(game, SHOWN).throws == {CLUE: 2, other: 1}


def test_nothing_kept_shows_the_dice_at_hand(tmp_path: Path) -> None:
    assert chance_shown(base(tmp_path), Chance(7)) == Chance(7)


def test_a_spoilt_file_of_throws_is_as_none(tmp_path: Path) -> None:
    game = base(tmp_path)
    keep_throw(game, CLUE, 2, SHOWN)
    (game / EDITIONS / TO_COME).write_text("{", "utf-8")
    assert chance_shown(game, Chance(7)) == Chance(7)

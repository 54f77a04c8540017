"""What follows from locks opened and items found: boxes, clues, and the end."""

from __future__ import annotations

from boxwright.choose.edition import Edition
from boxwright.live.state import fold
from boxwright.live.table import Table, table_of
from tests.games import BASE
from tests.live.plays import EDITION, Play, opened


def running() -> Play:
    play = opened()
    play.says("clock.started")
    return play


def table(play: Play, edition: Edition = EDITION, group: str = "1") -> Table:
    return table_of(fold(play.events).groups[group], edition)


def open_boxes(found: Table) -> set[str]:
    return {id for id, box in found.boxes.items() if box.open}


def test_at_the_start_all_is_shut_and_what_is_handed_out_is_ready() -> None:
    found = table(running())
    assert open_boxes(found) == set()
    standing = {id: clue.standing for id, clue in found.clues.items()}
    assert standing == {
        "map": "ready", "list": "waiting", "picture": "waiting", "riddle": "ready"
    }  # fmt: skip
    assert not found.won
    assert found.hints_left == 2


def test_an_opened_lock_opens_its_box_and_gives_what_lies_in_it() -> None:
    play = running()
    play.clock.passes(59)
    play.says("lock.opened", group="1", lock="front")
    found = table(play)
    assert open_boxes(found) == {"crate"}
    assert found.boxes["crate"].open_ms == 60_000
    assert (found.clues["map"].standing, found.clues["list"].standing) == ("solved", "ready")
    assert found.clues["list"].begun_ms == 60_000
    assert open_boxes(table(play, group="2")) == set()


def test_a_box_with_two_locks_opens_with_the_second() -> None:
    play = running()
    play.says("lock.opened", group="1", lock="front")
    play.says("lock.opened", group="1", lock="lid")
    assert open_boxes(table(play)) == {"crate"}
    play.says("lock.opened", group="1", lock="latch")
    found = table(play)
    assert open_boxes(found) == {"crate", "chest"}
    assert (found.won, found.won_ms) == (True, found.boxes["chest"].open_ms)


def test_a_box_in_a_shut_box_stays_shut_and_it_shows_what_was_not_said() -> None:
    play = running()
    play.says("lock.opened", group="1", lock="side")
    found = table(play)
    assert open_boxes(found) == set()
    assert [id for id, lock in found.locks.items() if lock.unsaid] == ["front"]
    play.says("lock.opened", group="1", lock="front")
    found = table(play)
    assert open_boxes(found) == {"crate", "tin"}
    assert not any(lock.unsaid for lock in found.locks.values())


def test_an_item_that_a_clue_leads_to_is_had_when_somebody_says_so() -> None:
    play = running()
    assert table(play).items["brass-key"].had_ms is None
    play.says("item.found", group="1", item="brass-key")
    found = table(play)
    assert found.items["brass-key"].had_ms is not None
    assert found.clues["riddle"].standing == "solved"


def test_an_item_that_wins_may_be_said_to_be_found() -> None:
    play = running()
    play.says("item.found", group="1", item="notes")
    assert table(play).won


def test_a_lock_tells_its_clue_and_its_wrong_codes() -> None:
    play = running()
    play.says("code.tried", group="1", lock="front", right=False)
    play.says("hint.given", group="1", clue="map", line=1)
    found = table(play)
    assert (found.locks["front"].clues, found.locks["front"].wrong) == (("map",), 1)
    assert found.locks["latch"].clues == ()
    assert (found.clues["map"].hints, found.hints_left) == (1, 1)


def test_a_clue_counts_from_when_it_was_taken_or_else_from_when_it_could_be() -> None:
    play = running()
    play.clock.passes(20)
    play.says("clue.taken", group="1", clue="map")
    play.clock.passes(38)
    play.says("lock.opened", group="1", lock="front")
    play.clock.passes(99)
    play.says("lock.opened", group="1", lock="side")
    clues = table(play).clues
    assert (clues["map"].begun_ms, clues["map"].worked_ms) == (21_000, 39_000)
    assert (clues["list"].begun_ms, clues["list"].worked_ms) == (60_000, 100_000)
    assert clues["picture"].worked_ms is None


def test_hints_left_never_fall_below_none() -> None:
    play = running()
    for line in (1, 2, 3):
        play.says("hint.given", group="1", clue="map", line=line)
    assert table(play).hints_left == 0


def test_a_real_printed_set_is_won_lock_by_lock() -> None:
    from tests.games import built

    edition = built(BASE).edition
    play = opened({"1": "Window"})
    play.says("clock.started")
    assert not table(play, edition).won
    for lock in edition.game.locks:
        play.says("lock.opened", group="1", lock=lock)
    found = table(play, edition)
    assert open_boxes(found) == set(edition.game.boxes)
    assert found.won
    solved = {id for id, clue in found.clues.items() if clue.standing == "solved"}
    assert solved == {id for id, clue in edition.game.clues.items() if clue.leads_to == "lock"}

"""What comes next at a table, and what one tap notes."""

from __future__ import annotations

from boxwright.live.ahead import Next, ahead, notes_for
from boxwright.live.state import fold
from boxwright.live.table import Table, table_of
from tests.live.plays import EDITION, GAME, Play, opened


def table(play: Play) -> Table:
    return table_of(fold(play.events).groups["1"], EDITION)


def next_things(play: Play) -> list[tuple[str, tuple[str, ...]]]:
    return [(one.thing, one.notes) for one in ahead(table(play), GAME)]


def test_a_box_comes_next_when_it_can_be_reached_and_its_clues_are_in_hand() -> None:
    play = opened()
    assert next_things(play) == [("crate", ("front",)), ("brass-key", ("brass-key",))]
    play.says("lock.opened", group="1", lock="front")
    assert next_things(play) == [("tin", ("side",)), ("brass-key", ("brass-key",))]


def test_a_box_with_a_key_comes_next_once_the_key_is_found() -> None:
    play = opened()
    for lock in ("front", "side"):
        play.says("lock.opened", group="1", lock=lock)
    assert next_things(play) == [("brass-key", ("brass-key",))]
    play.says("item.found", group="1", item="brass-key")
    assert next_things(play) == [("chest", ("lid", "latch"))]


def test_where_nothing_was_foreseen_every_closed_box_in_reach_is_offered() -> None:
    play = opened()
    play.says("lock.opened", group="1", lock="lid")
    play.says("item.found", group="1", item="brass-key")
    play.says("lock.opened", group="1", lock="front")
    play.says("lock.opened", group="1", lock="latch")
    assert next_things(play) == []  # the chest is open and holds what wins
    play = opened()
    play.says("lock.opened", group="1", lock="front")
    play.says("lock.opened", group="1", lock="side")
    play.says("item.found", group="1", item="brass-key")
    play.says("lock.opened", group="1", lock="lid")
    assert ahead(table(play), GAME) == (Next("chest", "the chest", "box", ("latch",)),)


def test_a_box_inside_closed_ones_takes_their_locks_along() -> None:
    assert notes_for(table(opened()), GAME, "tin") == ("front", "side")

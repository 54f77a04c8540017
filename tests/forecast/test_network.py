"""The task network, and what is left of it when a task is taken out."""

from __future__ import annotations

from boxwright.forecast.network import Network, least, open_tasks
from tests.forecast.games import network, task

ONE = frozenset({"a"})


def opened(game: Network, *had: str) -> list[str]:
    """Return the names of what can be worked at."""
    return [one.name for one in open_tasks(game, frozenset(had))]


def test_a_task_is_open_once_all_its_needs_are_had_and_until_it_is_done() -> None:
    game = network(task("a"), task("b"), task("c", "a", "b"))
    assert opened(game) == ["a", "b"]
    assert opened(game, "a") == ["b"]
    assert opened(game, "a", "b") == ["c"]
    assert opened(game, "a", "b", "c") == []


def test_what_a_task_gave_counts_as_had_without_it() -> None:
    game = network(task("a"), task("b", "a"), task("c", "a", "b"), goal="c").without("a")
    assert game.names == ("b", "c")
    assert opened(game) == ["b"]
    assert game.goal == (frozenset({"c"}),)


def test_a_game_without_its_last_task_is_over_at_once() -> None:
    assert network(task("a"), goal="a").without("a").goal == (frozenset(),)


def test_ways_that_ask_for_more_than_another_are_left_out() -> None:
    assert least([ONE | {"b"}, ONE, frozenset({"c"})]) == (ONE, frozenset({"c"}))
    assert least([]) == ()

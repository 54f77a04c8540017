"""Findings put aside for good, and brought back."""

from __future__ import annotations

from pathlib import Path
from threading import Thread

import pytest

from boxwright.game.dismissed import FILE, bring_back, dismiss, dismissed, parted
from boxwright.game.history import History, tag_of
from boxwright.game.history_store import HOME
from boxwright.problems import Count, Finding, Problem, Refused, Severity, Where
from tests.games import demo

SORTS: tuple[tuple[str, Severity], ...] = (
    ("a.stop", "stop"),
    ("a.note", "note"),
    ("another.note", "note"),
)


def test_what_was_put_aside_stays_so_until_it_is_brought_back(tmp_path: Path) -> None:
    game = demo(tmp_path)
    for id in ("aaaaaaaa", "bbbbbbbb", "aaaaaaaa"):
        dismiss(game, id)
    assert dismissed(game) == ("bbbbbbbb", "aaaaaaaa")
    bring_back(game, "bbbbbbbb")
    assert dismissed(game) == ("aaaaaaaa",)


def test_it_is_no_change_to_the_game(tmp_path: Path) -> None:
    game = demo(tmp_path)
    before = tag_of(game)
    dismiss(game, "aaaaaaaa")
    assert tag_of(game) == before
    assert History(game).now().undo is None


def test_a_spoilt_list_is_an_empty_one(tmp_path: Path) -> None:
    game = demo(tmp_path)
    dismiss(game, "aaaaaaaa")
    for spoilt in ("{", '{"a": 1}', "\0"):
        (game / HOME / FILE).write_text(spoilt, "utf-8")
        assert dismissed(game) == ()
    dismiss(game, "bbbbbbbb")
    assert dismissed(game) == ("bbbbbbbb",)


def test_two_at_once_lose_nothing(tmp_path: Path) -> None:
    game = demo(tmp_path)
    ids = [f"{letter * 8}" for letter in "abcdefgh"]
    threads = [Thread(target=dismiss, args=(game, id)) for id in ids]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(dismissed(game)) == ids


def test_where_nothing_can_be_written_it_is_refused(tmp_path: Path) -> None:
    game = demo(tmp_path)
    (game / HOME).write_text("a file in the way", "utf-8")
    with pytest.raises(Refused):
        dismiss(game, "aaaaaaaa")


def test_findings_are_parted_and_what_stops_a_game_is_told_all_the_same(tmp_path: Path) -> None:
    game = demo(tmp_path)
    place = Where("game.toml", ("boxes", "case"))
    stop, note, other = (
        Finding(Problem.of(code, place), severity, "computed", Count(0, 1))
        for code, severity in SORTS
    )
    for one in (stop, note):
        dismiss(game, one.id)
    assert parted(game, (stop, note, other)) == ((stop, other), (note,))

"""The report on paper: every table along the clock, read back as it was printed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxwright.choose.edition import Edition, named
from boxwright.ledger.event import Event, wall_here
from boxwright.live.played import played_pdf
from boxwright.live.report import report
from boxwright.live.state import fold
from boxwright.live.timeline import Timeline, timeline
from boxwright.paper.opened import opened as opened_pdf
from tests.live.plays import EDITION, Play, opened

EDITIONS = {"1": EDITION, "2": EDITION}


def played() -> Play:
    play = opened()
    play.says("clock.started")
    play.clock.passes(299)
    play.says("hint.given", group="1", clue="map", line=1)
    play.says("code.tried", group="1", lock="front", right=True)
    for lock in ("front", "lid", "latch"):
        play.clock.passes(59)
        play.says("lock.opened", group="1", lock=lock)
    play.says("note.made", group="2", text="a long walk")
    play.says("clock.ended", why="")
    return play


def drawn(events: Sequence[Event]) -> Timeline:
    state = fold(events)
    return timeline(state, report(state, EDITIONS))


def test_marks_stand_along_the_minutes_that_were_played() -> None:
    found = drawn(played().events)
    window, door = found.rows
    assert [(mark.second, mark.sort) for mark in window.marks] == [
        (300, "hint"), (361, "opened"), (421, "opened"), (481, "opened")
    ]  # fmt: skip
    assert (window.won_s, door.won_s) == (481, None)
    assert [mark.sort for mark in door.marks] == ["note"]
    assert (found.length_s, found.figures) == (540, (0, 2, 4, 6, 8))
    assert found.sorts == ("opened", "hint", "note", "won")
    assert found.share(270) == 0.5


def test_a_game_in_play_is_drawn_over_what_is_planned() -> None:
    play = opened()
    play.says("clock.started")
    assert drawn(play.events).length_s == 1500


def test_tables_stand_as_they_joined_and_not_by_what_they_did() -> None:
    play = opened({"2": "Door", "1": "Window"})
    play.says("clock.started")
    play.says("lock.opened", group="1", lock="front")
    assert [row.name for row in drawn(play.events).rows] == ["Door", "Window"]


def text_of(play: Play, edition: Edition = EDITION) -> str:
    editions = dict.fromkeys(("1", "2"), edition)
    pdf = played_pdf(fold(play.events), editions, play.events[0].wall, play.clock.now())
    with opened_pdf(pdf) as document:
        pages = [document[at] for at in range(len(document))]
        return " ".join(page.get_textpage().get_text_range() for page in pages)


def test_the_report_tells_day_minutes_and_what_each_table_did() -> None:
    play = played()
    text = text_of(play)
    assert wall_here(play.events[0].wall) in text
    assert "Window opened the lock front" in text
    assert "Door: a long walk" in text
    assert "25 minutes of play were planned." in text


def test_forty_notes_take_as_many_pages_as_they_need() -> None:
    play = played()
    for n in range(80):
        play.says("note.made", group="1", text=f"note {n} " + "and more " * 30)
    assert "note 79" in text_of(play)


def test_a_language_without_words_of_its_own_prints_all_the_same() -> None:
    other = named(replace(EDITION, game=replace(EDITION.game, language="fr")))
    assert "Window" in text_of(played(), other)

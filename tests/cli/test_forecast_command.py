"""`boxwright forecast`: a verdict in words, and numbers for other programs."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest

from boxwright.build.current import current_editions
from boxwright.choose.edition import Edition
from boxwright.ledger.store import Ledger
from boxwright.live.desk import Desk
from tests.cli.conftest import Run
from tests.games import base
from tests.live.plays import ObedientClock
from tests.live.sessions import sayer


@pytest.fixture
def game(run: Run, tmp_path: Path) -> Path:
    """The checks' own game, printed."""
    game = base(tmp_path)
    assert run("build", game, "--seed", "1").code == 0
    return game


def told(run: Run, *arguments: str | Path) -> dict[str, Any]:
    """Return the first forecast of the JSON."""
    shown = run("forecast", *arguments, "--trials", "2000", "--json")
    assert shown.code == 0
    found: dict[str, Any] = shown.json["forecasts"][0]
    return found


def setting(game: Path, line: str) -> None:
    """Let a game set one more number of its forecast."""
    base(game.parent, ("[forecast]\n", f"[forecast]\n{line}\n"))


def test_the_verdict_comes_first_in_words(run: Run, game: Path) -> None:
    shown = run("forecast", game, "--groups", "2")
    assert shown.code == 0
    first = shown.out.splitlines()[0]
    assert first.startswith("Most tables will take ")
    assert first.endswith("; 55 are left for play.")
    assert "All 2 tables of a class do so in" in shown.out
    assert "assumptions, not measured" in shown.out.splitlines()[-1]
    assert "forecast." not in shown.out


def test_what_holds_them_up_and_every_clue_is_listed(run: Run, game: Path) -> None:
    shown = run("forecast", game)
    assert "What holds them up most: " in shown.out
    for name in ("stencil", "rounds", "fences", "parts", "glow", "latch"):
        assert name in shown.out


def test_json_has_chance_error_and_spreads(run: Run, game: Path) -> None:
    found = told(run, game, "--groups", "2")
    assert found["trials"] == 2000
    assert found["groups"] == 2
    assert 0 <= found["all"]["value"] <= found["chance"] <= 1
    assert 0 < found["error"] < 0.1
    assert found["finish_s"]["p10"] < found["finish_s"]["p50"] < found["finish_s"]["p90"]
    assert [clue["name"] for clue in found["clues"]][:2] == ["stencil", "rounds"]


def test_json_says_where_every_parameter_comes_from(run: Run, game: Path) -> None:
    listed = run("forecast", game, "--json").json["parameters"]
    assert {"name", "unit", "default", "source"} <= set(listed[0])
    assert any(one["source"].startswith("Hasbrouck & Tindal 2017") for one in listed)


def test_the_same_game_is_forecast_the_same_twice(run: Run, game: Path) -> None:
    assert told(run, game) == told(run, game)


def test_less_time_and_fewer_pupils_make_it_less_likely(run: Run, game: Path) -> None:
    toml = game / "game.toml"
    before = told(run, game, "--pupils", "4")
    assert told(run, game, "--pupils", "1")["finish_s"]["p50"] > before["finish_s"]["p50"]
    text = toml.read_text("utf-8")
    toml.write_text(text.replace("bell_to_bell = 75", "bell_to_bell = 45"), "utf-8")
    after = told(run, game, "--pupils", "4")
    assert after["play_s"] == 25 * 60
    assert after["chance"] < before["chance"]


def test_changes_are_told_when_asked_for(run: Run, game: Path) -> None:
    assert told(run, game)["changes"] == []
    sorts = {one["sort"] for one in told(run, game, "--changes")["changes"]}
    assert sorts >= {"fewer-pupils", "more-hints", "without"}
    shown = run("forecast", game, "--changes", "--trials", "500").out
    assert "a pupil less at each table" in shown
    assert "stencil left out" in shown


def test_a_game_that_no_table_can_finish_is_told(run: Run, tmp_path: Path) -> None:
    ring = ('name = "a tin key"\nplace = "jar"', 'name = "a tin key"\nplace = "tin"')
    game = base(tmp_path, ring)
    run("build", game, "--seed", "1")
    shown = run("forecast", game)
    assert shown.code == 0
    assert shown.out.startswith("No table can finish this game.")
    assert "never" in shown.out


def test_numbers_out_of_range_are_refused(run: Run, game: Path) -> None:
    assert run("forecast", game, "--pupils", "0").refused("--pupils", "1 to 30")
    assert run("forecast", game, "--trials", "5").refused("--trials")


def test_the_plan_is_drawn_as_pdf_and_as_a_picture(run: Run, game: Path, tmp_path: Path) -> None:
    from boxwright.paper.opened import opened

    pdf, svg = tmp_path / "plans" / "plan.pdf", tmp_path / "plan.svg"
    assert run("forecast", game, "--out", pdf, "--trials", "500").code == 0
    with opened(pdf.read_bytes()) as document:
        text = document[0].get_textpage().get_text_range()
    assert "Time plan: " in text
    assert "stencil" in text
    assert run("forecast", game, "--out", svg, "--trials", "500").code == 0
    assert svg.read_bytes().startswith(b"<svg")


def test_a_plan_in_another_form_is_refused_before_any_work(run: Run, game: Path) -> None:
    shown = run("forecast", game, "--out", "plan.png")
    assert shown.refused("plan.png", ".pdf or .svg")


def test_what_would_reach_the_target_is_told_and_keeps_its_promise(run: Run, game: Path) -> None:
    """With half of the time the game is too long; with the hint that is proposed, it is as told."""
    toml = game / "game.toml"
    text = toml.read_text("utf-8")
    toml.write_text(text.replace("bell_to_bell = 75", "bell_to_bell = 36"), "utf-8")
    before = told(run, game, "--changes")
    assert before["chance"] < 0.9
    best = before["proposals"]
    assert 1 <= len(best) <= 3
    assert best[0]["chance"]["value"] > 0
    assert "would help most" in run("forecast", game, "--changes", "--trials", "500").out


# what tables showed


TIMES = "class,group,clue,minutes,hints\n" + "".join(
    f"c{one},g{two},stencil,40,0\n" for one in range(3) for two in range(4)
)


def learning(game: Path, text: str = TIMES) -> tuple[Path, str, Path]:
    """Return what has a game forecast with a table of times."""
    file = game.parent / "times.csv"
    file.write_text(text, encoding="utf-8")
    return game, "--learn", file


def test_without_sessions_it_rests_on_assumptions_and_shows_no_factors(
    run: Run, game: Path
) -> None:
    shown = run("forecast", game)
    assert "It rests on no class yet, all on assumptions." in shown.out
    assert "learnt, %" not in shown.out
    assert run("forecast", game, "--json").json["learnt"]["classes"] == 0


def test_a_table_of_times_is_told_in_one_line_and_by_clue(run: Run, game: Path) -> None:
    shown = run("forecast", *learning(game)).out
    assert "It rests on 3 classes and 12 tables; mostly still on assumptions." in shown
    head = next(at for at, line in enumerate(shown.splitlines()) if "learnt, %" in line)
    assert shown.splitlines()[head + 1].startswith("stencil")
    body = run("forecast", *learning(game), "--json").json
    lesson = body["learnt"]["clues"]["stencil"]
    assert lesson["factor"] > 1.5
    assert 0 < lesson["of_kind"] < lesson["of_level"] < lesson["of_clue"] < 1


def test_a_clue_that_took_longer_makes_the_game_longer(run: Run, game: Path) -> None:
    usual = told(run, game)["finish_s"]["p50"]
    assert told(run, *learning(game))["finish_s"]["p50"] > usual
    quick = TIMES.replace(",40,", ",2,")
    assert told(run, *learning(game, quick))["finish_s"]["p50"] < usual


def test_a_wrong_row_of_the_table_is_refused_with_its_line(run: Run, game: Path) -> None:
    shown = run("forecast", *learning(game, "group,clue,minutes\nred,stensil,5\n"))
    assert shown.refused("times.csv:2", "Did you mean “stencil”?", "Write stencil here")


def test_a_ledger_that_is_named_must_be_there(run: Run, game: Path) -> None:
    missing = game.parent / "none.db"
    assert run("forecast", game, "--ledger", missing).refused("There is no ledger at")
    assert not missing.exists()


def test_every_parameter_has_its_value_and_where_it_is_from(run: Run, game: Path) -> None:
    setting(game, "hint.after = 240")
    listed = run("forecast", *learning(game), "--json").json["parameters"]
    by_name = {one["name"]: one for one in listed}
    assert (by_name["hint.after"]["value"], by_name["hint.after"]["from"]) == (240, "game")
    assert (by_name["find.room"]["value"], by_name["find.room"]["from"]) == (90, "default")
    assert by_name["factor.stencil"]["from"] == "learnt"
    assert by_name["factor.stencil"]["value"] > 1.5
    assert "factor.parts" not in by_name


def test_numbers_of_the_game_change_its_forecast(run: Run, game: Path) -> None:
    usual = told(run, game)["finish_s"]["p50"]
    setting(game, "find.given = 400")
    assert told(run, game)["finish_s"]["p50"] > usual + 60


def session(ledger: Path, editions: Sequence[Edition], forecast: Any, seconds: int) -> None:
    """Let one table play: it opens every lock that has a clue after so many seconds."""
    clock = ObedientClock()
    with Ledger(ledger) as book:
        desk = Desk(book, clock)
        id = desk.open(editions, 3300, {"1": "Window"}, forecast=forecast)
        says = sayer(desk, id)
        says("clock.started")
        clock.passes(seconds)
        for lock in editions[0].game.locks:
            says("lock.opened", group="1", lock=lock)
        says("group.finished", group="1", outcome="won")
        says("clock.ended", why="")


def test_the_ledgers_sessions_teach_and_are_held_against_their_forecasts(
    run: Run, game: Path, tmp_path: Path
) -> None:
    ledger, editions = tmp_path / "ledger.db", current_editions(game)
    band = {editions[0].id: {"finish_s": {"p10": 600, "p50": 900, "p90": 1200}, "clues": {}}}
    for seconds in (900, 1500):
        session(ledger, editions, band, seconds)
    shown = run("forecast", game, "--ledger", ledger).out
    assert "It rests on 2 classes and 2 tables; mostly still on assumptions." in shown
    assert "1 of 2 tables ended within what was forecast for 8 in 10." in shown
    assert run("forecast", game, "--ledger", ledger, "--json").json["learnt"]["coverage"] == {
        "within": 1,
        "told": 2,
        "open": 0,
    }

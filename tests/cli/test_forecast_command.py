"""`boxwright forecast`: a verdict in words, and numbers for other programs."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import Run
from tests.games import base


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


def test_the_verdict_comes_first_in_words(run: Run, game: Path) -> None:
    shown = run("forecast", game, "--groups", "2")
    assert shown.code == 0
    first = shown.out.splitlines()[0]
    assert first.startswith("Most tables will take ")
    assert first.endswith("; 55 are left for play.")
    assert "All 2 groups of a class do so in" in shown.out
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
    assert "a pupil less in each group" in shown
    assert "without stencil" in shown


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

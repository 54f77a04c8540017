"""`boxwright check`: what was dismissed in the studio stays dismissed on the command line."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from boxwright.game.dismissed import dismiss
from tests.cli.conftest import Run
from tests.games import base

SPADE = '[items.spade]\nname = "a spade"\nplace = "jar"\n\n[items.seeds]'
WEAK = '[locks.drum]\nmechanism = "number-wheels"'


@pytest.fixture
def game(run: Run, tmp_path: Path) -> Path:
    """A game with a weak code (to fix) and a thing of no use (a note), its codes known."""
    weak = (WEAK, f'{WEAK}\ncode = "777"')
    game = base(tmp_path, ("[items.seeds]", SPADE), weak)
    run("build", game, "--seed", "1")
    return game


def findings(run: Run, game: Path) -> dict[str, dict[str, Any]]:
    return {one["code"]: one for one in run("check", game, "--json").json["findings"]}


def test_what_was_dismissed_is_left_out_and_counted_in_the_last_line(run: Run, game: Path) -> None:
    dismiss(game, findings(run, game)["item.without-use"]["id"])
    shown = run("check", game).out
    assert "a spade" not in shown
    assert "777" in shown
    assert shown.splitlines()[-1].startswith("1 thing is not shown")


def test_nothing_dismissed_nothing_is_said_of_it(run: Run, game: Path) -> None:
    assert "not shown" not in run("check", game).out


def test_all_shows_it_and_says_that_it_was_dismissed(run: Run, game: Path) -> None:
    dismiss(game, findings(run, game)["item.without-use"]["id"])
    shown = run("check", game, "--all").out
    assert "a spade" in shown
    assert [line for line in shown.splitlines() if line.endswith("dismissed")]
    assert "not shown" not in shown


def test_all_shows_more_than_seven(run: Run, tmp_path: Path) -> None:
    things = "".join(f'[items.spade-{n}]\nname = "spade {n}"\nplace = "jar"\n\n' for n in range(9))
    game = base(tmp_path, ("[items.seeds]", f"{things}[items.seeds]"))
    run("build", game, "--seed", "1")
    assert run("check", game).out.count("What helps") == 7
    assert run("check", game, "--all").out.count("What helps") == 10


def test_json_has_all_and_marks_what_was_dismissed(run: Run, game: Path) -> None:
    dismiss(game, findings(run, game)["item.without-use"]["id"])
    found = findings(run, game)
    assert found["item.without-use"]["dismissed"] is True
    assert found["code.weak"]["dismissed"] is False
    assert run("check", game, "--json").json["counts"] == {"stop": 0, "fix": 1, "note": 1}


def test_strict_does_not_count_it(run: Run, game: Path) -> None:
    assert run("check", game, "--strict").code == 1
    dismiss(game, findings(run, game)["code.weak"]["id"])
    assert run("check", game, "--strict").code == 0


def test_build_counts_what_check_would_show(run: Run, game: Path) -> None:
    for one in findings(run, game).values():
        dismiss(game, one["id"])
    assert "The checks found" not in run("build", game).err
    assert run("check", game).out.startswith("Nothing to fix was found.")


def test_what_stops_the_game_cannot_be_dismissed(run: Run, tmp_path: Path) -> None:
    game = base(tmp_path, ('name = "a tin key"\nplace = "jar"', 'name = "a key"\nplace = "tin"'))
    dismiss(game, findings(run, game)["reach.key-inside"]["id"])
    shown = run("check", game)
    assert shown.code == 1
    assert "Nobody can get at a key" in shown.out
    assert findings(run, game)["reach.key-inside"]["dismissed"] is False

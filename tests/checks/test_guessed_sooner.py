"""A lock that patience opens before its clue is told, with both times."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Seconds
from tests.games import base, found, remedy, said

CODE = "guess.sooner"
FRONT = '[locks.front]\nmechanism = "number-wheels"\nwheels = 3'
SIDE = 'mechanism = "direction"\nlength = [7, 7]'


def test_two_wheels_fall_to_patience(tmp_path: Path) -> None:
    two = FRONT.replace("wheels = 3", 'wheels = 2\nstand_in = "allowed"')
    (finding,) = found(base(tmp_path, (FRONT, two)), CODE)
    assert finding.problem.code == "guess.sooner-nothing"
    assert (finding.severity, finding.basis) == ("fix", "estimated")
    # A hundred codes of 1.2 s each: (100 + 1) / 2 tries on average; a nonogram takes 5 minutes.
    assert finding.evidence == Seconds(60, 300)
    assert finding.problem.where.path == ("locks", "front")
    assert finding.problem.where.line
    assert all(part in said(finding) for part in ("front", "60 seconds", "5 minutes"))


def test_three_wheels_hold(tmp_path: Path) -> None:
    assert found(base(tmp_path), CODE) == []


def test_a_third_wheel_clears_it(tmp_path: Path) -> None:
    two = FRONT.replace("wheels = 3", 'wheels = 2\nstand_in = "allowed"')
    game = base(tmp_path, (FRONT, two))
    (finding,) = found(game, CODE)
    assert "more codes" in remedy(finding)
    base(tmp_path, (two, FRONT))
    assert found(game, CODE) == []


def test_of_moves_only_those_count_that_a_map_can_lead_to(tmp_path: Path) -> None:
    game = base(tmp_path, (SIDE, SIDE.replace("[7, 7]", "[5, 5]")))
    (finding,) = found(game, CODE)
    assert finding.problem.code == "guess.sooner-moves"
    # Never on in the line of the last leg: 4 first moves, then 2 each; not 4 ** 5 codes.
    assert finding.problem.what.args["tries"] == 4 * 2**4
    # Each takes 2 s and half a second a move.
    assert finding.evidence == Seconds(int(65 / 2 * 4.5), 240)


def test_as_many_moves_as_the_remedy_says_clear_it(tmp_path: Path) -> None:
    game = base(tmp_path, (SIDE, SIDE.replace("[7, 7]", "[5, 5]")))
    (finding,) = found(game, CODE)
    assert "length = [6, 6]" in remedy(finding)
    base(tmp_path, ("length = [5, 5]", "length = [6, 6]"))
    assert found(game, CODE) == []


def test_moves_that_a_page_of_ones_own_leads_to_can_be_any(tmp_path: Path) -> None:
    own = 'kind = "own-sheet"\noptions = { text = ["Walk as the ants do."] }'
    five = SIDE.replace("[7, 7]", "[5, 5]") + '\ncode = "up left down right up"'
    game = base(tmp_path, (SIDE, five), ('kind = "route-map"', own))
    assert found(game, CODE) == []


def test_a_cheap_lock_that_can_be_felt_is_noted(tmp_path: Path) -> None:
    model = 'mechanism = "number-wheels"\nwheels = 3\nshackle_mm = [5, 25]'
    base(tmp_path, (model, f"{model}\ncheap = true"), file="kit.toml")
    game = base(tmp_path)
    findings = found(game, CODE)
    assert {one.problem.code for one in findings} == {"guess.sooner-felt"}
    assert {one.severity for one in findings} == {"note"}
    base(tmp_path, ("cheap = true", "cheap = false"), file="kit.toml")
    assert found(game, CODE) == []

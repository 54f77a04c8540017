"""Two locks that open with one code, or all but, are told."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Clash
from tests.games import base, found, remedy, said

FRONT = '[locks.front]\nmechanism = "number-wheels"'
DRUM = '[locks.drum]\nmechanism = "number-wheels"'


def with_codes(tmp_path: Path, front: str, drum: str) -> Path:
    return base(tmp_path, (FRONT, f'{FRONT}\ncode = "{front}"'), (DRUM, f'{DRUM}\ncode = "{drum}"'))


def test_codes_that_differ_in_one_place_are_told(tmp_path: Path) -> None:
    (finding,) = found(with_codes(tmp_path, "472", "475"), "code.near")
    assert (finding.severity, finding.basis) == ("fix", "computed")
    assert finding.evidence == Clash(("front", "drum"), "code")
    places = (finding.problem.where, *finding.also)
    assert [place.path for place in places] == [
        ("locks", "drum", "code"),
        ("locks", "front", "code"),
    ]
    assert all(place.line for place in places)
    assert all(part in said(finding) for part in ("front", "drum", "472", "475"))


def test_equal_codes_are_told_as_equal(tmp_path: Path) -> None:
    game = with_codes(tmp_path, "472", "472")
    assert found(game, "code.near") == []
    (finding,) = found(game, "code.same")
    assert "opens the lock" in said(finding)


def test_equal_codes_on_locks_of_other_makes_are_told(tmp_path: Path) -> None:
    keypad = (
        '[locks.drum]\nmechanism = "keypad"\nlength = [3, 3]\ncode = "274"\nstand_in = "allowed"'
    )
    game = base(tmp_path, (FRONT, f'{FRONT}\ncode = "274"'), (f"{DRUM}\nwheels = 3", keypad))
    assert len(found(game, "code.same")) == 1


def test_nearly_equal_codes_on_locks_of_other_makes_are_fine(tmp_path: Path) -> None:
    keypad = (
        '[locks.drum]\nmechanism = "keypad"\nlength = [3, 3]\ncode = "275"\nstand_in = "allowed"'
    )
    game = base(tmp_path, (FRONT, f'{FRONT}\ncode = "274"'), (f"{DRUM}\nwheels = 3", keypad))
    assert found(game, "code") == []


def test_codes_that_differ_in_two_places_are_fine(tmp_path: Path) -> None:
    assert found(with_codes(tmp_path, "472", "495"), "code") == []


def test_drawing_one_of_them_clears_it(tmp_path: Path) -> None:
    game = with_codes(tmp_path, "472", "475")
    (finding,) = found(game, "code.near")
    assert 'code = "auto"' in remedy(finding)
    base(tmp_path, ('code = "475"', 'code = "auto"'))
    assert found(game, "code") == []

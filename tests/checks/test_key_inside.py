"""A key in the box that it opens is told, however deep it lies."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Cycle
from tests.games import base, found, remedy, said

CODE = "reach.key-inside"
KEY = 'name = "a tin key"\nplace = "jar"'
FRONT = 'mechanism = "number-wheels"\nwheels = 3\ncloses = "crate"'


def test_a_key_in_its_own_box_is_a_stop(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (KEY, KEY.replace("jar", "tin"))), CODE)
    assert (finding.severity, finding.basis) == ("stop", "computed")
    assert finding.evidence == Cycle(("tin", "latch", "tin-key"))
    places = (finding.problem.where, *finding.also)
    assert [place.path for place in places] == [
        ("items", "tin-key", "place"),
        ("locks", "latch", "opened_by"),
    ]
    assert all(place.line for place in places)
    assert all(part in said(finding) for part in ("a tin key", "the tea tin", "latch"))


def test_a_key_in_a_box_inside_its_box_is_a_stop(tmp_path: Path) -> None:
    latch = '[locks.latch]\nmechanism = "key"\ncloses = "tin"'
    game = base(tmp_path, (latch, latch.replace("tin", "crate")))
    (finding,) = found(game, CODE)
    assert finding.evidence == Cycle(("crate", "latch", "tin-key", "jar"))


def test_it_is_told_once_and_not_as_a_ring(tmp_path: Path) -> None:
    game = base(tmp_path, (KEY, KEY.replace("jar", "tin")))
    assert found(game, "reach.locked-behind-itself") == []


def test_a_key_in_the_box_beside_is_fine(tmp_path: Path) -> None:
    assert found(base(tmp_path, (KEY, KEY.replace("jar", "crate"))), CODE) == []


def test_putting_it_outside_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (KEY, KEY.replace("jar", "tin")))
    (finding,) = found(game, CODE)
    assert "Put a tin key where" in remedy(finding)
    base(tmp_path, (KEY.replace("jar", "tin"), KEY.replace("jar", "sill")))
    assert found(game, "reach") == []

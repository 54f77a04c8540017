"""What pupils can never have is told, with what bars the way to it."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Clash
from tests.games import base, built, found, remedy, said

CODE = "reach.unreachable"
STENCIL = 'level = "easier"\nkind = "nonogram"'
KEY = 'name = "a tin key"\nplace = "jar"'
SEAL = 'gives = "seal"'


def cause_of(game: Path, because: str | None) -> str:
    return next(one.problem.code for one in built(game).findings if one.id == because)


def test_all_that_a_ring_bars_is_told_once_because_of_it(tmp_path: Path) -> None:
    game = base(tmp_path, (STENCIL, f'{STENCIL}\nplace = "crate"'))
    (finding,) = found(game, CODE)
    assert (finding.severity, finding.basis) == ("stop", "computed")
    assert isinstance(finding.evidence, Clash)
    assert finding.evidence.ids[0] == "jar"
    assert "crate" not in finding.evidence.ids
    assert {"seeds", "tin-key", "rounds", "glow"} <= set(finding.evidence.ids)
    assert cause_of(game, finding.because) == "reach.locked-behind-itself"
    places = (finding.problem.where, *finding.also)
    assert len(places) == len(finding.evidence.ids)
    assert all(place.line for place in places)
    assert "a bag of seeds" in said(finding)
    assert "the clue “glow”" in said(finding)


def test_all_that_a_key_in_its_own_box_bars_is_told_because_of_it(tmp_path: Path) -> None:
    game = base(tmp_path, (KEY, KEY.replace("jar", "tin")))
    (finding,) = found(game, CODE)
    assert cause_of(game, finding.because) == "reach.key-inside"


def test_a_lock_that_nothing_leads_to_bars_its_box(tmp_path: Path) -> None:
    game = base(tmp_path, (SEAL, 'gives = "front"'))
    (finding,) = found(game, CODE)
    assert cause_of(game, finding.because) == "lock.without-clue"
    assert isinstance(finding.evidence, Clash)
    assert "folder" in finding.evidence.ids


def test_two_bars_are_told_apart(tmp_path: Path) -> None:
    fences = 'gives = "label"'
    game = base(
        tmp_path,
        (SEAL, 'gives = "front"'),
        (fences, 'gives = "front"'),
    )
    findings = found(game, CODE)
    barred = [one.evidence.ids for one in findings if isinstance(one.evidence, Clash)]
    assert ("folder", "glow") in barred  # by the seal alone
    assert ("chest", "seeds") in barred  # by both


def test_what_bars_comes_before_what_it_bars(tmp_path: Path) -> None:
    findings = built(base(tmp_path, (SEAL, 'gives = "front"'))).findings
    codes = [one.problem.code for one in findings if one.severity == "stop"]
    assert codes.index("lock.without-clue") < codes.index(CODE)


def test_a_long_way_is_a_way(tmp_path: Path) -> None:
    assert found(base(tmp_path), CODE) == []


def test_mending_what_bars_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (KEY, KEY.replace("jar", "tin")))
    (finding,) = found(game, CODE)
    assert "Mend what bars the way" in remedy(finding)
    base(tmp_path, (KEY.replace("jar", "tin"), KEY))
    assert found(game, CODE) == []

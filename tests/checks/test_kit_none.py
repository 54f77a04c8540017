"""Without a kit it is said first that nothing was checked against real locks."""

from __future__ import annotations

from pathlib import Path

from boxwright.build import Asked, build
from boxwright.game.start import start
from boxwright.problems import Count
from tests.games import base, built, found, remedy, said

CODE = "kit.none"


def without_kit(tmp_path: Path, *changes: tuple[str, str]) -> Path:
    game = base(tmp_path, *changes)
    (game / "kit.toml").rename(tmp_path / "shelf.toml")
    return game


def test_a_game_without_a_kit_is_told(tmp_path: Path) -> None:
    (finding,) = found(without_kit(tmp_path), CODE)
    assert (finding.severity, finding.basis) == ("fix", "computed")
    assert finding.evidence == Count(0, 6)
    assert "the 6 locks" in said(finding)
    assert finding.problem.where.file == "kit.toml"


def test_it_leads_all_that_is_no_stop(tmp_path: Path) -> None:
    # A box in which nothing lies is as grave, and its check's name comes earlier.
    game = without_kit(tmp_path, ('gives = "drum"', 'gives = "front"'))
    findings = [one for one in built(game).findings if one.severity != "stop"]
    assert len(findings) > 1
    assert findings[0].problem.code == CODE


def test_a_kit_elsewhere_will_do(tmp_path: Path) -> None:
    game = without_kit(tmp_path)
    findings = build(Asked(game, kit=tmp_path / "shelf.toml")).findings
    assert CODE not in [one.problem.code for one in findings]


def test_a_kit_in_the_folder_is_fine(tmp_path: Path) -> None:
    assert found(base(tmp_path), CODE) == []


def test_the_kit_that_new_writes_clears_it(tmp_path: Path) -> None:
    game = without_kit(tmp_path)
    (finding,) = found(game, CODE)
    assert "boxwright new FOLDER" in remedy(finding)
    start(tmp_path / "fresh")
    copied = (tmp_path / "fresh" / "kit.toml").read_text(encoding="utf-8")
    torch = '[tools.U9]\nis = "uv-torch"\n'
    (game / "kit.toml").write_text(f"{copied}\n{torch}", encoding="utf-8")
    assert found(game, CODE) == []

"""`boxwright print`: a folder never holds parts of two printed sets."""

from __future__ import annotations

from pathlib import Path

from tests.cli.conftest import Run
from tests.games import demo


def pdfs(folder: Path) -> dict[str, bytes]:
    return {file.name: file.read_bytes() for file in folder.glob("*.pdf") if file.is_file()}


def test_what_a_changed_game_no_longer_prints_is_removed(run: Run, tmp_path: Path) -> None:
    game, out = demo(tmp_path), tmp_path / "out"
    run("print", game, "--out", out, "--only", "flour-stamp")
    shown = run("print", game, "--out", out)
    assert "Removed" in shown.err
    assert "tide-mill-flour-stamp.pdf" not in pdfs(out)
    assert "tide-mill-key.pdf" in pdfs(out)
    assert run("print", game, "--out", out, "--json").json["removed"] == []


def test_one_page_that_cannot_be_written_leaves_the_earlier_set(run: Run, tmp_path: Path) -> None:
    game, out = demo(tmp_path), tmp_path / "out"
    run("print", game, "--out", out)
    run("build", game, "--new", "--seed", "77")
    (out / "tide-mill-sheets.pdf").unlink()
    (out / "tide-mill-sheets.pdf").mkdir()
    before = pdfs(out)
    shown = run("print", game, "--out", out)
    assert shown.refused("tide-mill-sheets.pdf", "No file there was changed")
    assert pdfs(out) == before


def test_a_file_in_the_place_of_the_folder_is_told(run: Run, tmp_path: Path) -> None:
    out = tmp_path / "out"
    out.write_text("mine", encoding="utf-8")
    assert run("print", demo(tmp_path), "--out", out).refused(str(out), "is a file")


def test_one_sheet_of_a_newer_set_beside_older_ones_is_told(run: Run, tmp_path: Path) -> None:
    game, out = demo(tmp_path), tmp_path / "out"
    run("print", game, "--out", out)
    run("build", game, "--again", "flour-stamp")
    shown = run("print", game, "--out", out, "--only", "flour-stamp")
    assert shown.code == 0
    assert "earlier printed set" in shown.err
    assert "tide-mill-key.pdf" in pdfs(out)

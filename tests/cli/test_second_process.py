"""With two processors commands tell and write what they do with one."""

from __future__ import annotations

from pathlib import Path

from tests.cli.conftest import Run
from tests.cli.test_print_command import pdfs
from tests.conftest import Processors
from tests.games import demo


def test_the_same_files_are_printed(run: Run, tmp_path: Path, processors: Processors) -> None:
    game, files = demo(tmp_path), {}
    for count in (1, 2):
        started = processors(count)
        run("print", game, "--out", tmp_path / str(count))
        assert len(started) == count - 1
        files[count] = pdfs(tmp_path / str(count))
    assert len(files[1]) > 10
    assert files[1] == files[2]


def test_the_same_is_found(run: Run, tmp_path: Path, processors: Processors) -> None:
    slow = ("bell_to_bell = 55", "bell_to_bell = 30")  # so that the forecast is told
    game, found = demo(tmp_path, slow), {}
    run("build", game, "--seed", "7")
    for count in (1, 2):
        started = processors(count)
        found[count] = run("check", game, "--json").json
        assert len(started) == count - 1
    codes = [one["code"] for one in found[1]["findings"]]
    assert "time.play" in codes, codes
    assert found[1] == found[2]


def test_the_same_game_is_built(run: Run, tmp_path: Path, processors: Processors) -> None:
    game, built = demo(tmp_path), {}
    for count in (1, 2):
        started = processors(count)
        told = run("build", game, "--seed", "7", "--json").json
        assert len(started) == count - 1
        kept = {file.name: file.read_bytes() for file in (game / "editions").iterdir()}
        built[count] = (told, kept)
    assert built[1] == built[2]


def test_one_sheet_is_printed_by_one_process(
    run: Run, tmp_path: Path, processors: Processors
) -> None:
    started = processors(2)
    run("print", demo(tmp_path), "--out", tmp_path / "out", "--only", "flour-stamp")
    assert started == []

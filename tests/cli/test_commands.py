"""The commands as a teacher types them: what they say, what they write, how they end."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from boxwright.cli import COMMANDS
from tests.games import demo

MAKE = ("make", "nonogram", "--lock", "number-wheels:3", "--code")


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_explains_itself(run: Any, command: str) -> None:
    shown = run(command, "--help")
    assert shown.code == 0
    assert "Usage: boxwright" in shown.out
    # An id in the place of words would hold a dot between two small letters.
    assert f"{command}.help" not in shown.out
    assert "option." not in shown.out


def test_a_wrong_command_is_named(run: Any) -> None:
    shown = run("chekc")
    assert shown.code == 2
    assert "chekc" in shown.err


class TestMake:
    @pytest.mark.parametrize(
        ("ending", "start"),
        [("pdf", b"%PDF-1."), ("png", b"\x89PNG"), ("svg", b"<svg"), ("json", b"{")],
    )
    def test_the_ending_decides_what_is_written(
        self, run: Any, tmp_path: Path, ending: str, start: bytes
    ) -> None:
        out = tmp_path / f"sheet.{ending}"
        assert run(*MAKE, "427", "--out", out).code == 0
        assert out.read_bytes().startswith(start)

    def test_a_sheet_made_and_solved_gives_the_code(self, run: Any, tmp_path: Path) -> None:
        out = tmp_path / "sheet.json"
        run(*MAKE, "427", "--out", out)
        solved = run("solve", out, "--json")
        assert solved.code == 0
        assert [one["symbols"] for one in solved.json["answers"]] == [["4", "2", "7"]]
        assert solved.json["complete"] is True

    def test_the_same_seed_makes_the_same_file(self, run: Any, tmp_path: Path) -> None:
        for name in ("a.pdf", "b.pdf"):
            run(*MAKE, "427", "--seed", "5", "--out", tmp_path / name)
        assert (tmp_path / "a.pdf").read_bytes() == (tmp_path / "b.pdf").read_bytes()

    @pytest.mark.parametrize(
        ("arguments", "said"),
        [
            (("make", "nonogramm", "--code", "427"), "nonogram"),
            ((*MAKE, "4277"), "3"),
            ((*MAKE, "4x7"), "position 2"),
            ((*MAKE, "427", "--option", "grond=hills"), "ground"),
            ((*MAKE, "427", "--option", "ground=hils"), "hills"),
            ((*MAKE, "427", "--option", "hills"), "ground=hills"),
            ((*MAKE, "427", "--out", "sheet.docx"), ".pdf"),
            (("make", "nonogram", "--lock", "number-wheel:3", "--code", "1"), "number-wheels"),
            (("make", "nonogram", "--lock", "key", "--code", "1"), "key"),
            (
                ("make", "nonogram", "--lock", "direction:4", "--code", "up left up left"),
                "cannot lead to",
            ),
        ],
    )
    def test_a_slip_is_told_with_its_remedy(
        self, run: Any, arguments: tuple[str, ...], said: str
    ) -> None:
        shown = run(*arguments)
        assert shown.code == 2
        assert said in shown.err
        assert "What helps:" in shown.err


class TestSolve:
    def test_a_sheet_with_two_answers_ends_with_one(self, run: Any, tmp_path: Path) -> None:
        # Two squares, each row and column with one: dark on either diagonal.
        out = tmp_path / "sheet.json"
        run(*MAKE, "427", "--out", out)
        value = json.loads(out.read_text(encoding="utf-8"))
        value["sheet"]["sheet"]["rows"][0] = [1]
        out.write_text(json.dumps(value), encoding="utf-8")
        assert run("solve", out).code == 1

    @pytest.mark.parametrize("text", ["", "{", "[]", '{"kind": "nonogram"}', '{"kind": 1}'])
    def test_what_is_no_sheet_is_refused(self, run: Any, tmp_path: Path, text: str) -> None:
        file = tmp_path / "x.json"
        file.write_text(text, encoding="utf-8")
        shown = run("solve", file)
        assert shown.code == 2
        assert "What helps:" in shown.err

    def test_a_missing_file_is_told(self, run: Any, tmp_path: Path) -> None:
        assert run("solve", tmp_path / "none.json").code == 2


class TestGame:
    def test_build_check_and_print_work_on_one_edition(self, run: Any, tmp_path: Path) -> None:
        game, out = demo(tmp_path), tmp_path / "out"
        made = run("build", game, "--seed", "3", "--json")
        assert made.code == 0
        checked = run("check", game, "--json")
        printed = run("print", game, "--out", out, "--json")
        assert made.json["of"] == checked.json["of"] == printed.json["of"]
        assert checked.json["findings"] == []
        files = [Path(one["path"]) for one in printed.json["files"]]
        wanted = {f"tide-mill-{name}.pdf" for name in ("sheets", "sheets-start", "key", "set-up")}
        assert {file.name for file in files} >= wanted
        assert all(file.read_bytes().startswith(b"%PDF") for file in files)

    def test_check_makes_a_first_edition_and_says_so(self, run: Any, tmp_path: Path) -> None:
        game = demo(tmp_path)
        shown = run("check", game)
        assert shown.code == 0
        assert "no printed set yet" in shown.err
        assert "no printed set yet" not in run("check", game).err

    def test_a_change_since_is_noticed(self, run: Any, tmp_path: Path) -> None:
        game = demo(tmp_path)
        run("build", game)
        demo(tmp_path, ("half an hour", "an hour"))
        assert "has changed since" in run("check", game).err

    def test_building_again_keeps_the_codes_and_new_draws_others(
        self, run: Any, tmp_path: Path
    ) -> None:
        game = demo(tmp_path)
        first = run("build", game, "--json").json["of"]["seed"]
        assert run("build", game, "--json").json["of"]["seed"] == first
        seeds = {run("build", game, "--new", "--json").json["of"]["seed"] for _ in range(3)}
        assert seeds - {first}

    def test_an_editions_own_file_can_be_checked(self, run: Any, tmp_path: Path) -> None:
        game = demo(tmp_path)
        (file,) = run("build", game, "--json").json["files"]
        assert run("check", file).code == 0

    def test_a_stop_ends_with_one_and_json_tells_all_of_it(self, run: Any, tmp_path: Path) -> None:
        game = demo(tmp_path, ('code = "one of EBB OAR MUD"', 'code = "FOX"'))
        shown = run("check", game, "--json")
        assert shown.code == 1
        (finding,) = shown.json["findings"]
        assert finding["code"] == "lock.cannot-show"
        assert finding["severity"] == "stop"
        assert finding["where"]["line"] > 0
        assert finding["evidence"] == {
            "type": "missing-face",
            "tag": "W1",
            "position": 3,
            "face": "X",
            "has": list("ABDEGLNRST"),
        }
        assert shown.json["counts"] == {"stop": 1, "fix": 0, "note": 0}

    def test_the_gravest_stands_first_in_words(self, run: Any, tmp_path: Path) -> None:
        game = demo(tmp_path, ('code = "one of EBB OAR MUD"', 'code = "one of FOX WAX"'))
        shown = run("check", game)
        assert shown.out.startswith("Can't run:")
        assert "Good to know:" in shown.out

    @pytest.mark.parametrize("command", ["build", "check", "print"])
    def test_a_folder_that_is_not_there_is_told(
        self, run: Any, tmp_path: Path, command: str
    ) -> None:
        shown = run(command, tmp_path / "nowhere")
        assert shown.code == 2
        assert "nowhere" in shown.err

    def test_a_wish_for_a_version_that_is_not_there_is_told(self, run: Any, tmp_path: Path) -> None:
        shown = run("build", demo(tmp_path), "--clue", "flour-stamp=lage")
        assert shown.code == 2
        assert "large" in shown.err

    def test_a_new_game_goes_all_the_way(self, run: Any, tmp_path: Path) -> None:
        game = tmp_path / "mine"
        assert run("new", game).code == 0
        assert run("build", game).code == 0
        assert run("check", game).code == 0
        assert run("print", game, "--out", tmp_path / "out").code == 0

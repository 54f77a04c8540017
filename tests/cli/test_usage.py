"""A slip of the fingers is told with what was meant, or with where the command explains itself."""

from __future__ import annotations

from pathlib import Path

import pytest

from boxwright.game.model import LEVELS
from tests.cli.conftest import Run
from tests.games import demo

MAKE = ("make", "nonogram", "--lock", "number-wheels:3", "--code", "427")


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("chekc", "x"), ("chekc", "Did you mean check?")),
        (("PRINT", "x"), ("PRINT", "Did you mean print?")),
        (("qqqq",), ("qqqq", "rename")),
        (("make", "nonogram", "--cod", "427"), ("--cod", "Write --code")),
        (("kinds", "--qqqq"), ("--qqqq", "boxwright kinds --help")),
        (("make",), ("KIND", "boxwright make --help")),
        (("make", "nonogram"), ("--code", "boxwright make --help")),
        (("check", "my", "game"), ("game", "quotation marks")),
        ((*MAKE, "--seed", "abc"), ("--seed", "abc", "from 0 to 9223372036854775807")),
        (("build", "x", "--groups", "0"), ("--groups", "from 1 to 99")),
        ((*MAKE, "--seed"), ("--seed", "boxwright make --help")),
        ((*MAKE, "--level", "hardr"), ("hardr", "Did you mean harder?", *LEVELS)),
        ((*MAKE, "--paper", "a3"), ("a3", "us-letter")),
        ((*MAKE, "--size", "13"), ("13", "12, 14 or 18")),
        (("build", "x", "--clue", "a= "), ("balloons=by-torch",)),
        (("build", "x", "--level-of", "2"), ("--level-of", "2=easier")),
        (("build", "x", "--level-of", "2=hardr"), ("--level-of", "Did you mean harder?")),
        ((*MAKE, "--option", "=hills"), ("=hills", "ground=hills")),
        ((*MAKE, "--option", " =hills"), ("=hills", "ground=hills")),
        ((*MAKE, "--option", "grond=hills"), ("no grond in options", "Rename grond to ground")),
        ((*MAKE, "--option", "ground=" + "[" * 100_000), ("ground",)),
        ((*MAKE, "--age", "nine"), ("nine", "--ages 9-11")),
        ((*MAKE, "--age", "11-9"), ("11", "--ages 9-11")),
        ((*MAKE, "--age", "3"), ("3", "from 4 to 99")),
        ((*MAKE, "--language", "klingon"), ("klingon", "en for English")),
        ((*MAKE, "--language", ""), ("en for English",)),
        (("make", "nonogrm", "--code", "427"), ("nonogrm", "Write nonogram")),
    ],
)
def test_a_slip_is_told_with_what_helps(
    run: Run, arguments: tuple[str, ...], said: tuple[str, ...]
) -> None:
    assert run(*arguments).refused(*said)


def test_the_name_alone_shows_what_there_is(run: Run) -> None:
    shown = run()
    assert shown.code == 2
    assert "Commands" in shown.out + shown.err


def test_choices_are_read_in_capitals_too(run: Run) -> None:
    plain = run(*MAKE, "--level", "harder", "--option", "ground=hills")
    capitals = run("make", "NonoGram", *MAKE[2:], "--level", "HARDER", "--option", "ground=HILLS")
    assert plain.code == capitals.code == 0
    assert capitals.json == plain.json


@pytest.mark.parametrize("name", ["--age", "--ages"])
def test_ages_are_read_as_elsewhere(run: Run, name: str) -> None:
    assert run(*MAKE, name, "9-11").code == 0
    assert run(*MAKE, name, "9").json == run(*MAKE, name, "9–9").json


def test_the_youngest_age_decides_how_large_the_text_is(run: Run, tmp_path: Path) -> None:
    sizes = {}
    for ages in ("9-12", "10-12", "9"):
        out = tmp_path / f"{ages}.svg"
        run(*MAKE, "--ages", ages, "--out", out)
        sizes[ages] = out.read_bytes()
    assert sizes["9-12"] == sizes["9"] != sizes["10-12"]


def test_a_disk_fault_that_nobody_foresaw_is_told(
    run: Run, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def broken(*_: object) -> None:
        raise OSError(5, "Input/output error", "game.toml")

    monkeypatch.setattr("boxwright.game.rename.rename", broken)
    assert run("rename", demo(tmp_path), "a", "b").refused("game.toml", "Input/output error")


@pytest.mark.parametrize(
    ("arguments", "near"),
    [
        (("build", "--clue", "flour-stmp=large"), "flour-stamp"),
        (("build", "--clue", "flour-stamp=lage"), "large"),
        (("build", "--again", "flour-stmp"), "flour-stamp"),
        (("print", "--only", "Flour-Stamp"), "flour-stamp"),
    ],
)
def test_a_name_of_the_game_that_is_nearly_right_is_told(
    run: Run, tmp_path: Path, arguments: tuple[str, ...], near: str
) -> None:
    game = demo(tmp_path)
    run("build", game)
    assert run(arguments[0], game, *arguments[1:]).refused(f"Did you mean {near}?")


def test_an_arrangement_that_is_nearly_right_is_told(run: Run, tmp_path: Path) -> None:
    game = demo(tmp_path)
    file = game / "game.toml"
    more = '\n[arrangements.short]\nlevel = "easier"\n'
    file.write_text(file.read_text(encoding="utf-8") + more, encoding="utf-8")
    shown = run("build", game, "--arrangement", "shrt")
    assert shown.refused("Did you mean short?")

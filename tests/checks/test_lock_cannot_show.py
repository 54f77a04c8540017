"""Wheels that lack a letter are named with the letter; words passed over are only noted."""

from __future__ import annotations

from pathlib import Path

from boxwright.messages import words
from boxwright.problems import MissingFace
from tests.games import built, demo, found

CODE = "lock.cannot-show"
WORDS = 'code = "one of EBB OAR MUD"'


def test_the_demo_game_is_clean(tmp_path: Path) -> None:
    assert found(demo(tmp_path), CODE) == []


def test_a_missing_letter_is_a_stop_that_names_wheel_and_letter(tmp_path: Path) -> None:
    (finding,) = found(demo(tmp_path, (WORDS, 'code = "FOX"')), CODE)
    assert finding.severity == "stop"
    assert finding.evidence == MissingFace("W1", 3, "X", tuple("ABDEGLNRST"))
    said = words(finding.problem.what)
    assert "W1" in said
    assert "FOX" in said
    assert "X" in said
    assert finding.problem.where.path == ("locks", "water", "code")
    assert finding.problem.where.line


def test_a_fixed_lock_with_another_code_is_a_stop(tmp_path: Path) -> None:
    game = demo(
        tmp_path,
        ("[locks.W1]", '[locks.W1]\nfixed = true\ncode = "BAG"'),
        file="kit.toml",
    )
    (finding,) = [one for one in built(game).findings if one.severity == "stop"]
    assert finding.problem.code == "lock.fixed-otherwise"
    assert "BAG" in words(finding.problem.remedy)


def test_the_remedy_for_a_fixed_lock_clears_it(tmp_path: Path) -> None:
    demo(tmp_path, ("[locks.W1]", '[locks.W1]\nfixed = true\ncode = "BAG"'), file="kit.toml")
    game = demo(tmp_path, (WORDS, 'code = "BAG"'))
    assert built(game).findings == ()


def test_a_word_of_the_list_that_cannot_be_shown_is_a_note_and_never_drawn(tmp_path: Path) -> None:
    game = demo(tmp_path, (WORDS, 'code = "one of EBB FOX"'))
    (finding,) = found(game, CODE)
    assert finding.severity == "note"
    assert built(game).edition.codes["water"] == ("E", "B", "B")


def test_a_list_of_which_nothing_can_be_shown_is_a_stop(tmp_path: Path) -> None:
    game = demo(tmp_path, (WORDS, 'code = "one of FOX WAX"'))
    assert {finding.severity for finding in found(game, CODE)} == {"stop", "note"}


def test_the_remedy_clears_it(tmp_path: Path) -> None:
    game = demo(tmp_path, (WORDS, 'code = "FOX"'))
    assert found(game, CODE)
    demo(tmp_path, ('code = "FOX"', 'code = "FIG"'))
    assert found(game, CODE) == []

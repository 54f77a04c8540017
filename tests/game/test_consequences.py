"""One slip is one complaint, and mending what it names mends the game."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from boxwright.game.folder import Folder, read_game
from boxwright.game.write import edit
from boxwright.messages import words
from boxwright.problems import Problem

Changed = Callable[..., Path]


def found(folder: Path) -> tuple[Problem, ...]:
    outcome = read_game(folder)
    return () if isinstance(outcome, Folder) else outcome


@pytest.mark.parametrize(
    ("old", "new", "file", "code"),
    [
        ("[boxes.trunk]", "[boxes.trunkk]", "game.toml", "game.heading-differs"),
        ("[items.torch]", "[items.torhc]", "game.toml", "game.heading-differs"),
        ("[locks.hatch]", "[locks.hacth]", "game.toml", "game.unknown-name-but"),
        ('fibre = "', 'fiber = "', "game.toml", "game.heading-differs"),
        ("[models.three-numbers]", "[models.three-number]", "kit.toml", "kit.no-model-but"),
        ("[boxes.trunk]", "[boxes.zzz]", "game.toml", "game.unknown-name-often"),
        ("[boxes.trunk]", "[boxes.Trunk]", "game.toml", "folder.bad-id"),
        ("[boxes.trunk]", '[boxes."big trunk"]', "game.toml", "folder.bad-id"),
        ("[game]", "", "game.toml", "folder.lost-head"),
        ("[room]", "", "room.toml", "folder.lost-head"),
        ("[kit]", "", "kit.toml", "folder.lost-head"),
        ("closes =", "close =", "game.toml", "folder.unknown-key-but"),
        ("gives =", "give =", "game.toml", "folder.unknown-key-but"),
        ("[clues.sheaves]", "[clues.sheavs]", "game.toml", "game.clue-apart"),
    ],
)
def test_one_slip_is_told_once(changed: Changed, old: str, new: str, file: str, code: str) -> None:
    told = found(changed((old, new), file=file))
    assert [one.code for one in told] == [code], [words(one.what) for one in told]
    assert told[0].where.line
    assert "{" not in words(told[0].what) + words(told[0].remedy)


def test_a_misspelt_heading_is_told_at_its_place_with_all_lines_that_name_it_rightly(
    changed: Changed,
) -> None:
    folder = changed(("[boxes.trunk]", "[boxes.trunkk]"))
    (one,) = found(folder)
    assert one.where.path == ("boxes", "trunkk")
    text = (folder / "game.toml").read_text(encoding="utf-8")
    closing = next(at for at, line in enumerate(text.splitlines(), 1) if 'closes = "trunk"' in line)
    assert str(closing) in words(one.what)


@pytest.mark.parametrize("heading", ["[boxes.trunk]", "[items.torch]"])
def test_mending_the_heading_mends_the_game(changed: Changed, heading: str) -> None:
    folder = changed((heading, heading.replace("]", "k]")))
    (one,) = found(folder)
    assert one.edit is not None
    assert edit(folder, [one.edit]) == ()
    assert found(folder) == ()


def test_a_name_misspelt_twice_is_told_once_with_both_lines(changed: Changed) -> None:
    folder = changed(
        ('closes = "trunk"', 'closes = "trnuk"'), ('closes = "trunk"', 'closes = "trnuk"')
    )
    (one,) = found(folder)
    assert one.code == "game.unknown-name-often-but"
    assert "Did you mean trunk?" in words(one.what)


def test_two_slips_are_told_both(changed: Changed) -> None:
    folder = changed(("[boxes.trunk]", "[boxes.trunkk]"), ('closes = "safe"', 'closes = "saef"'))
    assert len(found(folder)) == 2


def test_a_slip_elsewhere_is_told_beside_an_ill_written_heading(changed: Changed) -> None:
    folder = changed(("[boxes.trunk]", "[boxes.Trunk]"), ('closes = "safe"', 'closes = "saef"'))
    assert [one.code for one in found(folder)] == ["folder.bad-id", "game.unknown-name-but"]


def test_a_missing_key_is_shown_with_a_name_of_the_game_itself(changed: Changed) -> None:
    (one,) = found(changed(('closes = "safe"', "")))
    assert 'closes = "trunk"' in words(one.remedy)

"""The page about adding a kind says what the shelf asks for."""

from __future__ import annotations

import re
from pathlib import Path

from boxwright.puzzles.shelf_rules import CLASSES, FUNCTIONS, VALUES

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "add-a-kind.md").read_text(encoding="utf-8")


def test_the_table_names_what_a_kind_must_have_and_nothing_else() -> None:
    named = re.findall(r"^\| `(\w+)` \|", PAGE, re.MULTILINE)
    assert sorted(named) == sorted([*VALUES, *CLASSES, *FUNCTIONS])


def test_the_files_that_it_names_are_there() -> None:
    for path in re.findall(r"`((?:src|tests|tools|bench)/[\w/.-]+)`", PAGE):
        if "quiz" not in path:
            assert (ROOT / path).exists(), path


def test_the_skeleton_that_it_copies_is_two_files() -> None:
    folder = ROOT / "src" / "boxwright" / "puzzles" / "skeleton"
    assert sorted(file.name for file in folder.glob("my_kind.*")) == ["my_kind.py", "my_kind.typ"]

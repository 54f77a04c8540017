"""The print-outs of what was built: for whom, how often, and how far they are."""

from __future__ import annotations

from pathlib import Path

import pytest

from boxwright.build import Asked, Built, build
from boxwright.build.printing import files_of, printed, put_into
from boxwright.game.choosing import Wishes
from boxwright.game.examples import examples
from boxwright.paper.printouts import PrintOut


@pytest.fixture(scope="module")
def made() -> Built:
    return build(Asked(examples()["tide-mill"], Wishes(groups=2)))


@pytest.fixture(scope="module")
def seen() -> list[tuple[int, int]]:
    return []


@pytest.fixture(scope="module")
def files(made: Built, seen: list[tuple[int, int]]) -> dict[str, PrintOut]:
    return files_of(made, printed(made, seen=lambda done, of: seen.append((done, of))))


def test_each_goes_into_one_persons_hands(files: dict[str, PrintOut]) -> None:
    hands = {name: one.hands for name, one in files.items()}
    assert hands["tide-mill-sheets.pdf"] == "office"
    assert hands["tide-mill-sheets-start.pdf"] == "pupils"
    assert hands["tide-mill-key.pdf"] == "teacher"


def test_what_each_group_needs_is_printed_for_each(files: dict[str, PrintOut]) -> None:
    copies = {one.of: one.copies for one in files.values()}
    assert {of for of, n in copies.items() if n == 2} == {"sheets", "rules", "how-to-open", "hints"}
    assert set(copies.values()) == {1, 2}
    assert {one.groups for one in files.values()} == {("1", "2")}


def test_it_tells_how_far_it_is(files: dict[str, PrintOut], seen: list[tuple[int, int]]) -> None:
    assert seen == [(n, len(files)) for n in range(len(files) + 1)]


def test_they_are_written_under_the_names_that_they_have(
    made: Built, files: dict[str, PrintOut], tmp_path: Path
) -> None:
    put_into(tmp_path, made, files, whole=True)
    assert {file.name for file in tmp_path.glob("*.pdf")} == files.keys()

"""A ring of waiting is found however long it is, and breaking it anywhere clears it."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Cycle
from tests.games import base, found, remedy, said

CODE = "reach.locked-behind-itself"
QUIZ = 'content = "parts.csv"\nplace = "tin"'
TORCH = 'tool = "uv-torch"\nplace = "tin"'
STENCIL = 'level = "easier"\nkind = "nonogram"'


def test_the_base_game_has_no_ring(tmp_path: Path) -> None:
    assert found(base(tmp_path), CODE) == []


def test_a_sheet_in_the_box_that_it_opens_is_told_as_a_path_with_all_its_places(
    tmp_path: Path,
) -> None:
    (finding,) = found(base(tmp_path, (STENCIL, f'{STENCIL}\nplace = "crate"')), CODE)
    assert (finding.severity, finding.basis) == ("stop", "computed")
    assert finding.evidence == Cycle(("crate", "front", "stencil", "stencil/sheet"))
    places = (finding.problem.where, *finding.also)
    assert [place.path for place in places] == [
        ("boxes", "crate"),
        ("locks", "front"),
        ("clues", "stencil"),
        ("clues", "stencil", "versions", "one", "place"),
    ]
    assert all(place.line for place in places)
    assert said(finding).endswith(
        "the wooden crate is closed by the lock “front”, the lock “front” needs the answer of "
        "the clue “stencil”, the clue “stencil” needs the sheet of “stencil”, the sheet of "
        "“stencil” lies in the wooden crate."
    )


def test_a_ring_through_a_torch_and_two_boxes_is_found(tmp_path: Path) -> None:
    # The quiz that opens the folder lies in the chest; the chest waits for the folder's sheet.
    (finding,) = found(base(tmp_path, (QUIZ, QUIZ.replace("tin", "chest"))), CODE)
    assert isinstance(finding.evidence, Cycle)
    assert set(finding.evidence.ids) >= {"folder", "seal", "parts", "chest", "drum", "glow"}


def test_a_torch_behind_the_clue_that_needs_it_is_found(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (TORCH, TORCH.replace("tin", "chest"))), CODE)
    assert isinstance(finding.evidence, Cycle)
    assert {"torch", "glow"} <= set(finding.evidence.ids)
    assert "the clue “glow” needs a violet torch" in said(finding)


def test_one_part_of_two_is_named(tmp_path: Path) -> None:
    game = base(tmp_path, ('parts = { key = "crate" }', 'parts = { key = "chest" }'))
    (finding,) = found(game, CODE)
    assert "the part “key” of “fences” lies in the seed chest" in said(finding)


def test_a_second_clue_outside_is_near_a_ring_but_fine(tmp_path: Path) -> None:
    spare = '[clues.spare]\ngives = "front"\n\n[clues.spare.versions.one]\nkind = "count-sheet"'
    game = base(
        tmp_path,
        (STENCIL, f'{STENCIL}\nplace = "crate"'),
        ("[clues.rounds]", f"{spare}\n\n[clues.rounds]"),
    )
    assert found(game, CODE) == []


def test_putting_one_thing_outside_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (QUIZ, QUIZ.replace("tin", "chest")))
    (finding,) = found(game, CODE)
    assert "Break the ring at one place" in remedy(finding)
    base(tmp_path, (QUIZ.replace("tin", "chest"), QUIZ.replace("tin", "sill")))
    assert found(game, CODE) == []


def test_another_clue_outside_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (QUIZ, QUIZ.replace("tin", "chest")))
    assert found(game, CODE)
    spare = '[clues.spare]\ngives = "seal"\n\n[clues.spare.versions.one]\nkind = "count-sheet"'
    base(tmp_path, ("[clues.rounds]", f"{spare}\n\n[clues.rounds]"))
    assert found(game, CODE) == []

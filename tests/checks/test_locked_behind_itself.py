"""A ring of waiting is found however long it is, and breaking it anywhere clears it."""

from __future__ import annotations

from pathlib import Path

from boxwright.messages import words
from boxwright.problems import Cycle
from tests.games import demo, found

CODE = "reach.locked-behind-itself"


def test_the_demo_game_has_no_ring(tmp_path: Path) -> None:
    assert found(demo(tmp_path), CODE) == []


def test_a_longer_ring_is_told_as_a_path_with_all_its_places(tmp_path: Path) -> None:
    # The case holds the key to the chest; the sheet that opens the case lies in the chest.
    first = 'level = "easier"\nkind = "nonogram"'
    second = 'level = "harder"\nkind = "nonogram"'
    game = demo(
        tmp_path,
        (first, f'{first}\nplace = "chest"'),
        (second, f'{second}\nplace = "chest"'),
    )
    (finding,) = found(game, CODE)
    assert isinstance(finding.evidence, Cycle)
    assert set(finding.evidence.ids) >= {"case", "sluice", "flour-stamp", "chest"}
    places = (finding.problem.where, *finding.also)
    assert all(place.line for place in places)
    assert len(places) == len(finding.evidence.ids)


def test_a_ring_of_two_clues_is_told_in_words(tmp_path: Path) -> None:
    game = demo(
        tmp_path,
        (
            'opened_by = "brass-key"',
            (
                'opened_by = "brass-key"\n\n[locks.peg]\nmechanism = "key"\n'
                'closes = "case"\nopened_by = "iron-key"'
            ),
        ),
        (
            "[items.notes]",
            '[items.iron-key]\nname = "an iron key"\nplace = "chest"\n\n[items.notes]',
        ),
    )
    (finding,) = found(game, CODE)
    told = words(finding.problem.what)
    assert "the lock “peg” needs an iron key" in told
    assert "a brass key lies in the miller's case" in told


def test_the_remedy_clears_it(tmp_path: Path) -> None:
    first = 'level = "easier"\nkind = "nonogram"'
    second = 'level = "harder"\nkind = "nonogram"'
    game = demo(
        tmp_path, (first, f'{first}\nplace = "chest"'), (second, f'{second}\nplace = "chest"')
    )
    assert found(game, CODE)
    demo(tmp_path, (f'{first}\nplace = "chest"', first), (f'{second}\nplace = "chest"', second))
    assert found(game, CODE) == []


def test_a_spare_sheet_outside_is_near_a_ring_but_fine(tmp_path: Path) -> None:
    # Both boxes close with locks whose clues lie in the other box's neighbour, not in a ring.
    game = demo(tmp_path, ('place = "case"\n\n[arrangements', 'place = "shelf"\n\n[arrangements'))
    assert found(game, CODE) == []

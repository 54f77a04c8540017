"""A game that is won at the first glance is told."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Clash
from tests.games import base, found, remedy, said

CODE = "game.won-at-start"
WINS = 'place = "chest"\nwins = true'
LOCKED = 'mechanism = "key"\ncloses = "tin"'


def test_a_prize_on_the_table_is_told(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (WINS, WINS.replace("chest", "table"))), CODE)
    assert (finding.severity, finding.basis) == ("fix", "computed")
    assert finding.evidence == Clash(("seeds",), "start")
    assert finding.problem.where.path == ("items", "seeds", "place")
    assert finding.problem.where.line
    assert "a bag of seeds" in said(finding)


def test_so_is_one_in_a_box_that_nothing_closes(tmp_path: Path) -> None:
    game = base(
        tmp_path,
        (WINS, WINS.replace("chest", "tin")),
        (LOCKED, LOCKED.replace("tin", "crate")),
    )
    assert len(found(game, CODE)) == 1


def test_one_lock_before_it_is_enough(tmp_path: Path) -> None:
    assert found(base(tmp_path, (WINS, WINS.replace("chest", "crate"))), CODE) == []


def test_a_clue_that_leads_to_it_is_enough(tmp_path: Path) -> None:
    clue = '[clues.walk]\ngives = "seeds"\n\n[clues.walk.versions.one]\nkind = "pigpen"\n\n'
    game = base(
        tmp_path,
        (WINS, WINS.replace("chest", "sill")),
        ("[clues.glow]", f"{clue}[clues.glow]"),
    )
    assert found(game, CODE) == []


def test_putting_it_into_a_box_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (WINS, WINS.replace("chest", "table")))
    (finding,) = found(game, CODE)
    assert "into a box" in remedy(finding)
    base(tmp_path, (WINS.replace("chest", "table"), WINS))
    assert found(game, CODE) == []

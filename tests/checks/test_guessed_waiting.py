"""A lock that is looked at for long before its clue comes is told if it can all be tried."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Seconds
from tests.games import base, found, remedy, said

CODE = "guess.waiting"
CHEST = 'name = "the seed chest"\nplace = "table"'
KINDS = ('kind = "nonogram"', 'kind = "route-map"', 'kind = "quiz-index"', 'kind = "unseen-ink"')


def slow(tmp_path: Path, level: str) -> Path:
    """The four clues on the way to the last lock, which stands on the table, at one level."""
    levels = [(kind, f'level = "{level}"\n{kind}') for kind in KINDS]
    return base(tmp_path, ('level = "easier"\n', ""), *levels)


def test_a_lock_that_waits_for_the_longest_chain_is_noted(tmp_path: Path) -> None:
    (finding,) = found(slow(tmp_path, "harder"), CODE)
    assert (finding.severity, finding.basis) == ("note", "estimated")
    # 17, 8.8, 8.4 and 10.6 minutes, each 0.6 of its kind's band; a thousand codes of 1.2 s.
    assert finding.evidence == Seconds(1200, 1020 + 528 + 504 + 636)
    assert finding.problem.where.path == ("locks", "drum")
    assert finding.problem.where.line
    assert all(part in said(finding) for part in ("drum", "20 minutes", "45 minutes"))


def test_a_lock_with_fewer_codes_need_not_wait_so_long(tmp_path: Path) -> None:
    faces = 'wheels = 3\nfaces = "123456789"\nstand_in = "allowed"\ncloses = "chest"'
    game = base(tmp_path, ('wheels = 3\ncloses = "chest"', faces))
    base(
        tmp_path, ('[locks.N2]\nmodel = "three-numbers"\nshelf_code = "000"\n', ""), file="kit.toml"
    )
    (finding,) = found(game, CODE)
    assert isinstance(finding.evidence, Seconds)
    assert finding.evidence.found == int(9**3 * 1.2)


def test_the_same_lock_is_fine_where_the_chain_is_shorter(tmp_path: Path) -> None:
    assert found(slow(tmp_path, "ordinary"), CODE) == []


def test_a_short_time_to_play_is_the_longest_wait(tmp_path: Path) -> None:
    game = slow(tmp_path, "harder")
    base(tmp_path, ("bell_to_bell = 75", "bell_to_bell = 55"))
    assert found(game, CODE) == []


def test_putting_its_box_where_it_comes_later_clears_it(tmp_path: Path) -> None:
    game = slow(tmp_path, "harder")
    (finding,) = found(game, CODE)
    assert "comes later" in remedy(finding)
    base(tmp_path, (CHEST, CHEST.replace("table", "crate")))
    assert found(game, CODE) == []

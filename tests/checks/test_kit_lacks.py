"""What the shelf lacks is told, and for how many groups it is enough."""

from __future__ import annotations

from pathlib import Path

from boxwright.build import Asked, build
from boxwright.game.choosing import Wishes
from boxwright.problems import Count, Finding
from tests.games import base, found, remedy, said

CODE = "kit.lacks"
N2 = '[locks.N2]\nmodel = "three-numbers"\nshelf_code = "000"\n'
KEY_LOCK = '[locks.K1]\nmechanism = "key"\nshackle_mm = [5, 22]\n'


def for_groups(game: Path, groups: int) -> list[Finding]:
    findings = build(Asked(game, Wishes(groups=groups))).findings
    return [one for one in findings if one.problem.code.startswith(CODE)]


def test_one_lock_for_two_is_a_stop(tmp_path: Path) -> None:
    game = base(tmp_path)
    base(tmp_path, (N2, ""), file="kit.toml")
    (finding,) = found(game, CODE)
    assert finding.problem.code == "kit.lacks-locks"
    assert (finding.severity, finding.basis) == ("stop", "computed")
    assert finding.evidence == Count(0, 1)
    assert finding.problem.where.path == ("locks", "drum")
    assert finding.problem.where.line
    assert "drum" in said(finding)
    assert "The grey trolley" in said(finding)


def test_a_free_lock_of_that_sort_that_will_not_do_is_named(tmp_path: Path) -> None:
    game = base(tmp_path)
    base(tmp_path, (N2, '[locks.N9]\nmechanism = "number-wheels"\nwheels = 5\n'), file="kit.toml")
    (finding,) = found(game, CODE)
    assert "None is left for it." in said(finding)
    assert "N9, with codes of 5 symbols" in said(finding)


def test_a_second_group_goes_without_and_it_is_said_for_how_many_it_is_enough(
    tmp_path: Path,
) -> None:
    findings = for_groups(base(tmp_path), 2)
    assert {one.problem.code for one in findings} == {
        "kit.lacks-boxes",
        "kit.lacks-locks",
        "kit.lacks-items",
    }
    assert {one.evidence for one in findings} == {Count(1, 2)}
    assert all("1 group of 2" in said(one) for one in findings)


def test_a_lock_without_its_key_is_told_once(tmp_path: Path) -> None:
    game = base(tmp_path)
    base(tmp_path, ('[keys.Y1]\nopens = ["K1"]\n', ""), file="kit.toml")
    (finding,) = found(game, CODE)
    assert finding.problem.where.path == ("locks", "latch")
    assert "with its key" in remedy(finding)


def test_a_tool_that_the_shelf_has_once_is_told_for_two_groups(tmp_path: Path) -> None:
    torches = [one for one in for_groups(base(tmp_path), 2) if one.problem.code.endswith("items")]
    assert [one.problem.where.path for one in torches] == [("items", "torch")]
    assert "uv-torch" in said(torches[0])


B2 = '[boxes.B2]\nname = "tool box"\ninside_mm = [180, 120, 90]'
LARGE = B2.replace("180", "410")
CRATE_INSIDE = "inside_mm = [400, 300, 200]"


def test_a_box_that_must_go_into_another_is_told_with_its_sizes(tmp_path: Path) -> None:
    game = base(tmp_path)
    base(tmp_path, (B2, LARGE), file="kit.toml")
    (finding,) = found(game, CODE)
    assert finding.problem.code == "kit.lacks-boxes-inside"
    assert "120 × 80 × 60 mm inside at least" in said(finding)
    assert "go into the wooden crate (B1)" in said(finding)
    assert "398 × 298 × 198 mm at most" in remedy(finding)
    # As large as is said to be possible, and it will do.
    base(
        tmp_path,
        (LARGE, B2.replace("180, 120, 90", "398, 298, 198")),
        file="kit.toml",
    )
    assert found(game, CODE) == []


def test_a_box_that_is_wanted_larger_than_the_one_around_it_is_told_so(tmp_path: Path) -> None:
    game = base(tmp_path, ("inside_mm = [120, 80, 60]", "inside_mm = [120, 80, 230]"))
    base(
        tmp_path,
        (B2, LARGE),
        (CRATE_INSIDE, "inside_mm = [210, 205, 200]"),
        file="kit.toml",
    )
    (finding,) = found(game, CODE)
    assert finding.problem.code == "kit.lacks-boxes-never"
    assert "a smaller inside_mm for “jar”" in remedy(finding)
    base(tmp_path, ("inside_mm = [120, 80, 230]", "inside_mm = [120, 80, 60]"))
    base(tmp_path, (LARGE, B2), file="kit.toml")
    assert found(game, CODE) == []


def test_a_lock_is_told_with_the_length_of_its_codes(tmp_path: Path) -> None:
    game = base(tmp_path)
    base(tmp_path, (N2, ""), file="kit.toml")
    (finding,) = found(game, CODE)
    assert "lock with number wheels, codes of 3 symbols" in said(finding)


def test_paper_in_place_of_a_lock_is_enough(tmp_path: Path) -> None:
    drum = 'wheels = 3\ncloses = "chest"'
    game = base(tmp_path, (drum, f'{drum}\nstand_in = "allowed"'))
    base(tmp_path, (N2, ""), file="kit.toml")
    assert found(game, CODE) == []


def test_the_remedies_clear_it(tmp_path: Path) -> None:
    game = base(tmp_path)
    base(tmp_path, (N2, ""), file="kit.toml")
    (finding,) = found(game, CODE)
    assert "Add such a lock" in remedy(finding)
    assert "stand-in" in remedy(finding)
    base(tmp_path, (KEY_LOCK, f"{KEY_LOCK}\n{N2}"), file="kit.toml")
    assert found(game, CODE) == []
    assert for_groups(game, 2)
    assert for_groups(game, 1) == []

"""The example games: clean and printed in every arrangement, room and number of groups."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from boxwright.build import Asked, build, read
from boxwright.build.printing import printed
from boxwright.choose.chance import Chance
from boxwright.game.arrange import Wishes
from tests.games import EXAMPLES


def plays() -> Iterator[tuple[Path, str | None, Path, int]]:
    """Every way to play every example: arrangement, room file, groups."""
    for game in sorted(path.parent for path in EXAMPLES.glob("*/game.toml")):
        folder = read(game)
        rooms = [file for file in sorted(game.glob("*.toml")) if "[room]" in file.read_text()]
        for arrangement in (None, *folder.game.arrangements):
            for room in rooms:
                for groups in range(folder.game.game.groups[0], folder.game.game.groups[1] + 1):
                    yield game, arrangement, room, groups


PLAYS = list(plays())


def test_there_are_examples() -> None:
    assert len({game for game, *_ in PLAYS}) >= 1
    assert len({room for _, _, room, _ in PLAYS}) >= 2


@pytest.mark.parametrize("seed", [1, 2, 3])
@pytest.mark.parametrize(
    ("game", "arrangement", "room", "groups"), PLAYS, ids=lambda one: Path(str(one)).stem
)
def test_an_example_has_nothing_to_fix(
    game: Path, arrangement: str | None, room: Path, groups: int, seed: int
) -> None:
    wishes = Wishes(arrangement=arrangement, groups=groups)
    made = build(Asked(game, wishes, Chance(seed), room=room))
    assert [
        (one.severity, one.problem.code) for one in made.findings if one.severity != "note"
    ] == []


@pytest.mark.parametrize(("paper", "size"), [("a4", 14), ("us-letter", 18)])
@pytest.mark.parametrize(
    ("game", "arrangement", "room"),
    sorted({play[:3] for play in PLAYS}, key=str),
    ids=lambda one: Path(str(one)).stem,
)
def test_an_example_prints_and_reads_back(
    game: Path, arrangement: str | None, room: Path, paper: str, size: int
) -> None:
    made = build(Asked(game, Wishes(arrangement=arrangement), Chance(1), room=room))
    assert {one.reader for one in printed(made, paper, size)} == {"pupils", "teacher"}

"""An edition as a task network: what waits for what, and what it takes."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from boxwright.build import Asked, about_of, build
from boxwright.build.task_network import network_of, other_tasks
from boxwright.choose.ways import ways_of
from boxwright.forecast.network import Network, Task
from boxwright.game.arrange import Wishes
from boxwright.game.unlocking import waves
from tests.games import EXAMPLES, base, built, demo


def network(game: Path) -> Network:
    """Return the task network of a game folder, built from seed 1."""
    made = built(game)
    return network_of(made.edition, about_of(made.folder, made.edition))


def tasks(game: Network) -> dict[str, Task]:
    """Return tasks by name."""
    return {task.name: task for task in game.tasks}


def needs(task: Task) -> list[set[str]]:
    """Return what a task waits for."""
    return [set(way) for way in task.needs]


def had(game: Network, without: Iterable[str] = ()) -> set[str]:
    """Return what can be had when some tasks are never done."""
    found: set[str] = set()
    while True:
        more = {
            task.gives
            for task in game.tasks
            if task.name not in without and any(way <= found for way in task.needs)
        }
        if more <= found:
            return found
        found |= more


def test_clues_wait_for_the_locks_of_the_boxes_that_they_lie_in(tmp_path: Path) -> None:
    found = tasks(network(base(tmp_path)))
    assert needs(found["stencil"]) == [set()]
    assert needs(found["rounds"]) == [{"front"}]
    assert needs(found["fences"]) == [{"front", "side"}]
    assert needs(found["parts"]) == [{"latch"}]
    assert needs(found["glow"]) == [{"latch", "seal"}]


def test_a_lock_with_a_key_is_a_task_of_its_own(tmp_path: Path) -> None:
    latch = tasks(network(base(tmp_path)))["latch"]
    assert needs(latch) == [{"front", "side"}]
    assert latch.work.entry is not None
    assert (latch.work.entry.mechanism, latch.work.hiding) == ("key", ("box",))
    assert (latch.seats, latch.hints) == (1, 0)


def test_a_clue_that_is_solved_before_its_lock_is_at_hand_gives_its_answer_alone(
    tmp_path: Path,
) -> None:
    early = base(tmp_path, ('kind = "route-map"\nplace = "crate"', 'kind = "route-map"'))
    found = tasks(network(early))
    assert (found["rounds"].gives, found["rounds"].work.entry) == ("rounds", None)
    assert needs(found["rounds"]) == [set()]
    assert needs(found["side"]) == [{"front", "rounds"}]
    assert found["side"].work.entry is not None


def test_the_game_ends_with_what_wins(tmp_path: Path) -> None:
    assert network(base(tmp_path)).goal == (frozenset({"label", "drum"}),)


def test_where_nothing_wins_the_game_ends_with_everything(tmp_path: Path) -> None:
    game = network(base(tmp_path, ("wins = true\n", "")))
    assert game.goal == (frozenset({"front", "side", "label", "seal", "drum", "latch"}),)


def test_pupils_hints_and_ages_are_the_games(tmp_path: Path) -> None:
    game = network(base(tmp_path, ('language = "en"', 'language = "en"\nhints = 4')))
    assert (game.pupils, game.hints, game.ages) == (3, 4, (9, 11))


def test_what_a_clue_takes_is_read_off_its_sheet_and_its_lock(tmp_path: Path) -> None:
    found = tasks(network(base(tmp_path)))
    assert found["stencil"].work.effort.skill == "logic"
    assert found["stencil"].work.effort.marks > 0
    assert found["stencil"].work.hiding == ("given",)
    assert found["fences"].work.hiding == ("box", "box")
    assert found["glow"].work.hiding[-1] == "box"
    entry = found["parts"].work.entry
    assert entry is not None
    assert (entry.mechanism, entry.symbols) == ("number-wheels", 4)


def test_what_waits_for_itself_can_never_be_had(tmp_path: Path) -> None:
    ring = network(
        base(tmp_path, ('name = "a tin key"\nplace = "jar"', 'name = "a tin key"\nplace = "tin"'))
    )
    assert tasks(ring)["latch"].needs == ((frozenset({"latch"})),)
    assert "latch" not in had(ring)


def test_the_network_agrees_with_the_proof_of_reach(tmp_path: Path) -> None:
    """Whatever lock never opens, the same clues stay out of reach either way."""
    for folder in (base(tmp_path), demo(tmp_path / "demo"), EXAMPLES / "tide-mill"):
        made = built(folder)
        edition = made.edition
        game = network_of(edition, about_of(made.folder, edition))
        ways = ways_of(edition)
        for lock in (None, *edition.game.locks):
            reached = {
                thing
                for wave in waves([way for way in ways if way.thing != lock])
                for thing in wave
            }
            barred = [task.name for task in game.tasks if task.gives == lock]
            found = had(game, barred)
            won = any(way <= found for way in game.goal)
            wins = [id for id, item in edition.game.items.items() if item.wins]
            assert won == any(id in reached for id in wins)


def test_easier_versions_are_those_whose_work_differs(tmp_path: Path) -> None:
    made = built(EXAMPLES / "tide-mill")
    ordinary = network_of(made.edition, about_of(made.folder, made.edition))
    gentle = build(Asked(EXAMPLES / "tide-mill", Wishes(level="easier")))
    easy = network_of(gentle.edition, about_of(gentle.folder, gentle.edition))
    found = {task.name: task for task in other_tasks(ordinary, easy)}
    assert "flour-sacks" in found
    assert found["flour-sacks"].work.effort.marks < tasks(ordinary)["flour-sacks"].work.effort.marks
    assert list(other_tasks(ordinary, ordinary)) == []

"""Task networks for tests and benches: small ones by hand, others drawn from a seed."""

from __future__ import annotations

from boxwright.dice import Dice
from boxwright.forecast.network import FREE, Entry, Hiding, Network, Task, Work
from boxwright.game.model import LEVELS, MechanismName
from boxwright.puzzles.contract import Effort

MECHANISMS: tuple[MechanismName, ...] = ("number-wheels", "letter-wheels", "direction", "keypad")
HIDINGS: tuple[Hiding, ...] = ("given", "box", "room")
SKILLS = ("logic", "counting", "knowledge", "space", "codes")


def task(name: str, *needs: str, seats: int | None = None, hints: int = 3) -> Task:
    """Return a clue of no effort that opens a lock, once all of `needs` is had."""
    work = Work(entry=Entry("number-wheels", 3))
    return Task(name, name, work, (frozenset(needs),), seats, hints)


def network(*tasks: Task, pupils: int = 1, hints: int = 0, goal: str | None = None) -> Network:
    """Return a game of `tasks` that ends when all is had, or `goal` is."""
    things = (goal,) if goal is not None else tuple(one.gives for one in tasks)
    return Network(tasks, (frozenset(things),), pupils, hints)


def drawn(dice: Dice, clues: int, *, pupils: int = 4, hints: int = 2) -> Network:
    """Return a game whose clues need one or two earlier ones, after a few that are open."""
    first = max(2, clues // 3)
    tasks = [_drawn(dice, at, first if at >= first else 0) for at in range(clues - 1)]
    used = {need for one in tasks for way in one.needs for need in way}
    rest = frozenset(one.gives for one in tasks) - used
    last = Task("last", "last", _work(dice), (rest,))
    return Network((*tasks, last), (frozenset({"last"}),), pupils, hints)


def _drawn(dice: Dice, at: int, first: int) -> Task:
    earlier = [f"t{one}" for one in range(at)] if first else []
    needs = frozenset(dice.sample(earlier, dice.between(1, min(2, at)))) if earlier else None
    ways = FREE if needs is None else (needs,)
    return Task(f"t{at}", f"t{at}", _work(dice), ways, dice.pick((None, None, 1)))


def _work(dice: Dice) -> Work:
    effort = Effort(
        words=dice.between(30, 120),
        marks=dice.between(3, 60),
        steps=dice.between(5, 40),
        depth=dice.between(1, 4),
        skill=dice.pick(SKILLS),
    )
    entry = Entry(dice.pick(MECHANISMS), dice.between(3, 5), dice.pick((0, 3)), 30)
    return Work(effort, (dice.pick(HIDINGS),), entry, dice.pick(LEVELS))

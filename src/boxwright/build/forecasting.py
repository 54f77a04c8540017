"""What is to be expected of a printed set: a forecast for each of its editions.

The chances are the same for every game, so that two forecasts differ by what the games
differ by. NumPy is loaded when a forecast is made, not before.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from boxwright.build import Built, about_of, made
from boxwright.build.current import last_asked
from boxwright.build.task_network import network_of, other_tasks
from boxwright.choose.chance import Chance
from boxwright.choose.edition import Edition
from boxwright.dice import Dice
from boxwright.forecast.network import MOST_TASKS, Network, Task
from boxwright.forecast.parameters import TARGET, Parameters
from boxwright.game.arrange import Wishes
from boxwright.game.folder import Folder
from boxwright.game.model import Level
from boxwright.problems import Problem, Refused, refuse

if TYPE_CHECKING:
    from boxwright.forecast.answers import Forecast
    from boxwright.forecast.changes import Difference, Proposal

CHANCES = "forecast"
LEVELS_ASIDE: tuple[Level, Level] = ("easier", "harder")


@dataclass(frozen=True, slots=True)
class Play:
    """How it is to be played; None: the fewest pupils, and the groups that it is printed for."""

    pupils: int | None = None
    groups: int | None = None
    trials: int = 10_000
    changes: bool = False
    target: float = TARGET


@dataclass(frozen=True, slots=True)
class Foreseen:
    """One edition's groups, the game as they play it, the forecast, what changes would change.

    `proposals` are the best of these towards the target.
    """

    groups: tuple[str, ...]
    network: Network
    forecast: Forecast
    differences: tuple[Difference, ...] = ()
    proposals: tuple[Proposal, ...] = ()


def foresee(built: Built, play: Play) -> tuple[Foreseen, ...]:
    """Return a forecast for each edition; raises Refused where there are too many clues."""
    return tuple(_foreseen(built, edition, play) for edition in built.editions)


def _foreseen(built: Built, edition: Edition, play: Play) -> Foreseen:
    from boxwright.forecast.answers import Asked as Question
    from boxwright.forecast.answers import told, trials_of

    network = _network(built.folder, edition)
    if play.pupils is not None:
        network = replace(network, pupils=play.pupils)
    groups = play.groups or len(edition.groups)
    asked = Question(network, edition.game.time.play_s, groups, play.trials)
    parameters, dice = Parameters(), Dice(CHANCES)
    found = trials_of(asked, parameters, dice)
    forecast = told(asked, found)
    if not play.changes:
        return Foreseen(edition.groups, network, forecast)
    from boxwright.forecast.changes import changes, differences, proposals

    others = {level: at_level(built.folder, edition, network, level) for level in LEVELS_ASIDE}
    wished = changes(network, *others.values())
    changed = differences(asked, found.finish, wished, parameters, dice)
    best = proposals(asked, found.finish, changed, parameters, dice, play.target)
    return Foreseen(edition.groups, network, forecast, changed, best)


def _network(folder: Folder, edition: Edition) -> Network:
    network = network_of(edition, about_of(folder, edition))
    if len(network.tasks) > MOST_TASKS:
        where = folder.where("game.toml", ("clues",))
        count = len(network.tasks)
        refuse(Problem.of("forecast.too-large", where, found=count, most=MOST_TASKS))
    return network


def at_level(folder: Folder, edition: Edition, network: Network, level: Level) -> tuple[Task, ...]:
    """Return the tasks that a version of another level would make lighter or heavier.

    They are what they would be then, all else as it was asked for.
    """
    wishes = replace(_wishes(folder), level=level, levels={}, versions={})
    wishes = replace(wishes, groups=len(edition.groups))
    try:
        other = made(folder, wishes, Chance(edition.seed))
    except Refused:
        return ()  # kit or room allow no such game
    return tuple(other_tasks(network, _network(folder, other[0])))


def _wishes(folder: Folder) -> Wishes:
    try:
        return last_asked(folder.path).wishes
    except Refused:
        return Wishes()

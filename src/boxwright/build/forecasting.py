"""What is to be expected of a printed set: a forecast for each of its editions.

The chances are the same for every game, so that two forecasts differ by what the games
differ by. NumPy is loaded when a forecast is made, not before.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from boxwright.build import Built, about_of, made
from boxwright.build.task_network import easier_tasks, network_of
from boxwright.choose.chance import Chance
from boxwright.choose.edition import Edition
from boxwright.dice import Dice
from boxwright.forecast.network import MOST_TASKS, Network, Task
from boxwright.forecast.parameters import Parameters
from boxwright.game.arrange import Wishes
from boxwright.game.folder import Folder
from boxwright.problems import Problem, Refused, refuse

if TYPE_CHECKING:
    from boxwright.forecast.answers import Forecast
    from boxwright.forecast.changes import Difference

CHANCES = "forecast"


@dataclass(frozen=True, slots=True)
class Play:
    """How it is to be played; None: the fewest pupils, and the groups that it is printed for."""

    pupils: int | None = None
    groups: int | None = None
    trials: int = 10_000
    changes: bool = False


@dataclass(frozen=True, slots=True)
class Foreseen:
    """One edition's groups, the game as they play it, the forecast, what changes would change."""

    groups: tuple[str, ...]
    network: Network
    forecast: Forecast
    differences: tuple[Difference, ...]


def foresee(built: Built, play: Play) -> tuple[Foreseen, ...]:
    """Return a forecast for each edition; raises Refused where there are too many clues."""
    return tuple(_foreseen(built, edition, play) for edition in built.editions)


def _foreseen(built: Built, edition: Edition, play: Play) -> Foreseen:
    from boxwright.forecast.answers import Asked as Question
    from boxwright.forecast.answers import forecast
    from boxwright.forecast.changes import changes, differences

    network = _network(built.folder, edition)
    if play.pupils is not None:
        network = replace(network, pupils=play.pupils)
    groups = play.groups or len(edition.groups)
    asked = Question(network, edition.game.time.play_s, groups, play.trials)
    parameters, dice = Parameters(), Dice(CHANCES)
    wished = changes(network, easier(built.folder, edition, network)) if play.changes else ()
    told = differences(asked, wished, parameters, dice) if play.changes else ()
    return Foreseen(edition.groups, network, forecast(asked, parameters, dice), told)


def _network(folder: Folder, edition: Edition) -> Network:
    network = network_of(edition, about_of(folder, edition))
    if len(network.tasks) > MOST_TASKS:
        where = folder.where("game.toml", ("clues",))
        count = len(network.tasks)
        refuse(Problem.of("forecast.too-large", where, found=count, most=MOST_TASKS))
    return network


def easier(folder: Folder, edition: Edition, network: Network) -> tuple[Task, ...]:
    """Return the tasks that an easier version would make lighter, as they would be then."""
    wishes = Wishes(level="easier", groups=len(edition.groups))
    try:
        gentle = made(folder, wishes, Chance(edition.seed))
    except Refused:
        return ()  # kit or room allow no gentler game
    return tuple(easier_tasks(network, _network(folder, gentle[0])))

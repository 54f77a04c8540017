"""What is to be expected of a printed set: a forecast for each of its editions.

The chances are the same for every game, so that two forecasts differ by what the games
differ by. What tables that played showed comes in as data; without any, clues are as they are
reckoned, within the doubt that the parameters say. NumPy is loaded when a forecast is made,
not before.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field, replace
from typing import TYPE_CHECKING

from boxwright.build import Built, about_of, made
from boxwright.build.current import last_asked
from boxwright.build.parameters import parameters_of
from boxwright.build.task_network import AsWished, network_of, other_tasks
from boxwright.checks import About
from boxwright.choose.chance import Chance
from boxwright.choose.edition import Edition
from boxwright.dice import Dice
from boxwright.forecast.answers import Asked, Forecast
from boxwright.forecast.network import MOST_TASKS, Network, Task, TooManyError
from boxwright.forecast.parameters import TARGET, Parameters
from boxwright.forecast.timing import aloud_s
from boxwright.frozen import frozen_value
from boxwright.game.arrange import Wishes
from boxwright.game.folder import Folder
from boxwright.game.model import Level
from boxwright.problems import Problem, Refused, refuse
from boxwright.second_process import Errand, SecondProcess

if TYPE_CHECKING:
    from boxwright.forecast.changes import Difference, Proposal
    from boxwright.forecast.learning import Lesson, Observation, Subject

CHANCES = "forecast"
FEW = 2_000
"""Trials that tell what a clue takes as well as tables do."""
MINUTE_S = 60
LEVELS_ASIDE: tuple[Level, Level] = ("easier", "harder")


@frozen_value
class Play:
    """How it is to be played; None: the fewest pupils, and the groups that it is printed for.

    `wishes` are those that the set was made with; None: those that the printed set was kept with.
    """

    pupils: int | None = None
    groups: int | None = None
    trials: int = 10_000
    changes: bool = False
    target: float = TARGET
    wishes: Wishes | None = None


@frozen_value
class Foreseen:
    """One edition's groups, the game as they play it, the forecast, what changes would change.

    `proposals` are the best of these towards the target; `lessons` tell what is known of each
    clue.
    """

    groups: tuple[str, ...]
    network: Network
    forecast: Forecast
    differences: tuple[Difference, ...] = ()
    proposals: tuple[Proposal, ...] = ()
    lessons: Mapping[str, Lesson] = field(default_factory=dict)


def foresee(built: Built, play: Play, seen: Sequence[Observation] = ()) -> tuple[Foreseen, ...]:
    """Return a forecast for each edition, as `seen` teaches; Refused for too many clues."""
    return tuple(_foreseen(built, edition, play, seen) for edition in built.editions)


def _foreseen(built: Built, edition: Edition, play: Play, seen: Sequence[Observation]) -> Foreseen:
    from boxwright.forecast.reckoning import told, trials_of

    network = _network(built.folder, edition)
    if play.pupils is not None:
        network = replace(network, pupils=play.pupils)
    parameters, dice = parameters_of(built.folder.game), Dice(CHANCES)
    lessons = lessons_of(edition, seen, parameters)
    asked = question(edition, network, lessons, parameters, play)
    found = trials_of(asked, parameters, dice)
    forecast = told(asked, found)
    if not play.changes:
        return Foreseen(edition.groups, network, forecast, lessons=lessons)
    from boxwright.forecast.changes import changes, differences, proposals

    wishes = play.wishes or _wishes(built.folder)
    others = (at_level(built.folder, edition, network, level, wishes) for level in LEVELS_ASIDE)
    wished = changes(network, *others)
    changed = differences(asked, found.finish, wished, parameters, dice)
    best = proposals(asked, found.finish, changed, parameters, dice, play.target)
    return Foreseen(edition.groups, network, forecast, changed, best, lessons)


def question(
    edition: Edition,
    network: Network,
    lessons: Mapping[str, Lesson],
    parameters: Parameters,
    play: Play,
) -> Asked:
    """Return what is asked of a forecast."""
    groups = play.groups or len(edition.groups)
    biases = {clue: lesson.bias for clue, lesson in lessons.items()}
    return Asked(network, play_s_of(edition, parameters), groups, play.trials, biases)


def play_s_of(edition: Edition, parameters: Parameters) -> float:
    """Return what bell to bell leaves for play, in seconds.

    A story that takes longer to read aloud, with the rules, than its time eats into play.
    """
    time = edition.game.time
    read_s = aloud_s(edition.game.story.opening, parameters["read.adults"])
    told_s = read_s + parameters["rules.told"]
    return time.play_s - max(0.0, told_s - time.briefing_s)


def outlook(edition: Edition, seen: Sequence[Observation], parameters: Parameters) -> Forecast:
    """Return the forecast of an edition whose folder nobody needs, from fewer trials.

    Raises TooManyError where it has more clues than can be forecast.
    """
    return _in_short(edition, network_of(edition, AsWished(edition)), seen, parameters)


def reckoned(
    edition: Edition,
    about: About,
    pupils: int | None,
    hints: int | None,
    second: SecondProcess,
) -> Errand[Forecast | None]:
    """Begin a forecast of an edition for its checks; it gives None where it cannot be made.

    For a group of other `pupils`, and with other `hints`, where these are given. Nothing learnt
    is in it, so that a game is judged alike wherever it is.
    """
    network = about.once(edition, network_of)
    if pupils is not None:
        network = replace(network, pupils=pupils)
    if hints is not None:
        network = replace(network, hints=hints)
    return second.begin(_unlearnt, edition, network, parameters_of(about.folder.game))


def _unlearnt(edition: Edition, network: Network, parameters: Parameters) -> Forecast | None:
    try:
        return _in_short(edition, network, (), parameters)
    except TooManyError:
        return None


def _in_short(
    edition: Edition, network: Network, seen: Sequence[Observation], parameters: Parameters
) -> Forecast:
    """Return a forecast from fewer trials."""
    from boxwright.forecast.reckoning import forecast

    lessons = lessons_of(edition, seen, parameters)
    asked = question(edition, network, lessons, parameters, Play(trials=FEW))
    return forecast(asked, parameters, Dice(CHANCES))


def subjects_of(edition: Edition) -> Mapping[str, Subject]:
    """Return what is learnt about, by clue."""
    from boxwright.forecast.learning import Subject

    game = edition.game
    return {id: Subject(game.id, id, one.kind, one.level) for id, one in game.clues.items()}


def lessons_of(
    edition: Edition, seen: Sequence[Observation], parameters: Parameters
) -> Mapping[str, Lesson]:
    """Return what is known of each clue of an edition, by its id."""
    from boxwright.forecast.learning import learn

    subjects = subjects_of(edition)
    learnt = learn(seen, subjects.values(), parameters)
    return {clue: learnt[subject] for clue, subject in subjects.items()}


def expected_of(edition: Edition, parameters: Parameters) -> Mapping[str, float]:
    """Return the median minutes that each clue takes, without hints and without learning.

    From when it can be begun until what it gives is had, hands that are missing included, as
    it is seen at a table; locks are as the game wishes them. Clues that nobody can do are
    left out. Raises TooManyError where it has more clues than can be forecast.
    """
    from boxwright.forecast.reckoning import spreads, trials_of

    network = replace(network_of(edition, AsWished(edition)), hints=0)
    found = trials_of(Asked(network, 0, trials=FEW), parameters, Dice(CHANCES))
    rows = {name: at for at, name in enumerate(network.names)}
    minutes = {}
    for id, clue in edition.game.clues.items():
        done = found.closed[rows.get(clue.gives, rows[id])]
        ended = done < float("inf")
        if ended.any():
            took = done[ended] - found.opened[rows[id]][ended]
            minutes[id] = (spreads(took[None])[0].p50 or 0.0) / MINUTE_S
    return minutes


def _network(folder: Folder, edition: Edition) -> Network:
    network = network_of(edition, about_of(folder, edition))
    if len(network.tasks) > MOST_TASKS:
        where = folder.where("game.toml", ("clues",))
        count = len(network.tasks)
        refuse(Problem.of("forecast.too-large", where, found=count, most=MOST_TASKS))
    return network


def at_level(
    folder: Folder, edition: Edition, network: Network, level: Level, wishes: Wishes
) -> tuple[Task, ...]:
    """Return the tasks that a version of another level would make lighter or heavier.

    They are what they would be then, all else as it is wished for.
    """
    groups = len(edition.groups)
    wishes = replace(wishes, level=level, levels={}, versions={}, groups=groups)
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

"""What a teacher asks: will they finish, when, and what holds them up?

Standard errors tell how far chance alone may put a number; they tell nothing of how true the
parameters are. `forecast.reckoning` finds the answers; here nothing brings NumPy along.
"""

from __future__ import annotations

from dataclasses import field

from boxwright.forecast.network import Network
from boxwright.forecast.timing import Biases
from boxwright.frozen import frozen_value


@frozen_value
class Asked:
    """What to forecast: a game, the seconds for play, groups that play at once, trials.

    `biases`: what is known of its clues beyond what is reckoned.
    """

    network: Network
    play_s: float
    groups: int = 1
    trials: int = 10_000
    biases: Biases = field(default_factory=dict)


@frozen_value
class Chance:
    """A chance, or a difference of chances, and its standard error."""

    value: float
    error: float


@frozen_value
class Spread:
    """Seconds by which 10, 50 and 90 groups in a hundred are there; None: never."""

    p10: float | None
    p50: float | None
    p90: float | None


@frozen_value
class ClueForecast:
    """When a clue can be begun and is done, in how many games it holds up, hints a group."""

    name: str
    opens: Spread
    closes: Spread
    holds_up: float
    hints: float


@frozen_value
class Forecast:
    """All that is answered of one game.

    `one`: that one group finishes in time; `all`: that all groups of a class do. `idle`:
    the share of pupils' time with nothing to do (None where no group ends). `first_lock`:
    when a group opens its first lock. `no_hint_left`: the share of games in which all hints
    were given; `hints_asked`: how many nine groups of ten ask for at most. `papers`: the most
    sheets on the table at once, in nine games of ten.
    """

    trials: int
    groups: int
    play_s: float
    one: Chance
    all: Chance
    finish: Spread
    first_lock: Spread
    hints: float
    hints_asked: int
    no_hint_left: float
    idle: float | None
    papers: int
    clues: tuple[ClueForecast, ...]

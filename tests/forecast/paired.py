"""The same draws for the quick model and for the one as processes."""

from __future__ import annotations

import numpy as np

from boxwright.dice import Dice
from boxwright.forecast.draws import Draws, Spreads
from boxwright.forecast.network import Network
from boxwright.forecast.parameters import Parameters
from boxwright.forecast.timing import medians_of
from boxwright.forecast.trials import Times
from tests.forecast.reference_simpy import PHASES, Seconds


def times_for(network: Network, groups: int, seed: str, parameters: Parameters) -> Times:
    """Draw times for so many classes of one group, in double precision."""
    medians = medians_of(network, parameters)
    drawn = Draws(network.names, medians, Spreads.of(parameters), Dice(seed)).times(groups, 1)
    return Times(*(part.astype(np.float64) for part in drawn))


def of_group(network: Network, times: Times, group: int) -> dict[str, Seconds]:
    """Return one group's times as the processes take them."""
    return {
        name: {phase: float(part[row, group]) for phase, part in zip(PHASES, times, strict=True)}
        for row, name in enumerate(network.names)
    }

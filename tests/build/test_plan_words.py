"""What a plan says is grammatical for one as for many."""

from __future__ import annotations

import pytest

from boxwright.build.plan_words import proposed
from boxwright.forecast.answers import Chance
from boxwright.forecast.changes import Change, Difference, Proposal
from boxwright.messages import words


@pytest.mark.parametrize(("seconds", "said"), [(60.0, "1 minute longer"), (130.0, "2 minutes")])
def test_a_change_that_fills_the_time_is_said_in_minutes(seconds: float, said: str) -> None:
    alone = Difference(Change("harder", "tour"), Chance(-0.01, 0.001), -seconds)
    _, line = proposed([Proposal(alone, Chance(0.95, 0.01))], 0.9)
    assert said in words(line)

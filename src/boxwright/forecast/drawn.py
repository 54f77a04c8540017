"""A forecast as bars along the clock; drawn on a page and on paper alike.

A bar is solid from when the middle game begins a clue to when the middle game has done it,
and pale from the earliest of nine games in ten to the latest of nine in ten.
"""

from __future__ import annotations

from math import ceil

from boxwright.forecast.answers import ClueForecast, Forecast, Spread
from boxwright.frozen import frozen_value
from boxwright.text import minute_figures

MINUTE_S = 60
NEVER = float("inf")


@frozen_value
class Bar:
    """Where a bar stands, from 0 to 1: pale from `may_from` to `may_to`, solid inside it."""

    may_from: float
    begins: float
    ends: float
    may_to: float


@frozen_value
class Row:
    """A clue's or a lock's bar (None: it is never begun or never done), and what it costs."""

    name: str
    bar: Bar | None
    holds_up: float
    hints: float


@frozen_value
class Drawn:
    """All rows, in the order in which they are mostly begun; positions from 0 to 1.

    `play`: where play ends; `finish` and `first_lock`: 10, 50 and 90 groups in a hundred.
    """

    rows: tuple[Row, ...]
    play: float
    finish: tuple[float, float, float] | None
    first_lock: tuple[float, float, float] | None
    length_s: int

    @property
    def figures(self) -> tuple[tuple[int, float], ...]:
        """The minutes that are written under the bars, and where."""
        minutes = minute_figures(self.length_s // MINUTE_S)
        return tuple((minute, MINUTE_S * minute / self.length_s) for minute in minutes)


def drawn(told: Forecast) -> Drawn:
    """Return the picture of a forecast, over play and what the slow groups take."""
    slow = [one for one in (told.finish.p90, told.play_s) if one is not None]
    length_s = max(MINUTE_S, ceil(max(slow) / MINUTE_S) * MINUTE_S)
    rows = sorted(told.clues, key=_order)
    return Drawn(
        rows=tuple(_row(one, length_s) for one in rows),
        play=told.play_s / length_s,
        finish=_along(told.finish, length_s),
        first_lock=_along(told.first_lock, length_s),
        length_s=length_s,
    )


def _order(one: ClueForecast) -> tuple[float, float]:
    begins, ends = one.opens.p50, one.closes.p50
    return NEVER if begins is None else begins, NEVER if ends is None else ends


def _row(one: ClueForecast, length_s: int) -> Row:
    ends = (one.opens.p10, one.opens.p50, one.closes.p50, one.closes.p90)
    known = [min(at / length_s, 1.0) for at in ends if at is not None]
    return Row(one.name, Bar(*known) if len(known) == len(ends) else None, one.holds_up, one.hints)


def _along(spread: Spread, length_s: int) -> tuple[float, float, float] | None:
    if spread.p10 is None or spread.p50 is None or spread.p90 is None:
        return None
    low, middle, high = (min(at / length_s, 1.0) for at in (spread.p10, spread.p50, spread.p90))
    return low, middle, high

"""Which ages a game can be for."""

from __future__ import annotations

from boxwright.problems import Problem, Where

YOUNGEST, OLDEST = 4, 99


def ages_fault(ages: tuple[int, int], where: Where) -> Problem | None:
    """Return the problem that nobody has such ages, the youngest first; None where all is well."""
    if YOUNGEST <= ages[0] <= ages[1] <= OLDEST:
        return None
    low, high = ages
    return Problem.of("new.odd-ages", where, low=low, high=high, least=YOUNGEST, most=OLDEST)

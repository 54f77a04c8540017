"""What bell to bell leaves for play is enough for nine groups of ten, and not far too much.

The briefing is held against the time that reading the story aloud takes.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from boxwright.checks import About
from boxwright.checks.plan import MINUTE
from boxwright.checks.remedies import change
from boxwright.choose.edition import Edition
from boxwright.forecast.parameters import KNOWN, TARGET
from boxwright.forecast.timing import aloud_s
from boxwright.problems import Edit, Finding, Problem, Seconds, Severity
from boxwright.text import half_minutes

CODE = "time.play"
# Reading aloud, adults: Brysbaert 2019, Journal of Memory and Language 109, 104047.
ALOUD_WORDS_A_MINUTE = round(KNOWN["read.adults"].default)
# Assumption, no source: a game that fills less than a third of its time has come out short.
LEAST_SHARE = 1 / 3


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix where clues or story are longer than their time, a note if short."""
    yield from _play(edition, about)
    yield from _briefing(edition, about)


def _play(edition: Edition, about: About) -> Iterator[Finding]:
    told = about.forecast(edition)
    slow = told.finish.p90 if told is not None else None
    if told is None or slow is None:
        return  # that nobody ever gets to the end is told elsewhere
    play_s = max(0, round(told.play_s))
    if told.one.value < TARGET:
        yield _finding(about, CODE, "bell_to_bell", ceil(slow), play_s)
    elif slow < play_s * LEAST_SHARE:
        yield _finding(about, "time.short", "bell_to_bell", ceil(slow), play_s)


def _briefing(edition: Edition, about: About) -> Iterator[Finding]:
    time, aloud = edition.game.time, read_aloud_s(edition.game.story.opening)
    if aloud > time.briefing_s:
        edit = _more_briefing(edition, about, ceil(aloud / MINUTE))
        yield _finding(about, "time.briefing", "briefing", aloud, time.briefing_s, edit)


def _more_briefing(edition: Edition, about: About, minutes: int) -> Edit | None:
    """Return what gives the story its time, where play can spare it."""
    time, told = edition.game.time, about.forecast(edition)
    slow = told.finish.p90 if told is not None else None
    left = time.play_s - (minutes * MINUTE - time.briefing_s)
    is_enough = slow is not None and slow <= left
    return change(about, "time", "briefing", to=minutes) if is_enough else None


def _finding(
    about: About, code: str, part: str, found: int, limit: int, edit: Edit | None = None
) -> Finding:
    severity: Severity = "note" if code == "time.short" else "fix"
    where = about.where("time", part)
    need, have = half_minutes(found), half_minutes(limit)
    problem = Problem.of(code, where, edit=edit, need=need, have=have)
    return Finding(problem, severity, "estimated", Seconds(found, limit))


def read_aloud_s(paragraphs: tuple[str, ...]) -> int:
    """Return how long reading `paragraphs` aloud takes, in whole seconds."""
    return round(aloud_s(paragraphs, ALOUD_WORDS_A_MINUTE))

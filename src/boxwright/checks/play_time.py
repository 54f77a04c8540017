"""What bell to bell leaves for play is enough for the clues, and not far too much.

Rough, until there is a forecast: see `plan`. The longest chain of clues that wait for one
another counts, or the work of all clues shared out among the pupils of a group, whichever
is longer. The briefing is held against the time that reading the story aloud takes.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from boxwright.checks import About
from boxwright.checks.plan import MINUTE, solving_s, times_of
from boxwright.checks.remedies import change
from boxwright.choose.edition import Edition
from boxwright.game.arranged import TimePlan
from boxwright.problems import Edit, Finding, Problem, Seconds, Severity

CODE = "time.play"
# Reading aloud, adults: Brysbaert 2019, Journal of Memory and Language 109, 104047.
ALOUD_WORDS_A_MINUTE = 183
# Assumption, no source: a game that fills less than a third of its time has come out short.
LEAST_SHARE = 1 / 3


@dataclass(frozen=True, slots=True)
class Needs:
    """What a game takes, in whole seconds.

    `chain`: the longest row of clues that wait for one another; `shared`: the work of all
    clues, shared out among a group; `alone`: all of it one after the other; `aloud`: the
    story, read out.
    """

    chain: int
    shared: int
    alone: int
    aloud: int

    @property
    def play(self) -> int:
        """What play takes: whichever is longer."""
        return max(self.chain, self.shared)


def needs(edition: Edition, about: About) -> Needs:
    """Return what the game of `edition` takes, roughly."""
    alone = sum(solving_s(edition, about).values())
    return Needs(
        chain=max(times_of(edition, about).values(), default=0),
        shared=alone // edition.game.pupils[1],
        alone=alone,
        aloud=read_aloud_s(edition.game.story.opening),
    )


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix where clues or story are longer than their time, a note if short."""
    time, need = edition.game.time, needs(edition, about)
    if need.play > time.play_s:
        code = CODE if need.chain >= need.shared else f"{CODE}-all"
        yield _finding(about, code, "bell_to_bell", need.play, time.play_s)
    elif 0 < need.alone < time.play_s * LEAST_SHARE:
        yield _finding(about, "time.short", "bell_to_bell", need.alone, time.play_s)
    if need.aloud > time.briefing_s:
        edit = _more_briefing(about, need, time)
        yield _finding(about, "time.briefing", "briefing", need.aloud, time.briefing_s, edit)


def _more_briefing(about: About, need: Needs, time: TimePlan) -> Edit | None:
    """Return what gives the story its time, where play can spare it."""
    minutes = ceil(need.aloud / MINUTE)
    left = time.play_s - (minutes * MINUTE - time.briefing_s)
    return change(about, "time", "briefing", to=minutes) if need.play <= left else None


def _finding(
    about: About, code: str, part: str, found: int, limit: int, edit: Edit | None = None
) -> Finding:
    severity: Severity = "note" if code == "time.short" else "fix"
    where = about.where("time", part)
    problem = Problem.of(code, where, edit=edit, need=_minutes(found), have=_minutes(limit))
    return Finding(problem, severity, "computed", Seconds(found, limit))


def _minutes(seconds: int) -> str:
    """Return minutes to a half, without a nought behind the point."""
    return f"{round(2 * seconds / MINUTE) / 2:g}"


def read_aloud_s(paragraphs: tuple[str, ...]) -> int:
    """Return how long reading `paragraphs` aloud takes, in whole seconds."""
    words = sum(len(paragraph.split()) for paragraph in paragraphs)
    return round(words * MINUTE / ALOUD_WORDS_A_MINUTE)

"""What bell to bell leaves for play is enough for the longest chain of clues.

Rough, until there is a forecast: each clue counts a part of its kind's band by its level,
and what can be done side by side is taken to be done side by side. The briefing is held
against the time that reading the story aloud takes.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.choose.ways import ways_of
from boxwright.game.arranged import ArrangedClue
from boxwright.game.unlocking import Way
from boxwright.problems import Finding, Problem, Seconds
from boxwright.puzzles.shelf import kind

CODE = "time.play"
MINUTE = 60
# Assumption, no source: where in a kind's band a sheet of each level lies.
SHARES = {"easier": 0.2, "ordinary": 0.4, "harder": 0.6, "hardest": 0.8}
# Reading aloud, adults: Brysbaert 2019, Journal of Memory and Language 109, 104047.
ALOUD_WORDS_A_MINUTE = 183


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix where a chain of clues, or the story, is longer than its time."""
    time = edition.game.time
    chain = longest_chain_s(edition)
    if chain > time.play_s:
        problem = Problem.of(
            CODE, about.where("time"), need=round(chain / MINUTE), have=time.play_s // MINUTE
        )
        yield Finding(problem, "fix", "computed", Seconds(chain, time.play_s))
    aloud = read_aloud_s(edition.game.story.opening)
    if aloud > time.briefing_s:
        problem = Problem.of(
            "time.briefing",
            about.where("time", "briefing"),
            need=round(aloud / MINUTE, 1),
            have=time.briefing_s // MINUTE,
        )
        yield Finding(problem, "fix", "computed", Seconds(aloud, time.briefing_s))


def read_aloud_s(paragraphs: tuple[str, ...]) -> int:
    """Return how long reading `paragraphs` aloud takes, in whole seconds."""
    words = sum(len(paragraph.split()) for paragraph in paragraphs)
    return round(words * MINUTE / ALOUD_WORDS_A_MINUTE)


def _solving_s(clue: ArrangedClue) -> int:
    """Return where in its kind's band a clue of its level lies, in seconds."""
    low, high = kind(clue.kind).FACTS.band_minutes
    return round((low + (high - low) * SHARES[clue.level]) * MINUTE)


def longest_chain_s(edition: Edition) -> int:
    """Return the seconds of the longest chain of clues that wait for one another."""
    costs = {id: _solving_s(clue) for id, clue in edition.game.clues.items()}
    ways: dict[str, list[Way]] = {}
    for way in ways_of(edition):
        ways.setdefault(way.thing, []).append(way)
    known: dict[str, int] = {}

    def ready(thing: str, above: frozenset[str]) -> int:
        """When a thing is had, by its quickest way; rings, told elsewhere, count as nothing."""
        if thing in above:
            return 0
        if thing not in known:
            deeper = above | {thing}
            starts = [
                max((ready(need, deeper) for need in way.needs), default=0)
                for way in ways.get(thing, ())
            ]
            known[thing] = min(starts, default=0) + costs.get(thing, 0)
        return known[thing]

    return max((ready(thing, frozenset()) for thing in ways), default=0)

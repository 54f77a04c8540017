"""What can be had, when, and what could be had if something were otherwise."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.choose.ways import ways_of
from boxwright.game.arranged import ArrangedGame
from boxwright.game.unlocking import Way, waves
from boxwright.problems import Path

SORTS = ("boxes", "locks", "items", "clues")


def all_ways(edition: Edition, about: About) -> tuple[Way, ...]:
    """Return every way to come by a thing; see `choose.ways`."""
    return about.once(edition, _ways)


def _ways(edition: Edition, _: About) -> tuple[Way, ...]:
    return ways_of(edition)


def waves_of(edition: Edition, about: About) -> tuple[tuple[str, ...], ...]:
    """Return things in the order in which they can be had, those that come at once together."""
    return about.once(edition, _waves)


def _waves(edition: Edition, about: About) -> tuple[tuple[str, ...], ...]:
    return waves(all_ways(edition, about))


def when(edition: Edition, about: About) -> Mapping[str, int]:
    """Return the wave in which each thing comes; what can never be had is not in it."""
    return about.once(edition, _when)


def _when(edition: Edition, about: About) -> Mapping[str, int]:
    return {thing: at for at, wave in enumerate(waves_of(edition, about)) for thing in wave}


def had(
    edition: Edition, about: About, *, without: Iterable[str] = (), given: Iterable[str] = ()
) -> frozenset[str]:
    """Return what can be had if the things `without` never come, and those `given` always do."""
    barred = frozenset(without)
    ways = [way for way in all_ways(edition, about) if way.thing not in barred]
    ways += [Way(thing) for thing in given]
    return frozenset(thing for wave in waves(ways) for thing in wave)


def at_once(edition: Edition, about: About) -> frozenset[str]:
    """Return what can be had without a lock or a clue."""
    return about.once(edition, _at_once)


def _at_once(edition: Edition, about: About) -> frozenset[str]:
    return had(edition, about, without=[*edition.game.locks, *edition.game.clues])


def sort_of(game: ArrangedGame, thing: str) -> str:
    """Return under which heading of the game a thing stands; `parts` for a printed part."""
    return next((sort for sort in SORTS if thing in getattr(game, sort)), "parts")


def path_of(edition: Edition, thing: str) -> Path:
    """Return where a thing, or a part's place, stands in the game file."""
    game = edition.game
    clue, _, part = thing.partition("/")
    if not part:
        return (sort_of(game, thing), thing)
    one = game.clues[clue]
    return (*one.source.path, "parts", part) if part in one.parts else (*one.source.path, "place")

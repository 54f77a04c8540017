"""What must be had before what, and what waits for itself.

Pure logic over names: a `Way` says that `thing` comes by having all of `needs`; several
ways to one thing are alternatives. `waves` tells in which order things come, `circles`
which things wait for one another in a ring. Bit masks keep a game of thirty locks in
the microseconds, so that a check may ask again for every thing that could go missing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from boxwright.frozen import frozen_value


@frozen_value
class Way:
    """One way to come by `thing`: everything in `needs` must be had before."""

    thing: str
    needs: frozenset[str] = frozenset()


def waves(ways: Sequence[Way]) -> tuple[tuple[str, ...], ...]:
    """Return things in the order in which they can be had, together those that come at once.

    Within a wave, things keep the order in which `ways` names them first. A thing that
    is in no wave cannot be had at all.
    """
    names = _names(ways)
    bit = {name: 1 << index for index, name in enumerate(names)}
    open_ways = [(bit[way.thing], sum(bit[need] for need in way.needs)) for way in ways]
    had = 0
    found: list[tuple[str, ...]] = []
    while True:
        new = 0
        for thing, needs in open_ways:
            if not needs & ~had:
                new |= thing
        new &= ~had
        if not new:
            return tuple(found)
        found.append(tuple(name for name in names if bit[name] & new))
        had |= new


def _names(ways: Iterable[Way]) -> tuple[str, ...]:
    """Every thing and need, in the order of first mention; needs of one way by name."""
    mentioned: dict[str, None] = {}
    for way in ways:
        mentioned[way.thing] = None
    for way in ways:
        mentioned.update(dict.fromkeys(sorted(way.needs)))
    return tuple(mentioned)


def circles(ways: Sequence[Way]) -> tuple[tuple[str, ...], ...]:
    """Return the rings of things that wait for each other, one shortest for each knot.

    A ring `(a, b, c)` reads: a waits for b, b for c, c for a. It starts at the thing
    that `ways` names first. Things that merely wait for a ring are not in it.
    """
    had = {thing for wave in waves(ways) for thing in wave}
    waits: dict[str, list[str]] = {}
    for way in ways:
        if way.thing not in had:
            held_up = waits.setdefault(way.thing, [])
            held_up.extend(need for need in sorted(way.needs - had) if need not in held_up)
    rings = (_ring(start, waits) for start in waits)
    found: dict[frozenset[str], tuple[str, ...]] = {}
    taken: set[str] = set()
    for ring in rings:
        if ring and not taken & set(ring):
            found[frozenset(ring)] = ring
            taken |= set(ring)
    return tuple(found.values())


def _ring(start: str, waits: Mapping[str, Sequence[str]]) -> tuple[str, ...]:
    """Return the shortest way from `start` back to itself, without the return; or nothing."""
    paths: dict[str, tuple[str, ...]] = {start: (start,)}
    for name in _breadth_first(start, waits, paths):
        if start in waits.get(name, ()):
            return paths[name]
    return ()


def _breadth_first(
    start: str, waits: Mapping[str, Sequence[str]], paths: dict[str, tuple[str, ...]]
) -> Iterator[str]:
    """Yield names nearest first, keeping in `paths` how each was reached."""
    queue = [start]
    for name in queue:
        yield name
        for need in waits.get(name, ()):
            if need not in paths:
                paths[need] = (*paths[name], need)
                queue.append(need)

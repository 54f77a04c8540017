"""A lock was set to something else than meant: what to try, the likeliest first.

First what it was meant to be, then what it was before, then what a slip makes of the first,
stage by stage; then all the rest, lazily. Every try stands in the list once, and together they
open the lock whatever it is set to.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from boxwright.frozen import frozen_value
from boxwright.game.mechanisms.device import Code, Device
from boxwright.game.mechanisms.making import entry
from boxwright.problems import Message, say


@frozen_value
class Suspect:
    """A code to try, and the stage of the search that it belongs to."""

    code: Code
    stage: str


@frozen_value
class Stage:
    """A stretch of the list: its tries, and the seconds until it is worked through."""

    stage: str
    tries: int
    until_s: Fraction

    @property
    def says(self) -> Message:
        """Say what is tried in this stage."""
        return say(f"mechanism.lost-{self.stage}")


def suspects(device: Device, meant: Code, earlier: Sequence[Code] = ()) -> Iterator[Suspect]:
    """Yield what to try on a lock that `meant` does not open, or may not.

    `earlier` are codes that it had before, the likeliest first.
    """
    mechanism = entry(device)
    tried: set[Code] = set()
    for suspect in _likely(device, meant, earlier):
        tried.add(mechanism.key(device, suspect.code))
        yield suspect
    for length in sorted(device.lengths, key=lambda size: abs(size - len(meant))):
        for code in mechanism.search(device, length):
            if mechanism.key(device, code) not in tried:
                yield Suspect(code, "rest")


def _likely(device: Device, meant: Code, earlier: Sequence[Code]) -> Iterator[Suspect]:
    mechanism = entry(device)
    seen: set[Code] = set()
    before = (("earlier", code) for code in earlier)
    for stage, code in (("meant", meant), *before, *mechanism.slips(device, meant)):
        key = mechanism.key(device, code) if mechanism.possible(device, code) else None
        if key is not None and key not in seen:
            seen.add(key)
            yield Suspect(code, stage)


def stages(device: Device, meant: Code, earlier: Sequence[Code] = ()) -> tuple[Stage, ...]:
    """Count the list without walking through it: each stage, and when it is done at worst."""
    tries: dict[str, int] = {}
    seconds: dict[str, Fraction] = {}
    likely = tuple(_likely(device, meant, earlier))
    for stage, count, spent in (*_likely_costs(device, likely), _rest_costs(device, likely)):
        tries[stage] = tries.get(stage, 0) + count
        seconds[stage] = seconds.get(stage, Fraction(0)) + spent
    found: list[Stage] = []
    total, clock = 0, Fraction(0)
    for stage, count in tries.items():
        total, clock = total + count, clock + seconds[stage]
        rests = (total - 1) // device.wrong_tries if device.rests else 0
        found.append(Stage(stage, count, clock + rests * device.rest_s))
    return tuple(stage for stage in found if stage.tries)


def _likely_costs(device: Device, likely: Sequence[Suspect]) -> Iterator[tuple[str, int, Fraction]]:
    mechanism = entry(device)
    for suspect in likely:
        yield suspect.stage, 1, mechanism.one_try_s(len(suspect.code))


def _rest_costs(device: Device, likely: Sequence[Suspect]) -> tuple[str, int, Fraction]:
    mechanism = entry(device)
    done = [s.code for s in likely if mechanism.in_search(device, s.code)]
    runs = mechanism.runs(device)
    count = sum(tries for tries, _, _ in runs) - len(done)
    spent = sum((tries * mechanism.one_try_s(n) for tries, _, n in runs), Fraction(0))
    already = sum((mechanism.one_try_s(len(code)) for code in done), Fraction(0))
    return "rest", count, spent - already

"""A card of steps as a hand follows it: by time and place, the order kept, minutes to go.

The set-up card and the reset card, on paper and on a tablet, are read from here.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Literal

from boxwright.choose.gear import Gear
from boxwright.choose.setting_up import minutes
from boxwright.choose.step_words import how
from boxwright.choose.steps import BEFORE, ONCE, Block, Step, Tick
from boxwright.frozen import frozen_value
from boxwright.game.mechanisms import entry
from boxwright.messages import words
from boxwright.problems import Message

Time = Literal["before", "room", "arrival"]
TIMES: tuple[tuple[Time, tuple[Block, ...]], ...] = (
    ("before", BEFORE), ("room", ("room",)), ("arrival", ("arrival",)),
)  # fmt: skip


@frozen_value
class Line:
    """One step, what is told of how it is done, and whether its lock is drawn with its code."""

    step: Step
    how: tuple[Message, ...]
    drawn: bool


@frozen_value
class Section:
    """Lines about one box; `about` is empty where they are about none."""

    about: str
    lines: tuple[Line, ...]


@frozen_value
class Bunch:
    """What is done in one go: whole minutes for it, and those left on the card after it."""

    name: Block
    minutes: int
    left: int
    sections: tuple[Section, ...]


@frozen_value
class Part:
    """What is done at one time and place."""

    time: Time
    bunches: tuple[Bunch, ...]


def card(gear: Gear, steps: Sequence[Step]) -> tuple[Part, ...]:
    """Return `steps` by time and place; a time at which nothing is done has no bunches."""
    there = list(dict.fromkeys(step.block for step in steps))
    taken = {block: minutes(tuple(steps), block) for block in there}
    parts = []
    for time, blocks in TIMES:
        shown = [block for block in there if block in blocks]
        parts.append(Part(time, tuple(_bunch(gear, steps, taken, block) for block in shown)))
    return tuple(parts)


def _bunch(gear: Gear, steps: Sequence[Step], taken: dict[Block, int], block: Block) -> Bunch:
    mine = [step for step in steps if step.block == block]
    later = list(taken)[list(taken).index(block) + 1 :]
    left = sum(taken[one] for one in later)
    return Bunch(block, taken[block], left, tuple(_sections(gear, block, mine)))


def _sections(gear: Gear, block: Block, steps: list[Step]) -> Iterator[Section]:
    """Yield lines under the box that they are about."""
    told: set[tuple[str, ...]] = set()
    for about, found in groupby(steps, lambda step: step.at if block == "boxes" else ""):
        yield Section(about, tuple(_line(gear, step, told) for step in found))


def _line(gear: Gear, step: Step, told: set[tuple[str, ...]]) -> Line:
    """Return one line; what was `told` of a make of lock is not told again.

    A lock is drawn where it is first set or tested.
    """
    more = how(gear, step)
    key = (step.act, *_without_code(gear, step, more))
    shown = more if key not in told or step.act == "fetch" else ()
    drawn = step.act in ("set", "test") and ("drawn", step.thing) not in told
    told |= {key, ("drawn", step.thing)} if drawn else {key}
    return Line(step, shown, drawn)


def _without_code(gear: Gear, step: Step, more: Sequence[Message]) -> Iterator[str]:
    """Yield what is told, but for the code: the same for every lock of a make."""
    code = written(gear, step.thing)
    yield from (words(one).replace(code, "") if code else words(one) for one in more)


def written(gear: Gear, lock: str) -> str | None:
    """Return a lock's code in its written form; None for what has none."""
    device, code = gear.devices[gear.edition.groups[0]].get(lock), gear.edition.codes.get(lock)
    return None if device is None or code is None else entry(device).write(device, code)


def tick_name(gear: Gear, step: Step, tick: Tick) -> str | Message:
    """Return what stands at a box to tick: the sticker, else the group where there are several."""
    if tick.act in ONCE:
        return ""
    several = tick.groups[0] if len(gear.edition.groups) > 1 else ""
    return gear.label(tick.groups[0], step.thing) or several

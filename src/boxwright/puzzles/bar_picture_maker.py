"""Makes bars: those of a code, and others that no reader takes for one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from boxwright.dice import Dice
from boxwright.game.model import Level
from boxwright.puzzles.bar_picture_reader import says_nothing
from boxwright.puzzles.bar_picture_tables import (
    CHECK_128,
    CODE_39,
    CODE_128,
    LAST_BAR,
    START_B,
    STOP_39,
    STOP_128,
    Band,
    Picture,
    Scene,
    Sort,
    Strip,
    Texture,
)
from boxwright.text import mm

Code = Literal["code-39", "code-128"]

WIDTH = 170.0  # of the picture, in millimetres
LEFT, RIGHT = 7.0, 163.0  # where bars may stand
LEAST_MODULE, MOST_MODULE = 0.5, 0.75  # mm: the narrowest bar
AIM = 75.0  # mm: what most readers that are held close take in at once
QUIET = 10  # modules of white on either side, as both standards ask; a little more is left
WIDE = 2.5  # a wide bar of Code 39 over a narrow one
LONGEST: dict[Code, int] = {"code-39": 8, "code-128": 12}
SHORTEST_39 = 4  # readers are often set to leave shorter ones alone; common practice, no source

SCENES: dict[Scene, tuple[Texture, Texture, Texture]] = {
    "garden": ("boards", "reeds", "fence"),
    "library": ("books", "books", "books"),
    "music-room": ("curtain", "radiator", "keys"),
}
# Tops and lower edges of one, two or three bands, in hundredths of the picture's height.
HEIGHTS = (((40, 94),), ((24, 55), (63, 94)), ((4, 31), (36, 63), (68, 95)))
LEAST_STRIP = 14.0  # mm
TRIES = 20
POST = 3.4  # modules: the thick bar at either end of a strip that says nothing


class Plan(NamedTuple):
    """How well a level hides the code: bands, strips in each, and how wild the others are."""

    bands: int
    strips: int
    wild: tuple[str, ...]


PLANS: dict[Level, Plan] = {
    "easier": Plan(1, 1, ("even",)),
    "ordinary": Plan(2, 2, ("even", "paired")),
    "harder": Plan(3, 2, ("paired", "rhythm")),
    "hardest": Plan(3, 3, ("rhythm", "ragged")),
}


def encoded(text: str, code: Code) -> tuple[float, ...]:
    """Return the widths of bar, space, bar, … in modules."""
    return tuple(_code_39(text) if code == "code-39" else _code_128(text))


def _code_39(text: str) -> Iterator[float]:
    for at, sign in enumerate(STOP_39 + text + STOP_39):
        if at:
            yield 1.0  # the gap between two signs
        bars, spaces = CODE_39[sign]
        for bar, space in zip(bars, spaces + " ", strict=True):
            yield WIDE if bar == "1" else 1.0
            if space != " ":
                yield WIDE if space == "1" else 1.0


def _code_128(text: str) -> Iterator[float]:
    """Yield subset B: a sign's value is its place in ASCII from the space on."""
    values = [START_B, *(ord(sign) - 32 for sign in text)]
    check = values[0] + sum(at * value for at, value in enumerate(values))
    for value in (*values, check % CHECK_128, STOP_128):
        yield from map(float, CODE_128[value])
    yield float(LAST_BAR)


def code_for(length: int, wish: Code | None, dice: Dice) -> Code:
    """Return the bar code that is used where the teacher leaves it open."""
    if wish is not None:
        return wish
    fits = SHORTEST_39 <= length <= LONGEST["code-39"]
    return dice.pick(("code-39", "code-128")) if fits else "code-128"


def drawn(text: str, sort: Sort, code: Code, scene: Scene, level: Level, dice: Dice) -> Picture:
    """Return a picture in which one strip says `text`, and no other says anything."""
    modules = encoded(text, code)
    module = mm(max(LEAST_MODULE, min(MOST_MODULE, AIM / sum(modules))))
    runs = tuple(mm(module * one) for one in modules)
    plan = PLANS[level]
    textures = list(SCENES[scene])
    if plan.bands < len(textures):
        chosen = sorted(dice.sample(range(len(textures)), plan.bands))
        textures = [textures[at] for at in chosen]
    home = dice.below(plan.bands)
    bands = []
    for at, texture in enumerate(textures):
        lots = dice.child("band", at)
        strips = (
            _around(runs, module, plan, lots)
            if at == home
            else _row(LEFT, RIGHT, plan.strips, plan, module, lots)
        )
        top, low = HEIGHTS[plan.bands - 1][at]
        bands.append(Band(texture, top, low, tuple(strips)))
    return Picture(scene, WIDTH, tuple(bands), sort, len(text), level == "easier")


def _around(runs: Sequence[float], module: float, plan: Plan, dice: Dice) -> Iterator[Strip]:
    """Yield the code somewhere in its band, and strips that say nothing where there is room."""
    width, gap = sum(runs), _gap(module)
    x = LEFT + gap + dice.unit() * (RIGHT - LEFT - width - 2 * gap)
    if plan.strips > 1 and RIGHT - LEFT - width >= gap + LEAST_STRIP:
        # Against one end, or in the middle, so that no strip would be too narrow.
        ends = [LEFT, RIGHT - width]
        if plan.strips > 2 and RIGHT - LEFT - width >= 2 * (gap + LEAST_STRIP):
            x = (LEFT + RIGHT - width) / 2
        else:
            x = dice.pick(ends)
    if plan.strips > 1 and x - gap - LEFT >= LEAST_STRIP:
        yield from _row(LEFT, x - gap, 1, plan, module, dice.child("left"))
    yield Strip(mm(x), tuple(runs))
    if plan.strips > 1 and RIGHT - x - width - gap >= LEAST_STRIP:
        yield from _row(x + width + gap, RIGHT, 1, plan, module, dice.child("right"))


def _gap(module: float) -> float:
    return (QUIET + 2) * module


def _row(
    left: float, right: float, count: int, plan: Plan, module: float, dice: Dice
) -> Iterator[Strip]:
    """Yield `count` strips that say nothing, from `left` to `right`, with white between."""
    gap = _gap(module)
    spare = right - left - (count - 1) * gap - count * LEAST_STRIP
    shares = [0.2 + dice.unit() for _ in range(count)]
    x = left
    for at, share in enumerate(shares):
        width = LEAST_STRIP + spare * share / sum(shares)
        yield Strip(mm(x), _idle(width, plan.wild, module, dice.child("idle", at)))
        x += width + gap


def _idle(width: float, hows: Sequence[str], module: float, dice: Dice) -> tuple[float, ...]:
    """Return runs of at most `width` in which a reader finds no code of any sort."""
    for _ in range(TRIES):
        runs = _trial(width, dice.pick(hows), module, dice)
        if says_nothing(runs):
            return runs
    return _trial(width, "even", module, dice)  # all alike: there is no such code


def _trial(width: float, how: str, module: float, dice: Dice) -> tuple[float, ...]:
    """Return runs of at most `width`.

    Even and paired ones say the same again and again, which no code does. All others begin
    and end with a bar that is too thick for the thin gap beside it: there is no such sign
    with which any of the usual codes would begin.
    """
    pattern = _pattern(how, module, dice)
    post = [mm(POST * module), module] if how in ("rhythm", "ragged") else []
    runs: list[float] = list(post)
    taken, room = sum(post), width - sum(post)
    while True:
        more = pattern[len(runs) % len(pattern)] if how != "ragged" else _any(module, dice)
        if taken + more > room:
            break
        runs.append(mm(more))
        taken += runs[-1]
    if len(runs) % 2 == 0:
        runs.pop()
    return tuple(runs + post[::-1])


def _pattern(how: str, module: float, dice: Dice) -> list[float]:
    if how == "even":
        bar = _any(module, dice)
        return [bar, bar]
    if how == "paired":
        return [3.2 * module, module, 1.2 * module, module]
    return [_any(module, dice) for _ in range(2 * dice.between(3, 4))]


def _any(module: float, dice: Dice) -> float:
    return mm(module * (1.0 + 2.6 * dice.unit()))

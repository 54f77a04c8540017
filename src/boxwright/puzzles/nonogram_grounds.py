"""Drawn grounds for pictures: hills, brickwork, rays, …, each a rule for one square.

A ground is chance first (where the hills stand), then a plain question: is the square
at column x, row y dark? About half of the squares are, so that the figures stand out
dark as well as light, and no two sheets look alike.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

from boxwright.dice import Dice

Rule = Callable[[int, int], bool]
Ground = Callable[[Dice, int, int], Rule]

TURN = 2 * math.pi


def _hills(dice: Dice, _width: int, height: int) -> Rule:
    rise = dice.between(1, max(1, height // 4))
    pace, shift = TURN / dice.between(5, 11), TURN * dice.unit()
    level, ripple = height * (0.3 + 0.4 * dice.unit()), 1.5 * dice.unit()

    def skyline(x: int) -> float:
        return level + rise * math.sin(pace * x + shift) + ripple * math.sin(2.3 * pace * x)

    return lambda x, y: y > skyline(x)


def _waves(dice: Dice, _width: int, _height: int) -> Rule:
    swing, pace = 0.6 + 1.4 * dice.unit(), TURN / dice.between(5, 10)
    shift, period = TURN * dice.unit(), dice.between(4, 6)
    upright = dice.chance(0.5)

    def dark(x: int, y: int) -> bool:
        along, over = (y, x) if upright else (x, y)
        return (over + shift + swing * math.sin(pace * along + shift)) % period < period / 2

    return dark


def _stripes(dice: Dice, _width: int, _height: int) -> Rule:
    right, down = dice.pick([(1, 1), (1, -1), (1, 2), (2, 1), (1, -2), (2, -1)])
    period = dice.between(5, 8)
    shift, broad = dice.below(period), dice.between(2, period - 2)
    return lambda x, y: (x * right + y * down + shift) % period < broad


def _bricks(dice: Dice, _width: int, _height: int) -> Rule:
    long, high = dice.between(4, 6), dice.between(3, 4)
    right, down = dice.below(long), dice.below(high)

    def dark(x: int, y: int) -> bool:
        course, inside = divmod(y + down, high)
        return inside != 0 and (x + right + course % 2 * (long // 2)) % long != 0

    return dark


def _clouds(dice: Dice, width: int, height: int) -> Rule:
    mesh = 3
    knots = [[dice.unit() for _ in range(width // mesh + 2)] for _ in range(height // mesh + 2)]

    def dark(x: int, y: int) -> bool:
        i, j = x // mesh, y // mesh
        u, v = x % mesh / mesh, y % mesh / mesh
        above = knots[j][i] * (1 - u) + knots[j][i + 1] * u
        below = knots[j + 1][i] * (1 - u) + knots[j + 1][i + 1] * u
        return above * (1 - v) + below * v > 0.5

    return dark


def _rays(dice: Dice, width: int, height: int) -> Rule:
    middle = dice.unit() * width, dice.pick([-1.5, height + 0.5, height * dice.unit()])
    beams, shift = dice.between(4, 7), TURN * dice.unit()

    def dark(x: int, y: int) -> bool:
        return (math.atan2(y - middle[1], x - middle[0]) * beams / math.pi + shift) % 2 < 1

    return dark


def _rings(dice: Dice, width: int, height: int) -> Rule:
    middle = dice.unit() * width, dice.unit() * height
    period = 4 + 2 * dice.unit()
    shift = period * dice.unit()
    return lambda x, y: (math.dist((x, y), middle) + shift) % period < period / 2


def _tiles(dice: Dice, _width: int, _height: int) -> Rule:
    wide, high = dice.between(2, 5), dice.between(3, 4)
    right, down = dice.below(2 * wide), dice.below(high)
    return lambda x, y: ((x + right) // wide + (y + down) // high) % 2 == 0


def _zigzag(dice: Dice, _width: int, _height: int) -> Rule:
    half, period = dice.between(3, 5), dice.between(5, 6)
    shift, side = dice.below(period), dice.below(2 * half)
    return lambda x, y: (y + shift + abs((x + side) % (2 * half) - half)) % period < period / 2


def _confetti(dice: Dice, width: int, height: int) -> Rule:
    """Scatter scraps of two or three squares each way, until they cover half the ground."""
    covered: set[tuple[int, int]] = set()
    while len(covered) < width * height // 2:
        left, top = dice.between(-1, width - 1), dice.between(-1, height - 1)
        wide, high = dice.between(2, 3), dice.between(1, 2)
        squares = {(x, y) for x in range(left, left + wide) for y in range(top, top + high)}
        covered |= {(x, y) for x, y in squares if 0 <= x < width and 0 <= y < height}
    return lambda x, y: (x, y) in covered


GROUNDS: Mapping[str, Ground] = {
    "bricks": _bricks,
    "clouds": _clouds,
    "confetti": _confetti,
    "hills": _hills,
    "rays": _rays,
    "rings": _rings,
    "stripes": _stripes,
    "tiles": _tiles,
    "waves": _waves,
    "zigzag": _zigzag,
}


def drawn(name: str, dice: Dice, width: int, height: int) -> list[int]:
    """Return the rows of the ground `name`, bit x of row y set where the square is dark."""
    dark = GROUNDS[name](dice, width, height)
    return [sum(1 << x for x in range(width) if dark(x, y)) for y in range(height)]

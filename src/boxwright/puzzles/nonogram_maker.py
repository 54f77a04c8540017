"""Makes pictures in which figures stand on a drawn ground, solvable without guessing.

The figures and a light (or dark) rim around them are laid down first and never touched
again. The ground is drawn around them, fitted to the page, and then mended: as long as
line logic leaves squares open, one of them that belongs to the ground is turned over,
and the change is kept if fewer stay open. Light figures on a dark rim nearly always
come out at once; so the tries end with those, and with a plain ground at the very last.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Literal

from boxwright.dice import Dice
from boxwright.game.model import LEVELS, Level
from boxwright.puzzles.figures import Face, Sort, faces_of
from boxwright.puzzles.nonogram_grounds import GROUNDS, drawn
from boxwright.puzzles.nonogram_lines import Runs, Settled, columns_of, runs_of, settle_picture

Tone = Literal["dark", "light"]
Height = Literal["small", "middle", "large"]

# Columns, rows and height of the figures for each level, by how many figures there are.
# Wide letters may make a picture broader. Four figures stand in two rows from `harder` on.
SIZES: dict[int, tuple[tuple[int, int, Height], ...]] = {
    1: ((7, 8, "small"), (10, 10, "middle"), (13, 12, "large"), (16, 15, "large")),
    2: ((10, 8, "small"), (12, 11, "middle"), (14, 13, "middle"), (17, 15, "large")),
    3: ((14, 8, "small"), (15, 11, "small"), (17, 13, "middle"), (18, 16, "middle")),
    4: ((18, 8, "small"), (18, 11, "small"), (15, 15, "middle"), (17, 16, "middle")),
}
HEIGHTS: tuple[Height, ...] = ("large", "middle", "small")
TRIES = 24
TRIES_A_HEIGHT = 8
LAST_DARK_TRY = 6  # from this try on, figures are light
MENDS = 24

# What a page of 18 pt holds beside title and instructions, on the narrower and on the
# shorter paper, with numbers of 15.3 pt: measured from the template, in millimetres.
PAGE_WIDTH, PAGE_HEIGHT = 174.0, 148.0
SQUARE, SQUARE_UNDER_TWO_DIGITS = 6.0, 6.3
DIGIT, DIGIT_ONE, NUMBER_GAP, NUMBER_RISE = 3.3, 2.2, 2.2, 5.4
DEEPEST = 7

BITS = str.maketrans("#.", "10")


@dataclass(frozen=True, slots=True)
class Mould:
    """What the figures fix: squares that are `kept`, and which of these are `dark`."""

    width: int
    height: int
    lines: int
    tone: Tone
    kept: tuple[int, ...]
    dark: tuple[int, ...]

    def free(self, x: int, y: int) -> bool:
        """Tell whether the square belongs to the ground."""
        return not self.kept[y] >> x & 1


@dataclass(slots=True)
class Picture:
    """A picture in the making: rows and columns as bits, and their runs, kept in step."""

    rows: list[int]
    columns: list[int]
    across: list[Runs]
    down: list[Runs]

    @classmethod
    def of(cls, rows: Sequence[int], width: int) -> Picture:
        """Return the picture with these rows."""
        columns = columns_of(rows, width)
        return cls(list(rows), columns, [runs_of(r) for r in rows], [runs_of(c) for c in columns])

    def turn(self, x: int, y: int) -> None:
        """Make a dark square light, or a light one dark."""
        self.rows[y] ^= 1 << x
        self.columns[x] ^= 1 << y
        self.across[y] = runs_of(self.rows[y])
        self.down[x] = runs_of(self.columns[x])


def lines_for(count: int, level: Level) -> int:
    """Return in how many rows `count` figures stand."""
    return 2 if count == 4 and level in ("harder", "hardest") else 1


def _strokes(symbols: Sequence[str], face: Face, lines: int) -> set[tuple[int, int]]:
    """Return the stroke squares of all figures, from the top left of the first."""
    each = len(symbols) // lines
    found = set()
    for line in range(lines):
        left = 0
        for symbol in symbols[line * each : (line + 1) * each]:
            for y, row in enumerate(face.pictures[symbol]):
                found |= {
                    (left + x, line * (face.height + 1) + y)
                    for x in range(len(row))
                    if row[x] == "#"
                }
            left += face.width(symbol) + 1
    return found


def _span(symbols: Sequence[str], face: Face, lines: int) -> tuple[int, int]:
    """Return how many columns and rows the boxes of all figures take."""
    each = len(symbols) // lines
    widths = [
        sum(face.width(symbol) + 1 for symbol in symbols[n : n + each]) - 1
        for n in range(0, len(symbols), each)
    ]
    return max(widths), lines * (face.height + 1) - 1


def _mould(
    symbols: Sequence[str], face: Face, lines: int, tone: Tone, least: tuple[int, int], dice: Dice
) -> Mould:
    """Place the figures by chance in a picture of at least the size `least`."""
    squares = _strokes(symbols, face, lines)
    wide, high = _span(symbols, face, lines)
    width, height = max(least[0], wide + 2), max(least[1], high + 2)
    left, top = dice.between(1, width - wide - 1), dice.between(1, height - high - 1)
    strokes = [0] * height
    for x, y in squares:
        strokes[top + y] |= 1 << (left + x)
    board = ((1 << wide) - 1) << left
    boards = [board if top <= y < top + high else 0 for y in range(height)]
    kept = _near(strokes, boards)
    rims = [near & ~stroke for near, stroke in zip(kept, strokes, strict=True)]
    dark = strokes if tone == "dark" else rims
    return Mould(width, height, lines, tone, tuple(kept), tuple(dark))


def _width_of(runs: Runs) -> float:
    """Return how wide the numbers of a row are on a page of 18 pt, in millimetres."""
    digits = sum(DIGIT_ONE if digit == "1" else DIGIT for run in runs for digit in str(run))
    return digits + NUMBER_GAP * len(runs) + 1.0


def fits(across: Sequence[Runs], down: Sequence[Runs]) -> bool:
    """Tell whether the sheet fits the page in large print."""
    square = SQUARE_UNDER_TWO_DIGITS if max(map(max, down)) > 9 else SQUARE
    deepest = max(map(len, down))
    return (
        deepest <= DEEPEST
        and len(down) * square + max(map(_width_of, across)) <= PAGE_WIDTH
        and len(across) * square + deepest * NUMBER_RISE <= PAGE_HEIGHT
    )


def _open_squares(picture: Settled) -> int:
    return sum(row.bit_count() for row in picture.open)


def _worth_turning(mould: Mould, found: Settled) -> list[tuple[int, int]]:
    """Return the ground's squares that are open, or else those in line with open ones."""
    places = [
        (x, y)
        for y, row in enumerate(found.open)
        if row
        for x in range(mould.width)
        if mould.free(x, y)
    ]
    open_ones = [(x, y) for x, y in places if found.open[y] >> x & 1]
    return open_ones or places


def mend(picture: Picture, mould: Mould, dice: Dice) -> Settled | None:
    """Turn squares of the ground until line logic solves `picture`; None if it does not."""
    found = settle_picture(picture.across, picture.down)
    left = _open_squares(found)
    for _ in range(MENDS):
        if not left:
            return found
        places = _worth_turning(mould, found)
        if not places:
            return None
        x, y = dice.pick(places)
        picture.turn(x, y)
        after = settle_picture(picture.across, picture.down)
        if _open_squares(after) <= left:
            found, left = after, _open_squares(after)
        else:
            picture.turn(x, y)
    return found if not left else None


def _trim_column(picture: Picture, mould: Mould, x: int) -> bool:
    """Break a run of ten or more in column `x` at a square of the ground, near its middle."""
    column, start = picture.columns[x], 0
    for run in picture.down[x]:
        start += ((column >> start) & -(column >> start)).bit_length() - 1
        middle = start + run // 2
        places = [y for y in range(start, start + run) if mould.free(x, y)]
        if run > 9 and places:
            picture.turn(x, min(places, key=lambda y: abs(y - middle)))
            return True
        start += run
    return False


def trim(picture: Picture, mould: Mould) -> None:
    """Where the page is too narrow for two-digit numbers over columns, break those up."""
    if not fits(picture.across, picture.down):
        for x, runs in enumerate(picture.down):
            if max(runs) > 9:
                _trim_column(picture, mould, x)


@cache
def _rimmed(sort: Sort) -> tuple[tuple[int, tuple[tuple[int, int], ...]], ...]:
    """Return every different picture of `sort`: its width, and (stroke, rim) bits by row.

    The rim is all of the picture's box that is no stroke, and every square that touches a
    stroke by a side or a corner; so the picture grows by one square each way.
    """
    found = []
    for picture in sorted({one for face in faces_of(sort) for one in face.pictures.values()}):
        strokes = [0, *(int(row[::-1].translate(BITS), 2) << 1 for row in picture), 0]
        box = ((1 << len(picture[0])) - 1) << 1
        boxes = [0, *(box for _ in picture), 0]
        rims = [near & ~stroke for near, stroke in zip(_near(strokes, boxes), strokes, strict=True)]
        found.append((len(picture[0]) + 2, tuple(zip(strokes, rims, strict=True))))
    return tuple(found)


def _near(strokes: Sequence[int], boxes: Sequence[int]) -> list[int]:
    """Return, by row, the strokes, all squares that touch one, and `boxes`."""
    tall = [a | b | c for a, b, c in zip([0, *strokes], strokes, [*strokes[1:], 0], strict=False)]
    return [row | row << 1 | row >> 1 | box for row, box in zip(tall, boxes, strict=True)]


def _row_matches(row: int, stroke: int, rim: int, length: int) -> int:
    """Return the places in `row` from which all of `stroke` is dark and all of `rim` light."""
    places = -1
    for step in range(length):
        if stroke >> step & 1:
            places &= row >> step
        elif rim >> step & 1:
            places &= ~(row >> step)
    return places


def count_figures(rows: Sequence[int], width: int, sort: Sort) -> int:
    """Count all places where a figure of any face stands, dark or light, with its rim.

    Beyond the picture's edge everything counts as rim, so that nothing half seen is missed.
    """
    whole = (1 << width) - 1
    dark = [0, *(row << 1 for row in rows), 0]
    light = [0, *((whole & ~row) << 1 for row in rows), 0]
    return _count_in(dark, width, sort) + _count_in(light, width, sort)


def _count_in(rows: list[int], width: int, sort: Sort) -> int:
    seen: dict[tuple[int, tuple[int, int]], list[int]] = {}
    total = 0
    for wide, picture in _rimmed(sort):
        inside = (1 << (width + 3 - wide)) - 1
        for pattern in picture:
            if (wide, pattern) not in seen:
                seen[wide, pattern] = [_row_matches(row, *pattern, wide) & inside for row in rows]
        matches = [seen[wide, pattern] for pattern in picture]
        for top in range(len(rows) - len(picture) + 1):
            here, row = inside, top
            for match in matches:
                here &= match[row]
                if not here:
                    break
                row += 1
            total += here.bit_count()
    return total


def _start(mould: Mould, ground: list[int]) -> Picture:
    rows = [
        row & ~kept | dark for row, kept, dark in zip(ground, mould.kept, mould.dark, strict=True)
    ]
    return Picture.of(rows, mould.width)


def _attempt(mould: Mould, ground: list[int], count: int, sort: Sort, dice: Dice) -> Picture | None:
    """Return a picture that fits the page, needs no guessing, and shows no stray figure."""
    picture = _start(mould, ground)
    trim(picture, mould)
    if mend(picture, mould, dice) is None or not fits(picture.across, picture.down):
        return None
    return picture if count_figures(picture.rows, mould.width, sort) == count else None


def _face(heights: Sequence[Height], sort: Sort, tone: Tone, dice: Dice) -> Face:
    """Pick a face; slanting strokes alone in the light often have two solutions, so not those."""
    faces = [face for face in faces_of(sort) if face.name.startswith(tuple(heights))]
    return dice.pick([face for face in faces if tone == "light" or face.name.endswith("square")])


def picture_for(
    symbols: Sequence[str], sort: Sort, level: Level, ground: str | None, dice: Dice
) -> tuple[Mould, Picture]:
    """Return a picture that shows `symbols`, on the named ground if that can be had.

    The size follows from the level; later tries take lower figures, for broad letters.
    """
    columns, rows, wished = SIZES[len(symbols)][LEVELS.index(level)]
    lower = HEIGHTS[HEIGHTS.index(wished) :]
    for attempt in range(TRIES):
        throw = dice.child("try", attempt)
        tone: Tone = "dark" if attempt < LAST_DARK_TRY and throw.chance(0.5) else "light"
        height = lower[min(attempt // TRIES_A_HEIGHT, len(lower) - 1)]
        face = _face([height], sort, tone, throw)
        mould = _mould(symbols, face, lines_for(len(symbols), level), tone, (columns, rows), throw)
        name = ground or throw.pick(sorted(GROUNDS))
        plain = [(1 << mould.width) - 1] * mould.height
        drawing = plain if attempt == TRIES - 1 else drawn(name, throw, mould.width, mould.height)
        picture = _attempt(mould, drawing, len(symbols), sort, throw)
        if picture is not None:
            return mould, picture
    raise AssertionError(f"no picture for {symbols} at {level} in {TRIES} tries")

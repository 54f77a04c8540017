"""Makes pictures in which figures stand on a drawn ground, solvable without guessing.

The figures and a light (or dark) rim around them are laid down first and never touched
again. The ground is drawn around them, fitted to the page, and then mended: as long as
line logic leaves squares open, one of them that belongs to the ground is turned over,
and the change is kept if fewer stay open. Light figures on a dark rim nearly always
come out at once; so the tries end with those, and with a plain ground at the very last.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache, lru_cache
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
    1: ((9, 9, "small"), (11, 11, "middle"), (13, 13, "large"), (16, 15, "large")),
    2: ((11, 10, "small"), (13, 12, "middle"), (15, 14, "middle"), (18, 16, "large")),
    3: ((15, 10, "small"), (16, 12, "small"), (18, 14, "middle"), (19, 16, "middle")),
    4: ((19, 10, "small"), (20, 12, "small"), (16, 16, "small"), (18, 17, "middle")),
}
# Looks at lines that tell something: the most for easier, ordinary and harder.
LOOKS = {1: (26, 37, 52), 2: (28, 41, 57), 3: (33, 46, 62), 4: (36, 50, 66)}
FAR = 10_000
HEIGHTS: tuple[Height, ...] = ("large", "middle", "small")
TRIES = 36
TRIES_A_HEIGHT = 12
LAST_DARK_TRY = 12  # from this try on, figures are light
ENOUGH = 14  # after this try, the nearest so far will do
DARK_SHARE = 0.55
MENDS = 16

# What a page of 18 pt holds beside title and instructions, on the narrower and on the
# shorter paper, with numbers of 15.3 pt: measured from the template, in millimetres.
PAGE_WIDTH, PAGE_HEIGHT = 174.0, 148.0
SQUARE, SQUARE_UNDER_TWO_DIGITS = 6.0, 6.3
DIGIT, DIGIT_ONE, NUMBER_GAP, NUMBER_RISE = 3.3, 2.2, 2.2, 5.4
DEEPEST = 7
MOST_COLUMNS = 20

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


@dataclass(frozen=True, slots=True)
class Setting:
    """How figures are set: their face, in how many rows, how far apart, dark or light."""

    face: Face
    lines: int
    gap: int
    tone: Tone

    @property
    def plaque(self) -> int:
        """How far the plain board reaches beyond the figures; light ones need more of it."""
        return 2 if self.tone == "light" and self.lines == 1 else 1

    def rows(self, symbols: Sequence[str]) -> list[Sequence[str]]:
        """Return the symbols of each row."""
        each = len(symbols) // self.lines
        return [symbols[n : n + each] for n in range(0, len(symbols), each)]

    def span(self, symbols: Sequence[str]) -> tuple[int, int]:
        """Return how many columns and rows the boxes of all figures take."""
        wide = [sum(self.face.width(s) + self.gap for s in row) for row in self.rows(symbols)]
        return max(wide) - self.gap, self.lines * (self.face.height + self.gap) - self.gap

    def strokes(self, symbols: Sequence[str]) -> Iterator[tuple[int, int]]:
        """Yield the stroke squares of all figures, from the top left of the first."""
        for line, row in enumerate(self.rows(symbols)):
            left, top = 0, line * (self.face.height + self.gap)
            for symbol in row:
                for y, squares in enumerate(self.face.pictures[symbol]):
                    yield from ((left + x, top + y) for x, s in enumerate(squares) if s == "#")
                left += self.face.width(symbol) + self.gap


def _mould(symbols: Sequence[str], setting: Setting, least: tuple[int, int], dice: Dice) -> Mould:
    """Place the figures by chance in a picture of at least the size `least`."""
    wide, high = setting.span(symbols)
    width, height = max(least[0], wide + 2), max(least[1], high + 2)
    left = dice.between(1, width - wide - 1)
    top = dice.between(1, height - high - 1)
    strokes = [0] * height
    for x, y in setting.strokes(symbols):
        strokes[top + y] |= 1 << (left + x)
    grow = setting.plaque
    board = ((1 << wide + 2 * grow) - 1) << left >> grow
    boards = [board if top - grow <= y < top + high + grow else 0 for y in range(height)]
    kept = [row & (1 << width) - 1 for row in _near(strokes, boards)]
    rims = [near & ~stroke for near, stroke in zip(kept, strokes, strict=True)]
    dark = strokes if setting.tone == "dark" else rims
    return Mould(width, height, setting.lines, setting.tone, tuple(kept), tuple(dark))


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


@lru_cache(maxsize=1 << 14)
def _row_matches(row: int, stroke: int, rim: int) -> int:
    """Return the places in `row` from which all of `stroke` is dark and all of `rim` light."""
    places, other = -1, ~row
    while stroke | rim:
        if stroke & 1:
            places &= row
        elif rim & 1:
            places &= other
        row, other, stroke, rim = row >> 1, other >> 1, stroke >> 1, rim >> 1
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
    total = 0
    for wide, picture in _rimmed(sort):
        inside = (1 << (width + 3 - wide)) - 1
        order = (1, len(picture) // 2, *range(len(picture)))  # full rows first: most fail there
        for top in range(len(rows) - len(picture) + 1):
            here = inside
            for row in order:
                here &= _row_matches(rows[top + row], *picture[row])
                if not here:
                    break
            total += here.bit_count()
    return total


def _start(mould: Mould, ground: list[int]) -> Picture:
    rows = [
        row & ~kept | dark for row, kept, dark in zip(ground, mould.kept, mould.dark, strict=True)
    ]
    return Picture.of(rows, mould.width)


def _attempt(mould: Mould, ground: list[int], dice: Dice) -> tuple[Picture, int] | None:
    """Return a picture that fits the page and needs no guessing, and how many looks it takes."""
    picture = _start(mould, ground)
    trim(picture, mould)
    found = mend(picture, mould, dice)
    if found is None or not fits(picture.across, picture.down):
        return None
    return picture, found.looks


def _setting(
    symbols: Sequence[str], sort: Sort, height: Height, level: Level, tone: Tone, dice: Dice
) -> Setting:
    """Choose how to set the figures.

    Slanting strokes alone in the light often leave two solutions, so dark figures are
    square ones. Light figures are easier seen when two squares apart, if the page allows.
    """
    faces = [face for face in faces_of(sort) if face.name.startswith(height)]
    face = dice.pick([face for face in faces if tone == "light" or face.name.endswith("square")])
    lines = lines_for(len(symbols), level)
    gap = 2 if tone == "light" else dice.between(1, 2)
    wide = Setting(face, lines, gap, tone)
    return wide if wide.span(symbols)[0] + 2 <= MOST_COLUMNS else replace(wide, gap=1)


def _beside(looks: int, count: int, level: Level) -> int:
    """Return by how much a picture is too easy or too hard for `level`."""
    bounds = (0, *LOOKS[count], FAR)
    low, high = bounds[LEVELS.index(level)], bounds[LEVELS.index(level) + 1]
    return max(low + 1 - looks, looks - high, 0)


def picture_for(
    symbols: Sequence[str], sort: Sort, level: Level, ground: str | None, dice: Dice
) -> tuple[Mould, Picture]:
    """Return a picture that shows `symbols`, on the named ground if that can be had.

    It shows no other figure. It is the first that is as hard as the level asks, or else
    the nearest of the first tries.
    """
    nearest: tuple[int, Mould, Picture] | None = None
    for attempt in range(TRIES):
        throw = dice.child("try", attempt)
        mould = _design(symbols, sort, level, attempt, dice)
        name = ground or throw.pick(sorted(GROUNDS))
        plain = [(1 << mould.width) - 1] * mould.height
        drawing = plain if attempt == TRIES - 1 else drawn(name, throw, mould.width, mould.height)
        made = _attempt(mould, drawing, throw)
        if made is None:
            continue
        picture, looks = made
        beside = _beside(looks, len(symbols), level)
        better = nearest is None or beside < nearest[0]
        if better and count_figures(picture.rows, mould.width, sort) == len(symbols):
            nearest = beside, mould, picture
        if nearest and (nearest[0] == 0 or attempt >= ENOUGH):
            return nearest[1:]
    if nearest:
        return nearest[1:]
    raise AssertionError(f"no picture for {symbols} at {level} in {TRIES} tries")


def _design(symbols: Sequence[str], sort: Sort, level: Level, attempt: int, dice: Dice) -> Mould:
    """Choose shade, face and place of the figures for one try.

    The shade stays for the first tries, lest only the shade that comes out easily is seen;
    later tries take light figures, and at last lower ones, for broad letters.
    """
    throw = dice.child("design", attempt)
    columns, rows, wished = SIZES[len(symbols)][LEVELS.index(level)]
    dark = dice.child("tone").chance(DARK_SHARE) and attempt < LAST_DARK_TRY
    lower = HEIGHTS[HEIGHTS.index(wished) :]
    height = lower[min(attempt // TRIES_A_HEIGHT, len(lower) - 1)]
    setting = _setting(symbols, sort, height, level, "dark" if dark else "light", throw)
    return _mould(symbols, setting, (columns, rows), throw)

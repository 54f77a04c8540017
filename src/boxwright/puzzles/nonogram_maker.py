"""Makes pictures in which figures stand on a drawn ground, solvable without guessing.

The figures and a light (or dark) rim around them are laid down first and never touched
again. The ground is drawn around them, fitted to the page, and then mended: as long as
line logic leaves squares open, one of them that belongs to the ground is turned over,
and the change is kept if fewer stay open. Light figures on a dark rim nearly always
come out at once; so the tries end with those, and with a plain ground at the very last.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from boxwright.dice import Dice
from boxwright.game.model import LEVELS, Level
from boxwright.puzzles.figures import Sort, faces_of
from boxwright.puzzles.nonogram_grounds import GROUNDS, drawn
from boxwright.puzzles.nonogram_mending import Picture, fits, mend, trim
from boxwright.puzzles.nonogram_setting import Mould, Setting, Tone, mould
from boxwright.puzzles.nonogram_strays import count_figures

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
MOST_COLUMNS = 20


def lines_for(count: int, level: Level) -> int:
    """Return in how many rows `count` figures stand."""
    return 2 if count == 4 and level in ("harder", "hardest") else 1


def _start(design: Mould, ground: list[int]) -> Picture:
    rows = [
        row & ~kept | dark for row, kept, dark in zip(ground, design.kept, design.dark, strict=True)
    ]
    return Picture.of(rows, design.width)


def _attempt(design: Mould, ground: list[int], dice: Dice) -> tuple[Picture, int] | None:
    """Return a picture that fits the page and needs no guessing, and how many looks it takes."""
    picture = _start(design, ground)
    trim(picture, design)
    found = mend(picture, design, dice)
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
        design = _design(symbols, sort, level, attempt, dice)
        name = ground or throw.pick(sorted(GROUNDS))
        plain = [(1 << design.width) - 1] * design.height
        drawing = plain if attempt == TRIES - 1 else drawn(name, throw, design.width, design.height)
        made = _attempt(design, drawing, throw)
        if made is None:
            continue
        picture, looks = made
        beside = _beside(looks, len(symbols), level)
        better = nearest is None or beside < nearest[0]
        if better and count_figures(picture.rows, design.width, sort) == len(symbols):
            nearest = beside, design, picture
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
    return mould(symbols, setting, (columns, rows), throw)

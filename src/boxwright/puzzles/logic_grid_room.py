"""How much text a page has room for, so that a sheet fits in large print, too.

Counted in millimetres of US Letter at 18 pt, the tightest page there is. Roughly: only the
page knows how wide a word is, so it still refuses what these counts let through.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import ceil

from boxwright.puzzles.logic_grid_forms import COMPARES, Category, Form, Sort, Statement

BODY = 224.0  # the page without its title
LEAST_SQUARE = 7.4
SIGN, HEAD = 2.6, 6.0  # width of a sign beside the grid; what else the head takes
LINE, FIRST_LINE = 7.1, 8.2  # of running text; of a statement, with the gap before it
SIGNS_IN_LINE = 50
SIGNS_OF_HOW = 122
FIND = 3 * LINE + 8.0  # what to write down, with all gaps between paragraphs
SIGNS_OF_FORM: Mapping[Form, int] = {
    "is": 11,
    "not": 20,
    "either": 22,
    "neither": 23,
    "pair": 38,
    "before": 25,
    "by": 34,
    "beside": 31,
}
"""Signs of a sentence besides its words, with the teacher's own words and in English."""


def height_of(statement: Statement, categories: tuple[Category, ...]) -> float:
    """Return how high a statement stands, in millimetres."""
    words = [categories[category].members[member] for category, member in statement.items]
    signs = sum(len(word) + 2 for word in words) + SIGNS_OF_FORM[statement.form]
    if statement.form in COMPARES:
        signs += sum(len(one.name) for one in categories if one.ordered)
    lines = ceil(signs / SIGNS_IN_LINE) if _own(categories) else 1 + (statement.form == "pair")
    return FIRST_LINE + (lines - 1) * LINE


def room_for(categories: tuple[Category, ...], sort: Sort) -> float:
    """Return how high all statements may stand together, in millimetres."""
    own, size = _own(categories), len(categories[0].members)
    longest = max(len(word) for one in categories[1:] for word in one.members) if own else 9
    table = HEAD + SIGN * longest + LEAST_SQUARE * size * (len(categories) - 1)
    signs = SIGNS_OF_HOW + sum(len(one.name) + 22 * one.ordered for one in categories)
    how = ceil(signs / SIGNS_IN_LINE) * LINE
    return BODY - table - how - FIND - (LINE + 2.0) * (sort == "faces")


def _own(categories: tuple[Category, ...]) -> bool:
    """Tell whether these are the teacher's: categories of our own scenes have no names."""
    return categories[0].name != ""

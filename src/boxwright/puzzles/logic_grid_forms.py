"""What a sheet of statements is made of, as values.

Things go together in rows: every row holds one member of each category. A *place* is the
number of a row, counted along the ordered category where there is one (so that the place of
a thing is also its rank there), along the first category where there is none.

Types alone: maker and solver each say for themselves what a form means, so that a slip in
one shows against the other.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, TypeAlias

from boxwright.frozen import frozen_value

Form = Literal["is", "not", "either", "neither", "pair", "before", "by", "beside"]
Scene = Literal["own", "hut", "boats", "fields", "colours"]
Sort = Literal["digits", "letters", "faces"]
Item: TypeAlias = tuple[int, int]
"""A category and a member of it, both counted from 0."""

ITEMS: Mapping[Form, int] = {
    "is": 2,
    "not": 2,
    "either": 3,
    "neither": 3,
    "pair": 4,
    "before": 2,
    "by": 2,
    "beside": 2,
}
"""How many things each form speaks of."""

COMPARES: frozenset[Form] = frozenset({"before", "by", "beside"})
"""Forms that speak of the ordered category without naming a member of it."""


@frozen_value
class Category:
    """A category with its members; those of an ordered one stand in their order."""

    name: str
    members: tuple[str, ...]
    ordered: bool


@frozen_value
class Statement:
    """One statement about `items`; `by` is how many steps lie between, 0 where none are named."""

    form: Form
    items: tuple[Item, ...]
    by: int = 0


@frozen_value
class Puzzle:
    """What is printed.

    In a scene of our own, names and members are ids of the catalogue; in the teacher's own
    (`own`) they are words. `figures` has a row for each member of the third category and a
    column for each of the second; `order` names members of the first, as they are read.
    """

    scene: Scene
    categories: tuple[Category, ...]
    statements: tuple[Statement, ...]
    sort: Sort
    figures: tuple[tuple[str, ...], ...]
    order: tuple[int, ...]


Arrangement: TypeAlias = tuple[tuple[int, ...], ...]
"""The place of each member of each category."""

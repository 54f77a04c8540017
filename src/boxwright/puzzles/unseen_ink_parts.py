"""The parts of a sheet with unseen ink: the types and sizes that makers and solvers share."""

from __future__ import annotations

from boxwright.frozen import frozen_value
from boxwright.puzzles.picture_field import Field, Sort

# A dot belongs to the picture that it is nearest to, by this much at the least: a hand
# that traces is a little off, and the dot must still be nearest.
LEAD = 2.0
REACH = 5.0  # farther from every picture, a dot seems to belong to none
OFF_PRINT = 0.5  # nearer to a picture, its black print may hide the dot


@frozen_value
class Dot:
    """A dot of ink: the middle of its picture, and from there the way to the dot, in millimetres.

    Where the page draws the places farther apart, a dot goes with its picture.
    """

    x: float
    y: float
    right: float
    down: float


@frozen_value
class Ink:
    """All that the torch shows, in a frame of the field's width and height."""

    width: float
    height: float
    dots: tuple[Dot, ...]


@frozen_value
class Card:
    """What pupils get where the dots are on another clue's sheet: the pictures asked for."""

    asked: tuple[str, ...]
    sorts: tuple[Sort, ...]


@frozen_value
class Guide:
    """What the teacher traces from: the pupils' field, and the dots."""

    field: Field
    dots: tuple[Dot, ...]


@frozen_value
class Sheet:
    """The pupils' sheet (or a card, if a sheet is there already), the ink, and the guide."""

    sheet: Field | Card | None = None
    ink: Ink | None = None
    guide: Guide | None = None

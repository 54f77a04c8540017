"""A field strewn with pictures: the types and sizes that makers, solvers and sheets share."""

from __future__ import annotations

from boxwright.frozen import frozen_value

# Fits the body of A4 and of Letter at 18 pt, under a heading of two lines, four lines of
# text and a row of pictures; the page draws it higher where it has the room.
WIDTH, HEIGHT = 170.0, 136.0
LEAST_GAP = 2.0  # millimetres between two pictures, so that nobody takes two for one
LEAST_SIZE, MOST_SIZE = 12.0, 20.0
MOST_PICTURES = 46
MOST_COUNT = 9


@frozen_value
class Sort:
    """One sort of picture: its name (a drawn one, or a file), and its box in millimetres."""

    name: str
    width: float
    height: float


@frozen_value
class Placed:
    """One picture in the field: its middle in millimetres from the top left, its turn in degrees.

    `turn` runs clockwise. A picture's box is that of its sort, however it is turned.
    """

    picture: str
    x: float
    y: float
    turn: int


@frozen_value
class Field:
    """What is printed: the frame, the sorts of pictures, those asked for in order, and all placed.

    Millimetres are the least: a page with room draws the places farther apart, from top to
    bottom, and the pictures as large as here; so gaps only grow.
    """

    width: float
    height: float
    asked: tuple[str, ...]
    sorts: tuple[Sort, ...]
    placed: tuple[Placed, ...]

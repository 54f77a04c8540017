"""What stands on the sheet of a route map, and what pupils know: types that all its parts share.

Lengths are millimetres on a map as wide as `WIDTH`, from its top left corner; the page
may print all of it smaller or larger.
"""

from __future__ import annotations

from typing import Literal, get_args

from boxwright.frozen import frozen_value

Move = Literal["up", "down", "left", "right"]
Sort = Literal["hut", "tower", "tent", "windmill", "barn", "mast", "dome", "spot"]
Thing = Literal["flag", "bench", "ladder", "lamp", "cart", "barrel"]
Story = Literal["delivery", "beat", "cable"]
Scenery = Literal["wood", "hill", "rocks"]

MOVES: tuple[Move, ...] = get_args(Move)
THINGS: tuple[Thing, ...] = get_args(Thing)
BUILDINGS: tuple[Sort, ...] = tuple(sort for sort in get_args(Sort) if sort != "spot")
STORIES: tuple[Story, ...] = get_args(Story)

WIDTH, HEIGHT = 174.0, 138.0
MOST_THINGS = 2  # one on either side of a building


@frozen_value
class Point:
    """A place on the map, from its top left corner."""

    x: float
    y: float


@frozen_value
class Place:
    """One place, `at` its middle: what is drawn, what stands left and right of it, its name.

    A place has things or a label. The lines of a label stand below the drawing.
    """

    at: Point
    sort: Sort
    things: tuple[Thing, ...] = ()
    label: tuple[str, ...] = ()


@frozen_value
class Stop:
    """What the list tells of one stop: its name, its looks, or a hint of the teacher's.

    `has` and `lacks` are things that stand there, or do not.
    """

    name: str = ""
    sort: Sort | None = None
    has: tuple[Thing, ...] = ()
    lacks: tuple[Thing, ...] = ()
    hint: str = ""


@frozen_value
class Feature:
    """A piece of country that is no place: where its middle is, and how wide it is."""

    scenery: Scenery
    at: Point
    width: float


@frozen_value
class RouteMap:
    """The map and the list: a start, all places (in no order), the stops in theirs."""

    width: float
    height: float
    start: Point
    places: tuple[Place, ...]
    stops: tuple[Stop, ...]
    story: Story
    stream: tuple[Point, ...]
    track: tuple[Point, ...]
    features: tuple[Feature, ...]


@frozen_value
class Sheet:
    """The one part."""

    sheet: RouteMap | None = None


@frozen_value
class Meaning:
    """That a hint of the teacher's means a place, by its name."""

    hint: str
    place: str


@frozen_value
class Knows:
    """What the teacher's hints mean, every place of the map included that they could mean."""

    hints: tuple[Meaning, ...] = ()

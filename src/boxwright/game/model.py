"""What stands in game.toml, kit.toml and room.toml, as frozen, strictly typed values.

These classes say what a file may hold; `game.folder` reads it and words what is wrong.
Units stand in the names: millimetres `_mm`, seconds `_s`; minutes only in `Time`, which
people write. Tables are keyed by id, never lists, so that every thing has one name.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, StringConstraints

from boxwright.game.ages import OLDEST, YOUNGEST

ID_PATTERN = r"^[a-z][a-z0-9-]{0,39}$"
LANGUAGE_PATTERN = r"^[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*$"
Age = Annotated[int, Field(ge=YOUNGEST, le=OLDEST)]
TAG_PATTERN = r"^[A-Z]{1,3}[0-9]{1,3}$"
ANY_PLACE = "any "
TABLE = "table"
START = "start"
RESERVED_IDS = frozenset({TABLE, START, "any"})

Id = Annotated[str, StringConstraints(pattern=ID_PATTERN)]
Tag = Annotated[str, StringConstraints(pattern=TAG_PATTERN)]
Name = Annotated[str, StringConstraints(min_length=1, max_length=80, strip_whitespace=True)]
Text = Annotated[str, StringConstraints(min_length=1, max_length=4000, strip_whitespace=True)]
Millimetres = Annotated[float, Field(gt=0, le=100_000)]
Count = Annotated[int, Field(ge=1, le=99)]
Minutes = Annotated[int, Field(ge=0, le=600)]
Amount = Annotated[float, Field(ge=0, allow_inf_nan=False)]

MechanismName = Literal[
    "number-wheels",
    "letter-wheels",
    "colour-wheels",
    "symbol-wheels",
    "direction",
    "dial",
    "keypad",
    "key",
]
Level = Literal["easier", "ordinary", "harder", "hardest"]
LEVELS: tuple[Level, ...] = ("easier", "ordinary", "harder", "hardest")
Facility = Id
Setting = Id
PlaceWish = str | tuple[str, ...]
"""Where a thing goes: a box, a place, `any TAG`, `table`, `start`; or several, in order."""


class Record(BaseModel):
    """A frozen value that knows all its fields and converts nothing in silence."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, defer_build=True)


class LockShape(Record):
    """What a lock's codes can be; a field left out follows from the mechanism.

    `faces` is a string (a letter a face; one for all wheels) or a list: of names for all
    wheels, or of strings, one for each wheel. `moves` counts a direction lock's ways;
    `numbers` and `tolerance` are a dial's, in marks.
    """

    mechanism: MechanismName | None = None
    wheels: Annotated[int, Field(ge=1, le=10)] | None = None
    faces: str | tuple[str, ...] | tuple[tuple[str, ...], ...] | None = None
    length: tuple[Count, Count] | None = None
    moves: Literal[4, 8] | None = None
    numbers: Annotated[int, Field(ge=2, le=200)] | None = None
    tolerance: Annotated[int, Field(ge=0, le=5)] | None = None
    keys: str | tuple[str, ...] | None = None
    order_matters: bool | None = None


# game.toml


class GameHead(Record):
    """Names, ages and group sizes of a game."""

    id: Id
    title: Name
    summary: Text = ""
    language: Annotated[str, StringConstraints(pattern=LANGUAGE_PATTERN)] = "en"
    licence: str = ""
    authors: tuple[Name, ...] = ()
    ages: tuple[Age, Age]
    groups: tuple[Count, Count] = (1, 1)
    pupils: tuple[Count, Count] = (3, 4)
    hints: Literal["auto"] | Annotated[int, Field(ge=0, le=99)] = "auto"


class Time(Record):
    """Minutes from bell to bell; what the other parts leave is play."""

    bell_to_bell: Annotated[int, Field(ge=5, le=600)] = 45
    settle: Minutes = 4
    briefing: Minutes = 5
    debrief: Minutes = 7
    tidy: Minutes = 4


class When(Record):
    """A paragraph that is told only when the thing `when` is in play."""

    when: Id
    text: Text


class Ask(Record):
    """A question of the debrief, and the goal that it is about."""

    goal: Id | None = None
    ask: Text


class Story(Record):
    """What is told before, after, and talked over; `{id}` prints that thing's name."""

    opening: tuple[Text | When, ...] = ()
    closing: tuple[Text | When, ...] = ()
    unfinished: tuple[Text | When, ...] = ()
    debrief: tuple[Ask, ...] = ()


class BoxWish(Record):
    """A box of the game: what a real one must be to play its part."""

    name: Name
    place: PlaceWish = "table"
    inside_mm: tuple[Millimetres, Millimetres, Millimetres] | None = None
    locks: Count | None = None
    own_lock: bool = False
    optional: bool = False


class LockWish(LockShape):
    """A lock of the game: what a real one must be, which box it closes, and its code."""

    mechanism: MechanismName
    closes: Id
    code: str = "auto"
    stand_in: Literal["allowed", "never"] = "never"
    opened_by: Id | None = None
    optional: bool = False


class Item(Record):
    """A thing that is found and used; `wins` ends the game when it is reached."""

    name: Name
    place: PlaceWish
    tool: Id | None = None
    optional: bool = False
    wins: bool = False


class Version(Record):
    """One way to do a clue, and everything that follows from choosing it."""

    kind: Id
    level: Level | None = None
    content: str | dict[str, str] | None = None
    options: dict[str, Any] = Field(default_factory=dict)
    place: PlaceWish = "start"
    parts: dict[Id, PlaceWish] = Field(default_factory=dict)
    on: Id | None = None
    hints: tuple[Text, Text, Text] | None = None
    written_on: bool = False
    rooms: tuple[Setting, ...] = ()
    facilities: tuple[Facility, ...] = ()
    needs: tuple[Id, ...] = ()
    adds: tuple[Id, ...] = ()
    drops: tuple[Id, ...] = ()
    moves: dict[Id, Id] = Field(default_factory=dict)


class Clue(Record):
    """What leads to one lock's code, one item or one place, in one or more versions."""

    gives: Id
    goals: tuple[Id, ...] = ()
    optional: bool = False
    versions: Annotated[dict[Id, Version], Field(min_length=1)]


class Arrangement(Record):
    """Wishes under one name: a level for all clues, and versions for some."""

    level: Level | None = None
    versions: dict[Id, Id] = Field(default_factory=dict)


class GameFile(Record):
    """game.toml as it stands.

    `forecast` has numbers of the forecast under both halves of their names: which there are
    is not known here.
    """

    format: Literal[1]
    game: GameHead
    time: Time = Time()
    goals: dict[Id, Text] = Field(default_factory=dict)
    story: Story = Story()
    boxes: dict[Id, BoxWish] = Field(default_factory=dict)
    locks: dict[Id, LockWish] = Field(default_factory=dict)
    items: dict[Id, Item] = Field(default_factory=dict)
    clues: dict[Id, Clue] = Field(default_factory=dict)
    arrangements: dict[Id, Arrangement] = Field(default_factory=dict)
    forecast: dict[str, Amount | dict[str, Amount]] = Field(default_factory=dict)


# kit.toml


class KitHead(Record):
    """The name of a shelf of hardware."""

    id: Id
    name: Name


class LockMake(LockShape):
    """What locks of one make share, and what a real lock may say of itself."""

    set_by: Text | None = None
    set_needs: tuple[Literal["pin", "key", "screwdriver"], ...] = ()
    shackle_mm: tuple[Millimetres, Millimetres] | None = None
    cheap: bool | None = None
    reading_line: Text | None = None
    wrong_tries: Annotated[int, Field(ge=0, le=99)] | None = None
    rest_s: Annotated[int, Field(ge=0, le=86_400)] | None = None
    keeps_key_open: bool | None = None


class KitLock(LockMake):
    """A real lock with its sticker; what it says itself goes before what its model says."""

    model: Id | None = None
    shelf_code: str | None = None
    fixed: bool = False
    code: str | None = None
    faults: Text | None = None


class Key(Record):
    """A key with its own sticker, and the locks that it opens, as tried."""

    opens: tuple[Tag, ...]
    copies: Count = 1


class KitBox(Record):
    """A real box; a shackle goes through a hole at least 0.5 mm wider."""

    name: Name
    inside_mm: tuple[Millimetres, Millimetres, Millimetres] | None = None
    hasp_holes: Annotated[int, Field(ge=0, le=20)] = 1
    hasp_hole_mm: Millimetres | None = None
    own_lock: Tag | None = None


class StandIns(Record):
    """Paper in place of locks."""

    envelopes: Annotated[int, Field(ge=0, le=999)] = 0


class Tool(Record):
    """A thing that clues may need: a torch, a mirror, a film."""

    is_: Annotated[Id, Field(alias="is")]
    batteries: Text | None = None


class KitFile(Record):
    """kit.toml as it stands."""

    format: Literal[1]
    kit: KitHead
    models: dict[Id, LockMake] = Field(default_factory=dict)
    locks: dict[Tag, KitLock] = Field(default_factory=dict)
    keys: dict[Tag, Key] = Field(default_factory=dict)
    boxes: dict[Tag, KitBox] = Field(default_factory=dict)
    stand_ins: StandIns = StandIns()
    tools: dict[Tag, Tool] = Field(default_factory=dict)


# room.toml


class RoomHead(Record):
    """A room: its setting and facilities, and its plan, origin at the door-side left corner.

    `figures` are numbers and words on view anyway (a room number, a date on the wall), which
    no code should be.
    """

    id: Id
    name: Name
    setting: Setting = "classroom"
    facilities: tuple[Facility, ...] = ()
    figures: tuple[Name, ...] = ()
    plan_mm: tuple[Millimetres, Millimetres] | None = None
    north: Annotated[float, Field(ge=0, lt=360)] = 0.0


class Place(Record):
    """A place of the room where things can be put or hidden."""

    name: Name
    say: Annotated[str, StringConstraints(pattern=r"^[^\W\d_]{2,12}$")] | None = None
    at_mm: tuple[Annotated[float, Field(ge=0)], Annotated[float, Field(ge=0)]] | None = None
    height_mm: Annotated[float, Field(ge=0, le=10_000)] | None = None
    holds: tuple[Literal["sheet", "small", "box"], ...] = ("sheet",)
    tags: tuple[Id, ...] = ()
    near: tuple[Literal["heat", "socket", "door", "drop"], ...] = ()


class RoomFile(Record):
    """room.toml as it stands."""

    format: Literal[1]
    room: RoomHead
    places: dict[Id, Place] = Field(default_factory=dict)

"""Whatever a game and its wishes are, what is arranged hangs together."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, Phase, find, given, settings
from hypothesis import strategies as st

from boxwright.game.arrange import Wishes, arrange
from boxwright.game.arranged import Arranged, ArrangedGame
from boxwright.game.folder import Folder, read_game
from boxwright.game.model import LEVELS
from boxwright.game.placeholders import names_in
from boxwright.records import to_json

UNITS = (0, 1, 2)
BOXES, LOCKS, ITEMS, CLUES = (
    tuple(f"{sort}{number}" for number in UNITS) for sort in ("box", "lock", "item", "clue")
)
PLACES = ("sill", "shelf", "desk")
SAFE = ("table", "start", "shelf", "any low", "any ledge")
LEVEL = st.sampled_from(LEVELS)
ROOM = """
format = 1
[room]
id = "r"
name = "R"
setting = "classroom"
facilities = ["board"]
[places.sill]
name = "the sill"
say = "SILL"
holds = ["sheet", "small"]
tags = ["ledge"]
[places.shelf]
name = "the shelf"
say = "SHELF"
holds = ["sheet", "small", "box"]
tags = ["low", "ledge"]
[places.desk]
name = "the desk"
holds = ["sheet", "box"]
tags = ["low"]
"""


def rarely(draw: st.DrawFn) -> bool:
    """Tell whether to be wild here; mostly the game stays one that works."""
    return draw(st.integers(0, 24)) == 13


def unit(number: int) -> list[str]:
    return [BOXES[number], LOCKS[number], ITEMS[number], CLUES[number]]


def pick(draw: st.DrawFn, tame: str, wild: tuple[str, ...]) -> str:
    return draw(st.sampled_from(wild)) if rarely(draw) else tame


def place(draw: st.DrawFn) -> str | list[str]:
    wild = (*BOXES, *PLACES, "any ledge", "elsewhere")
    if draw(st.integers(0, 2)) == 0:
        return [draw(st.sampled_from(wild)), "table"]
    return pick(draw, draw(st.sampled_from(SAFE)), wild)


@st.composite
def versions(draw: st.DrawFn, number: int, optional: list[int]) -> dict[str, Any]:
    version: dict[str, Any] = {"kind": "nonogram", "place": place(draw)}
    others = [one for one in UNITS if one != number]
    if draw(st.booleans()) and optional:
        version["adds"] = unit(draw(st.sampled_from(optional)))
    elif draw(st.integers(0, 3)) == 0:
        version["drops"] = unit(draw(st.sampled_from(others)))
    if draw(st.booleans()):
        version["level"] = draw(LEVEL)
    if draw(st.integers(0, 3)) == 0:
        version |= draw(st.sampled_from([{"rooms": ["library"]}, {"facilities": ["catalogue"]}]))
    if draw(st.integers(0, 4)) == 0:
        version["moves"] = {LOCKS[number]: pick(draw, BOXES[0], BOXES)}
    if draw(st.integers(0, 4)) == 0:
        version["on"] = CLUES[draw(st.sampled_from(others))]
    if draw(st.integers(0, 2)) == 0:
        version["needs"] = [pick(draw, ITEMS[number], ITEMS)]
        version["hints"] = ["One.", "Two.", f"See {{{pick(draw, ITEMS[number], ITEMS)}}}."]
    return version


@st.composite
def games(draw: st.DrawFn) -> dict[str, Any]:
    optional: list[int] = draw(st.lists(st.sampled_from(UNITS[1:]), max_size=2, unique=True))

    def thing(number: int, **fields: Any) -> dict[str, Any]:
        return fields | ({"optional": True} if number in optional else {})

    def ways(number: int) -> dict[str, Any]:
        first = {"kind": "nonogram", "place": place(draw)}
        more = {f"v{one}": draw(versions(number, optional)) for one in range(1, 3)}
        return {"v0": first} | more

    return {
        "format": 1,
        "game": {"id": "g", "title": "G", "ages": [9, 11], "groups": [1, 4]},
        "story": {
            "opening": [
                f"Here is {{{pick(draw, BOXES[0], BOXES)}}}.",
                *({"when": BOXES[one], "text": f"And {{{ITEMS[one]}}}."} for one in UNITS),
            ]
        },
        "boxes": {BOXES[one]: thing(one, name=BOXES[one], place=place(draw)) for one in UNITS},
        "locks": {
            LOCKS[one]: thing(one, mechanism="dial", closes=pick(draw, BOXES[one], BOXES))
            for one in UNITS
        },
        "items": {ITEMS[one]: thing(one, name=ITEMS[one], place=place(draw)) for one in UNITS},
        "clues": {
            CLUES[one]: thing(one, gives=pick(draw, LOCKS[one], LOCKS), versions=ways(one))
            for one in UNITS
        },
        "arrangements": {"some": {"level": draw(LEVEL)}},
    }


def toml(value: Any) -> str:
    """Write plain values as TOML in one line (JSON's texts and numbers are TOML's too)."""
    if isinstance(value, dict):
        return (
            "{" + ", ".join(f"{json.dumps(key)} = {toml(one)}" for key, one in value.items()) + "}"
        )
    if isinstance(value, list):
        return "[" + ", ".join(map(toml, value)) + "]"
    return json.dumps(value)


WISHES = st.builds(
    Wishes,
    arrangement=st.sampled_from([None, "some"]),
    level=st.none() | LEVEL,
    levels=st.dictionaries(st.sampled_from(["1", "2"]), LEVEL, max_size=2),
    versions=st.dictionaries(st.sampled_from(CLUES), st.just("v0"), max_size=1),
    groups=st.sampled_from([2, 3]),
)


def outcome(game: dict[str, Any], wishes: Wishes) -> Arranged | None:
    text = "\n".join(f"{key} = {toml(value)}" for key, value in game.items())
    folder = read_game(
        Path("nowhere"),
        instead={"game.toml": text.encode(), "room.toml": ROOM.encode()},
    )
    if not isinstance(folder, Folder):
        return None
    found = arrange(folder, wishes)
    return found if isinstance(found, Arranged) else None


def words_of(value: Any) -> set[str]:
    if isinstance(value, dict):
        inner = (words_of(one) for one in value.values())
        return {str(key) for key in value}.union(*inner)
    return set().union(*(words_of(one) for one in value)) if isinstance(value, list) else set()


def check_whole(game: ArrangedGame) -> None:
    places = {*game.boxes, *PLACES, "table", "start"}
    assert all(lock.closes in game.boxes for lock in game.locks.values())
    assert {box.place for box in game.boxes.values()} <= places
    assert {item.place for item in game.items.values()} <= places
    assert {clue.place for clue in game.clues.values()} <= places
    for id, clue in game.clues.items():
        assert clue.gives in game.locks
        assert set(clue.needs) <= set(game.items)
        assert clue.on is None or (clue.on in game.clues and clue.on != id)
        assert not any(names_in(hint) for hint in clue.hints or ())
    assert not any(names_in(text) for text in game.story.opening)


@settings(max_examples=80, deadline=None, suppress_health_check=list(HealthCheck))
@given(games(), WISHES)
def test_every_id_named_is_in_play(game: dict[str, Any], wishes: Wishes) -> None:
    found = outcome(game, wishes)
    for share in found.games if found is not None else ():
        check_whole(share.game)


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(games(), WISHES)
def test_nothing_speaks_of_versions_any_more(game: dict[str, Any], wishes: Wishes) -> None:
    found = outcome(game, wishes)
    for share in found.games if found is not None else ():
        told = json.loads(json.dumps(to_json(share.game)))
        assert not words_of(told) & {
            "versions", "optional", "adds", "drops", "rooms", "facilities", "arrangements",
        }  # fmt: skip


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(games(), WISHES)
def test_each_group_plays_one_game_and_no_two_games_are_the_same(
    game: dict[str, Any], wishes: Wishes
) -> None:
    found = outcome(game, wishes)
    if found is None:
        return
    assert found.groups == tuple(str(one + 1) for one in range(wishes.groups or 0))
    for number, share in enumerate(found.games):
        assert share.game not in [other.game for other in found.games[:number]]


def test_games_that_differ_from_group_to_group_are_among_those_tried() -> None:
    """Else the three properties above would hold of nothing."""

    def differs(pair: tuple[dict[str, Any], Wishes]) -> bool:
        found = outcome(*pair)
        return found is not None and len(found.games) > 1

    find(
        st.tuples(games(), WISHES),
        differs,
        settings=settings(
            max_examples=500,
            deadline=None,
            suppress_health_check=list(HealthCheck),
            phases=[Phase.generate],
        ),
    )

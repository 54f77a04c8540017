"""What to mind so that nobody comes to harm: only what applies to this game in this room."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.choose.gear import Gear
from boxwright.choose.step_words import place_named
from boxwright.problems import Arg, Message, say

REACH_MM = ((6, 1100), (9, 1300), (99, 1500))
"""How high the youngest of a class reach with ease, by age: common practice, no source."""
SMALL_PARTS_AGE = 7  # common practice, no source


def cautions(gear: Gear) -> Iterator[Message]:
    """Yield every caution that applies, the school's own rules first."""
    game = gear.edition.game
    yield say("card.mind-school")
    yield say("card.mind-locked")
    if gear.hiding:
        yield from _places(gear)
    tools = [item.tool for item in game.items.values() if item.tool is not None]
    if any(tool.startswith("uv") for tool in tools):
        yield say("card.mind-ultraviolet")
    if game.ages[0] < SMALL_PARTS_AGE and (game.items or game.locks):
        yield say("card.mind-small")


def _places(gear: Gear) -> Iterator[Message]:
    yield say("card.mind-search")
    room = gear.folder.room
    if room is None:
        return
    hidden = [place for place in gear.hiding if place in room.places]
    age = gear.edition.game.ages[0]
    reach = next(high for limit, high in REACH_MM if age <= limit)
    high = _named(gear, (p for p in hidden if (room.places[p].height_mm or 0) > reach))
    if high:
        yield say("card.mind-high", places=high, n=len(high))
    for danger in ("heat", "socket", "door", "drop"):
        near = _named(gear, (p for p in hidden if danger in room.places[p].near))
        if near:
            yield say(f"card.mind-{danger}", places=near, n=len(near))


def _named(gear: Gear, places: Iterator[str]) -> tuple[Arg, ...]:
    return tuple(place_named(gear, place) for place in places)

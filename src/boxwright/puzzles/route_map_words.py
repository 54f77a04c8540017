"""Stops, places and looks in words; and how many looks at the map it takes to find a stop."""

from __future__ import annotations

from collections.abc import Mapping

from boxwright.problems import Message, say
from boxwright.puzzles.route_map_sheet import Point, RouteMap, Stop

ENDS = (".", "!", "?", "…")
CLOSING = "”’»\"')]"
"""What may stand behind a sentence's end: He asks, “Who goes there?”"""


def told(stop: Stop) -> Message:
    """Say what the list tells of one stop."""
    if stop.hint:
        return say("route-map.plain", text=stop.hint)
    if stop.name:
        return say("route-map.plain", text=stop.name)
    building = () if stop.sort is None else (say(f"route-map.sort-{stop.sort}"),)
    has = tuple(say(f"route-map.thing-{thing}") for thing in stop.has)
    lacks = tuple(say(f"route-map.thing-{thing}") for thing in stop.lacks)
    form = "-".join(
        name for name, given in (("sort", building), ("has", has), ("lacks", lacks)) if given
    )
    return say(f"route-map.tell-{form or 'any'}", sort=building, has=has, lacks=lacks)


def after(message_id: str, stop: Stop) -> str:
    """Return the id of what goes on after a stop: after a whole sentence with one of its own."""
    ended = stop.hint.rstrip(CLOSING).endswith(ENDS)
    return f"{message_id}-sentence" if ended else message_id


def numbered(at: int, stop: Stop) -> Message:
    """Say the line of the list for the stop `at` (from 0)."""
    return say("route-map.stop", number=at + 1, told=told(stop))


def words_of(sheet: RouteMap) -> Mapping[str, Message]:
    """Return all that the template draws: sentences, list, words on the map."""
    by_hint = any(stop.hint for stop in sheet.stops)
    by_name = all(stop.name for stop in sheet.stops)
    tells = "hints" if by_hint else "names" if by_name else "looks"
    return {
        "how": say(
            "route-map.how",
            story=say(f"route-map.story-{sheet.story}"),
            tells=say(f"route-map.tells-{tells}"),
        ),
        "moves": say("route-map.moves"),
        "find": say("route-map.find"),
        "start": say("route-map.start"),
        **{move: say(f"route-map.move-{move}") for move in ("up", "down", "left", "right")},
        **{f"stop-{at}": numbered(at, stop) for at, stop in enumerate(sheet.stops)},
    }


def where(at: Point, sheet: RouteMap) -> Message:
    """Say in which part of the map a place lies."""
    across = ("left", "middle", "right")[min(2, int(3 * at.x / sheet.width))]
    down = ("top", "middle", "bottom")[min(2, int(3 * at.y / sheet.height))]
    return say(f"route-map.where-{down}-{across}")


def conditions(stop: Stop) -> int:
    """Count what must be true of a stop."""
    told = (stop.name, stop.hint, stop.sort)
    return sum(map(bool, told)) + len(stop.has) + 2 * len(stop.lacks) + bool(stop.hint)


def looks(stop: Stop, sheet: RouteMap) -> int:
    """Count looks at places: one at each, and again at each that fits the first condition.

    That something is missing takes a second look.
    """
    places = sheet.places
    if stop.name:
        return len(places)
    if stop.hint:
        return 2 * len(places)
    if stop.sort is not None:
        alike = sum(place.sort == stop.sort for place in places)
    else:
        alike = sum(set(stop.has[:1]) <= set(place.things) for place in places)
    return len(places) + alike * (2 if stop.lacks else 1)

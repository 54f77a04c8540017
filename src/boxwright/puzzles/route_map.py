"""A round on a map: go straight from stop to stop, and each way is a move of the code.

Rules, as a pupil plays: the list tells the stops in order, by their names or by what stands
there. Find the first on the map, and draw a straight line to it from the start; then on to
the next. Each line points nearly straight up, down, left or right on the page. The moves
in the order of the list are the code.

Proven: `solve` finds every place that each line of the list fits, and every way along them
on which each leg lies within 15 degrees of one direction. A made sheet has one place for each
line, no leg passes over another place or its label, and at least eight places are no stops.
Left on the page and left of a walker are told apart on the sheet, in words and by arrows.

Limits: two to eight moves, each at a right angle to the last. Two moves in one line (up and
up again, up and down again) are refused, as a stop in the middle of a straight line is easily
overlooked. What a hint of the teacher's means is the teacher's word. The fewest names and
hints that fit every paper and size are ours; longer ones may be refused for large print.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import Literal, cast

from pydantic import BaseModel

from boxwright import messages
from boxwright.dice import Dice
from boxwright.problems import Message, Problem, Where, say
from boxwright.puzzles import route_map_words as telling
from boxwright.puzzles.contract import (
    Answer,
    Carries,
    Effort,
    Facts,
    Given,
    Made,
    Mistake,
    Solution,
    Step,
)
from boxwright.puzzles.route_map_maker import drawn_map, own_map
from boxwright.puzzles.route_map_mistakes import misreadings
from boxwright.puzzles.route_map_own import HERE, faults, own_places, table_of
from boxwright.puzzles.route_map_sheet import (
    MOVES,
    STORIES,
    Knows,
    Move,
    RouteMap,
    Sheet,
    Story,
)
from boxwright.puzzles.route_map_solver import Reading, readings
from boxwright.puzzles.shelf import shelf

FACTS = Facts(
    answers=(Carries("moves", frozenset(MOVES), 2, 8),),
    ages=(8, 14),
    band_minutes=(4, 12),
    skill=frozenset({"reading", "space"}),
    language="words",
    basis="declared",  # the teacher's own hints are; `basis` tells of one sheet
)
RULES = say("route-map.rules")
UPRIGHT = ("up", "down")
ASIDE: dict[Move, Move] = {"up": "left", "down": "right", "left": "up", "right": "down"}


class Options(BaseModel, frozen=True, extra="forbid", strict=True):
    """What a teacher may choose: who goes the way."""

    story: Literal["auto", "delivery", "beat", "cable"] = "auto"


def refuse(answer: Answer, options: Options, given: Given) -> Problem | None:
    """Refuse two moves in one line, and tables of places that cannot be told or do not fit."""
    if not FACTS.carries(answer):
        return shelf().cannot_carry("route-map", answer)
    moves = _moves(answer)
    straight = _straight(answer, moves)
    table = table_of(given)
    if straight or table is None:
        return straight
    for problem in faults(table, len(moves), given.level in ("harder", "hardest")):
        return problem
    if own_map(own_places(table), moves, STORIES[0], given.level, None) is None:
        return Problem.of("route-map.no-room", HERE, file=table.file, moves=len(moves))
    return None


def _moves(answer: Answer) -> tuple[Move, ...]:
    return cast(tuple[Move, ...], answer.symbols)


def _straight(answer: Answer, moves: tuple[Move, ...]) -> Problem | None:
    for first, second in pairwise(moves):
        if (first in UPRIGHT) == (second in UPRIGHT):
            others = tuple(name for name in shelf().carriers(answer) if name != "route-map")
            code = "route-map.straight" if others else "route-map.straight-only"
            example = " ".join(_turning(moves))
            return Problem.of(
                code,
                Where("", ("kind",)),
                first=first,
                second=second,
                example=example,
                choices=others,
            )
    return None


def _turning(moves: tuple[Move, ...]) -> list[Move]:
    """Return moves as near to these as can be, each at a right angle to the last."""
    turned: list[Move] = []
    for move in moves:
        straight = bool(turned) and (turned[-1] in UPRIGHT) == (move in UPRIGHT)
        turned.append(ASIDE[move] if straight else move)
    return turned


def make(answer: Answer, options: Options, given: Given, dice: Dice) -> Made:
    """Make a map and a list whose only way is `answer`."""
    moves = _moves(answer)
    story: Story = dice.pick(STORIES) if options.story == "auto" else options.story
    table = table_of(given)
    if table is None:
        return Made(Sheet(drawn_map(moves, story, given.level, given.language, dice)), Knows())
    found = own_map(own_places(table), moves, story, given.level, dice)
    assert found is not None, "else it was refused"
    return Made(Sheet(found[0]), found[1])


def _map(sheet: Sheet) -> RouteMap:
    assert sheet.sheet is not None, "the one part is always there"
    return sheet.sheet


def solve(sheet: Sheet, knows: Knows) -> Iterator[Solution]:
    """Yield every answer that some way along the list can be read as.

    Raises:
        GaveUp: after a bounded number of ways.
    """
    seen = set()
    for reading in readings(_map(sheet), knows):
        if reading.moves not in seen:
            seen.add(reading.moves)
            working = tuple(_working(_map(sheet), reading))
            yield Solution(Answer("moves", reading.moves), working)


def _working(sheet: RouteMap, reading: Reading) -> Iterator[Step]:
    for at, (place, move) in enumerate(zip(reading.places, reading.moves, strict=True)):
        number = sheet.places.index(place)
        says = say(
            telling.after("route-map.step", sheet.stops[at]),
            stop=telling.numbered(at, sheet.stops[at]),
            where=telling.where(place.at, sheet),
            move=say(f"route-map.move-{move}"),
        )
        yield Step(says, (("sheet", "stops", at), ("sheet", "places", number)))


def basis(sheet: Sheet) -> Literal["computed", "declared"]:
    """Tell whether the answer rests on what the teacher's hints mean, or on the map alone."""
    return "declared" if any(stop.hint for stop in _map(sheet).stops) else "computed"


def describe(sheet: Sheet, part: str) -> Message:
    """Say what is on the map, and that a list tells the stops."""
    whole = _map(sheet)
    return say("route-map.describe", places=len(whole.places), stops=len(whole.stops))


def words(sheet: Sheet, part: str) -> Mapping[str, Message]:
    """Return the sentences of the sheet, the lines of its list, and the words on the map."""
    return telling.words_of(_map(sheet))


def prints(sheet: Sheet, part: str) -> tuple[str, ...]:
    """Return the labels on the map."""
    return tuple(line for place in _map(sheet).places for line in place.label)


def hints(sheet: Sheet, knows: Knows, solution: Solution) -> tuple[Message, Message, Message]:
    """Say to draw the lines, then what to mind, then where the stop with most rivals is."""
    whole = _map(sheet)
    reading = next(one for one in readings(whole, knows) if one.moves == solution.answer.symbols)
    looks = [telling.looks(stop, whole) for stop in whole.stops]
    at = looks.index(max(looks))
    return (
        say("route-map.hint-draw"),
        say("route-map.hint-left"),
        say(
            telling.after("route-map.hint-where", whole.stops[at]),
            stop=telling.numbered(at, whole.stops[at]),
            where=telling.where(reading.places[at].at, whole),
        ),
    )


def mistakes(sheet: Sheet, knows: Knows, solution: Solution) -> Iterator[Mistake]:
    """Yield what comes of a walker's left, a turned page, a look-alike or a stop left out."""
    whole = _map(sheet)
    right = next(one for one in readings(whole, knows) if one.moves == solution.answer.symbols)
    seen = {right.moves}
    for moves, means, noticed in misreadings(whole, knows, right):
        if moves not in seen:
            seen.add(moves)
            yield Mistake(Answer("moves", moves), means, noticed)


def solved(sheet: Sheet, knows: Knows, solution: Solution) -> dict[str, object]:
    """Return the way for the teacher's small picture: its corners in millimetres, and the moves."""
    whole = _map(sheet)
    reading = next(one for one in readings(whole, knows) if one.moves == solution.answer.symbols)
    corners = [whole.start, *(place.at for place in reading.places)]
    return {"way": [[at.x, at.y] for at in corners], "moves": list(reading.moves)}


def effort(sheet: Sheet) -> Effort:
    """Count words to read, lines and arrows to draw, and looks at places."""
    whole = _map(sheet)
    text = " ".join(messages.words(message) for message in words(sheet, "sheet").values())
    return Effort(
        words=len(text.split()),
        marks=2 * len(whole.stops),
        steps=sum(telling.looks(stop, whole) for stop in whole.stops),
        depth=max(telling.conditions(stop) for stop in whole.stops),
        skill="space",
    )

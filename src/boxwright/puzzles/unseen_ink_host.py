"""Dots of ink on another clue's sheet of pictures: is there room, and where do they go?"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace

from boxwright.dice import Dice
from boxwright.game.model import Level
from boxwright.problems import Problem, Where
from boxwright.puzzles.contract import Answer, Given
from boxwright.puzzles.count_sheet import Sheet as HostSheet
from boxwright.puzzles.picture_field import Field
from boxwright.puzzles.picture_wishes import Wishes
from boxwright.puzzles.unseen_ink_dots import beside, capacities, matched
from boxwright.puzzles.unseen_ink_maker import drawn_by_lot, with_guide
from boxwright.puzzles.unseen_ink_parts import Card, Sheet

HOST = "count-sheet"
# Which share of the other pictures with room for a dot gets one.
OTHERS_AT: Mapping[Level, float] = {"easier": 0.1, "ordinary": 0.3, "harder": 0.6, "hardest": 1.0}


def host_refused(answer: Answer, wishes: Wishes, given: Given) -> Problem | None:
    """Refuse a sheet that holds no pictures to count, or too few with room for a dot."""
    where = Where("", ("on",))
    field = given.host.sheet if isinstance(given.host, HostSheet) else None
    if field is None:
        return Problem.of("unseen-ink.host-kind", where, host=HOST)
    given_too = tuple(sorted(wishes.model_dump(exclude_defaults=True)))
    if given_too:
        options = Where("", ("options", given_too[0]))
        return Problem.of("unseen-ink.host-options", options, names=given_too)
    most = capacities(field, beside(field))
    if matched(list(map(int, answer.symbols)), most, Dice(0)) is not None:
        return None
    room = tuple(sorted((room for room in most.values() if room), reverse=True))
    if not room:
        return Problem.of("unseen-ink.host-full", where)
    return Problem.of(
        "unseen-ink.host-few",
        where,
        answer=" ".join(answer.symbols),
        most=tuple(map(str, room[: len(answer.symbols)])),
    )


def on_host(answer: Answer, given: Given, dice: Dice) -> Sheet:
    """Make the card, the dots and the guide for a sheet that is there already."""
    assert isinstance(given.host, HostSheet), "refused otherwise"
    field = given.host.sheet
    assert field is not None, "refused otherwise"
    dots = beside(field)
    digits = list(map(int, answer.symbols))
    asked = matched(digits, capacities(field, dots), dice.child("asked"))
    assert asked is not None, "refused otherwise"
    marked = dict(zip(asked, digits, strict=True)) | _others(field, asked, list(dots), given.level)
    numbers = drawn_by_lot(field, list(dots), marked, dice.child("dots"))
    card = Card(asked, tuple(sort for sort in field.sorts if sort.name in asked))
    made = with_guide(field, field, [dots[number] for number in numbers])
    return replace(made, sheet=card)


def _others(field: Field, asked: tuple[str, ...], free: list[int], level: Level) -> dict[str, int]:
    """Return how many of the sorts that are not asked for get a dot."""
    room = Counter(field.placed[at].picture for at in free)
    share = OTHERS_AT[level]
    return {name: int(share * count + 0.5) for name, count in room.items() if name not in asked}

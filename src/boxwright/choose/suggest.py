"""Up to three sheets for an answer, as different as can be in what pupils do at them.

Kinds are judged by their facts and by what they refuse; none is named here. A kind that
draws on a table gets the lesson's if it is of its sort, else it goes without. Where a
kind wants a choice made, its choices are tried. What is left out is told with its reason.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial
from itertools import takewhile

from boxwright.choose.answers import answer_of
from boxwright.choose.codes import words_for
from boxwright.choose.needs import content_for, options_for
from boxwright.choose.sheets import Request
from boxwright.content.tables import Content
from boxwright.dice import Dice
from boxwright.frozen import frozen_value
from boxwright.game.mechanisms import Code, Device, entry
from boxwright.game.model import Level
from boxwright.problems import Message, say
from boxwright.puzzles.contract import Answer, Facts, Given, Kind
from boxwright.puzzles.shelf import all_kinds

MOST = 3
DRAWS = 24


@frozen_value
class Suggestion:
    """One sheet that may be made, why it is a good one here, and whether the lesson is in it."""

    kind: Kind
    request: Request
    why: tuple[Message, ...]
    from_lesson: bool


@frozen_value
class LeftOut:
    """A kind that is not suggested, why, and where it is the teacher's rows, what mends them."""

    kind: str
    why: Message
    remedy: Message | None = None


@frozen_value
class Suggested:
    """What to choose among, what is not among it, and how many more would have done."""

    sheets: tuple[Suggestion, ...]
    left_out: tuple[LeftOut, ...]
    more: int


def suggest(answer: Answer, given: Given, dice: Dice, turn: int = 0) -> Suggested:
    """Return up to three sheets for `answer`, and why each other kind is not among them.

    With each `turn` another kind that will do is among the three, so that all come round.
    """
    judged = [_judged(name, kind, answer, given, dice) for name, kind in all_kinds()]
    good = [one for one in judged if isinstance(one, Suggestion)]
    order = dice.child("order").shuffled(good)
    sure = order[turn % len(order)] if turn and order else None
    chosen = tuple(_different(order, given.ages, sure))
    left = tuple(one for one in judged if isinstance(one, LeftOut))
    return Suggested(chosen, left, len(good) - len(chosen))


def at_level(suggestion: Suggestion, level: Level) -> Suggestion:
    """Return the same sheet, asked for at another level."""
    request = suggestion.request
    given = replace(request.given, level=level)
    return replace(suggestion, request=replace(request, given=given))


def example_code(device: Device, given: Given, dice: Dice) -> Code:
    """Return a code to begin with: not weak, and of a few drawn the one that most sheets carry.

    Where there is a lesson, a sheet that is made from it comes first.
    """
    alphabet = entry(device).alphabet(device)
    kinds = [one for one in all_kinds() if _spells(one[1].FACTS, alphabet)]
    taught = [one for one in kinds if content_for(one[1].FACTS, given.content).tables]

    def carriers(code: Code, by: list[tuple[str, Kind]]) -> int:
        answer = answer_of(device, code)
        found = (_judged(name, kind, answer, given, dice) for name, kind in by if answer)
        return sum(isinstance(one, Suggestion) for one in found)

    tries = [partial(carriers, by=by) for by in (taught, kinds) if by]
    drawn = (_drawn(device, given, dice, accept) for accept in (*tries, None))
    few = next((codes for codes in drawn if codes), None)
    if few is None:
        return tuple(faces[0] for faces in device.positions)
    return max(few, key=partial(carriers, by=kinds))


def _drawn(
    device: Device, given: Given, dice: Dice, accept: Callable[[Code], int] | None
) -> list[Code]:
    """Return a few codes, each of which `accept` takes; fewer where there are not that many."""
    words = words_for(device, given.language)
    draws = DRAWS if words is None else 1  # a word is found by looking through all of them
    good = None if accept is None else (lambda code: accept(code) > 0)
    codes = (entry(device).draw(dice, device, good, words) for _ in range(draws))
    return [code for code in takewhile(lambda code: code is not None, codes) if code is not None]


def _spells(facts: Facts, alphabet: str | None) -> bool:
    return not facts.own and any(one.alphabet == alphabet for one in facts.answers)


# Which kinds will do


def _judged(
    name: str, kind: Kind, answer: Answer, given: Given, dice: Dice
) -> Suggestion | LeftOut:
    facts = kind.FACTS
    if facts.own:
        return LeftOut(name, say("suggest.own"))
    if not facts.carries(answer):
        return LeftOut(name, say("suggest.cannot-carry"))
    if given.ages[0] < facts.ages[0]:
        return LeftOut(name, say("suggest.too-young", age=facts.ages[0]))
    own = content_for(facts, given.content)
    mine = replace(given, content=own)
    options, problem = options_for(name, kind, answer, mine, dice)
    if problem is not None:
        of_rows = problem.where.file != ""
        return LeftOut(name, problem.what, problem.remedy if of_rows else None)
    request = Request(name, answer, options, mine)
    return Suggestion(kind, request, tuple(_why(facts, own)), bool(own.tables))


def _why(facts: Facts, content: Content) -> Iterator[Message]:
    """Yield why a sheet is a good one: what pupils do, how long, with what, and whose facts."""
    doing = tuple(say(f"suggest.skill-{skill}") for skill in sorted(facts.skill))
    yield say("suggest.doing", doing=doing)
    low, high = facts.band_minutes
    uses = tuple(say(f"suggest.use-{use}") for use in sorted(facts.uses))
    yield say("suggest.takes", low=low, high=high, uses=uses)
    if content.tables:
        yield say("suggest.from-lesson")


# Which of them go well together


def _different(
    found: list[Suggestion], ages: tuple[int, int], sure: Suggestion | None
) -> Iterator[Suggestion]:
    """Yield up to three: the lesson's first, then whatever is least like those before."""
    left, chosen = list(found), list[Suggestion]()
    while left and len(chosen) < MOST:
        best = min(left, key=lambda one: (one is not sure, *_rank(one, chosen, ages)))
        left.remove(best)
        chosen.append(best)
    yield from sorted(chosen, key=lambda one: not one.from_lesson)


def _rank(
    one: Suggestion, chosen: list[Suggestion], ages: tuple[int, int]
) -> tuple[bool, int, bool, int]:
    facts = one.kind.FACTS
    alike = sum(len(_does(facts) & _does(other.kind.FACTS)) for other in chosen)
    too_old = ages[1] > facts.ages[1]
    return (not one.from_lesson, alike, too_old, len(facts.uses))


def _does(facts: Facts) -> frozenset[str]:
    return facts.skill | (facts.uses - {"pencil"})

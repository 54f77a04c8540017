"""What a teacher may wish of a field of pictures, and why a wish cannot be had."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import BaseModel, Field

from boxwright.problems import Path, Problem, Where, say
from boxwright.puzzles.contract import PICTURES, Answer, Facts, Given
from boxwright.puzzles.picture_field import LEAST_SIZE, MOST_PICTURES
from boxwright.puzzles.shelf import shelf
from boxwright.text import nearest

MOST_RATIO = 4.0  # of a picture's longer side to its shorter one
NOUGHT = "0"


class Wishes(BaseModel, frozen=True, extra="forbid", strict=True):
    """How many pictures lie in the field, of which family, or which of the teacher's own.

    Without a number it follows from the code and the level. `own` are names of files in
    the folder pictures/.
    """

    pictures: Annotated[int, Field(ge=2, le=MOST_PICTURES)] | None = None
    family: Literal["auto", "balloons", "beetles", "flowers"] = "auto"
    own: tuple[str, ...] = Field(default=(), json_schema_extra=PICTURES)


def digits_refused(kind: str, facts: Facts, answer: Answer) -> Problem | None:
    """Refuse what is not carried; a nought in so many words, for it is the likeliest."""
    if facts.carries(answer):
        return None
    numbers = facts.answers[0]
    plain = answer.alphabet == "digits" and len(answer.symbols) <= numbers.longest
    others = tuple(name for name in shelf().carriers(answer) if name != kind)
    if not (plain and NOUGHT in answer.symbols and others):
        return shelf().cannot_carry(kind, answer)
    where = Where("", ("kind",))
    return Problem.of(
        "drawn.nought", where, kind=kind, answer=" ".join(answer.symbols), choices=others
    )


def wishes_refused(wishes: Wishes, given: Given, digits: int, least: int) -> Problem | None:
    """Return the first wish that cannot be had for a code of `digits`.

    `least` is the number of pictures without which the code cannot be shown.
    """
    return next(_refused(wishes, given, digits, least), None)


def _refused(wishes: Wishes, given: Given, digits: int, least: int) -> Iterator[Problem]:
    if wishes.own:
        yield from _own_refused(wishes, given, digits)
    if wishes.pictures is not None and wishes.pictures < least:
        yield Problem.of("drawn.pictures-few", _at("pictures"), found=wishes.pictures, least=least)


def _own_refused(wishes: Wishes, given: Given, digits: int) -> Iterator[Problem]:
    if wishes.family != "auto":
        yield Problem.of("drawn.own-and-family", _at("family"), family=wishes.family)
    for at, name in enumerate(wishes.own):
        if name not in given.pictures:
            yield _unknown(at, name, tuple(given.pictures))
        elif (ratio := _ratio(*given.pictures[name])) > MOST_RATIO:
            yield Problem.of(
                "drawn.own-long", _at("own", at), name=name, found=int(ratio), most=int(MOST_RATIO)
            )
    twice = tuple(name for name, count in Counter(wishes.own).items() if count > 1)
    if twice:
        yield Problem.of("drawn.own-twice", _at("own"), names=twice)
    least = max(2, digits)
    if len(wishes.own) < least:
        yield Problem.of("drawn.own-few", _at("own"), found=len(wishes.own), least=least)


def _unknown(at: int, name: str, known: tuple[str, ...]) -> Problem:
    near = nearest(name, known)
    if not known:
        return Problem.of("drawn.own-none", _at("own", at), name=name)
    instead = say("drawn.near", name=near) if near else say("drawn.one-of", choices=known)
    return Problem.of("drawn.own-unknown", _at("own", at), name=name, instead=instead)


def _ratio(width: float, height: float) -> float:
    return max(width, height) / max(min(width, height), 1e-9)


def _at(*path: str | int) -> Where:
    steps: Path = ("options", *path)
    return Where("", steps)


assert LEAST_SIZE / MOST_RATIO**0.5 >= 6, "the shorter side of a picture must stay readable"

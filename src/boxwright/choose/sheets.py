"""One sheet for one answer: asked of a kind, made, and proven before anyone sees it.

A kind knows no files. `At` turns its paths ("options", "ground") into places of the
file that asked, so that every complaint has its line.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from itertools import islice
from typing import Any, TypeAlias

from pydantic import BaseModel, ValidationError

from boxwright.dice import Dice
from boxwright.frozen import frozen_value
from boxwright.game.union_faults import frozen
from boxwright.problems import Path, Problem, Refused, Where
from boxwright.puzzles.contract import Answer, Given, Kind, Solution
from boxwright.puzzles.shelf import kind as kind_named

At: TypeAlias = Callable[[Path], Where]


class MakerError(Exception):
    """A kind made a sheet that does not lead to its answer, and to it alone: our own fault."""


@frozen_value
class Request:
    """What a sheet is wanted for: its kind and options as read, its answer, what is given."""

    kind: str
    answer: Answer
    options: Mapping[str, Any]
    given: Given


@frozen_value
class MadeSheet:
    """A sheet with what it knows, and the one solution that its solver found."""

    kind: Kind
    sheet: Any
    knows: Any
    solution: Solution


def placed(problem: Problem, at: At) -> Problem:
    """Return a kind's problem at its place in the file that asked.

    What is about a row of the teacher's table has its place already.
    """
    edit = problem.edit
    if edit is not None:
        where = at(edit.path)
        edit = replace(edit, file=where.file, path=where.path)
    where = problem.where if problem.where.file else at(problem.where.path)
    return replace(problem, where=where, edit=edit)


def kind_at(name: str, at: At) -> Kind:
    """Return the kind `name`; raises Refused, in its place, where there is none."""
    try:
        return kind_named(name)
    except Refused as refused:
        raise Refused([placed(one, at) for one in refused.problems]) from None


def read_options(kind: Kind, raw: Mapping[str, Any], at: At) -> BaseModel:
    """Return the options that a file gives for `kind`; raises Refused with what is wrong."""
    try:
        return kind.Options.model_validate(frozen(raw))
    except ValidationError as error:
        faults = _option_faults(error, kind, raw)
        raise Refused(
            [placed(one, lambda path: at(("options", *path))) for one in faults]
        ) from None


def _option_faults(error: ValidationError, kind: Kind, raw: Mapping[str, Any]) -> Iterator[Problem]:
    """Yield what is wrong with options, each with its path in them."""
    # Late: most options are right.
    from boxwright.game.faults import problems_of
    from boxwright.game.toml_file import TomlFile
    from boxwright.game.toml_where import Outline

    options = TomlFile("options", "", raw, Outline({}, (), {}))
    for one in problems_of(error, options, kind.Options):
        yield replace(one, where=Where("", one.where.path))


def make_sheet(request: Request, dice: Dice, at: At) -> MadeSheet:
    """Make a sheet that leads to its answer and to nothing else.

    Raises Refused where the kind, its options or the answer cannot be had.
    """
    kind = kind_at(request.kind, at)
    options = read_options(kind, request.options, at)
    problem = kind.refuse(request.answer, options, request.given)
    if problem is not None:
        raise Refused([placed(problem, at)])
    sheet, knows = kind.make(request.answer, options, request.given, dice)
    return MadeSheet(kind, sheet, knows, proven(kind, sheet, knows, request.answer))


def proven(kind: Kind, sheet: Any, knows: Any, answer: Answer) -> Solution:
    """Return the one solution of `sheet`; raises MakerError if it is not `answer` alone."""
    found = list(islice(kind.solve(sheet, knows), 2))
    if [solution.answer for solution in found] != [answer]:
        raise MakerError(f"a sheet made for {answer} solves as {found}")
    return found[0]

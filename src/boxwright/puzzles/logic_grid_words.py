"""What a sheet of statements says: a whole sentence for each form, never put together.

In a scene of our own there is a message for each form and each sort of category; in the
teacher's own, whose words may be anything, one for each form that sets them in quotes.
"""

from __future__ import annotations

from collections.abc import Mapping

from boxwright.problems import Arg, Message, say
from boxwright.puzzles.logic_grid_forms import COMPARES, Item, Puzzle, Statement
from boxwright.puzzles.logic_grid_scenes import TAGS

BLANKS = {"is": "ab", "not": "ab", "either": "abc", "neither": "abc", "pair": "abxy"}


def label(puzzle: Puzzle, item: Item) -> Arg:
    """Return what a thing is called: a message in our own scenes, the teacher's word else.

    The template refuses a thing that is in no list; here it has no name.
    """
    category, at = item
    members = puzzle.categories[category].members if category < len(puzzle.categories) else ()
    if at >= len(members):
        return ""
    member = members[at]
    return member if puzzle.scene == "own" else Message(member)


def sentence(puzzle: Puzzle, statement: Statement) -> Message:
    """Return a statement in words."""
    blanks = BLANKS.get(statement.form, "ab")
    said = {
        blank: label(puzzle, item) for blank, item in zip(blanks, statement.items, strict=False)
    }
    form = f"by-{statement.by}" if statement.form == "by" else statement.form
    if puzzle.scene != "own":
        return Message(f"logic-grid.{form}-{_tags(statement)}", said)
    if statement.form in COMPARES:
        said["order"] = next((one.name for one in puzzle.categories if one.ordered), "")
    return Message(f"logic-grid.{form}-own", said)


def _tags(statement: Statement) -> str:
    tags = [TAGS[min(category, len(TAGS) - 1)] for category, _ in statement.items]
    if statement.form in ("either", "neither"):
        tags = tags[:2]
    if statement.form == "pair":
        tags = tags[1:]
    return "-".join(tags)


def mark(number: int) -> str:
    """Return the sign that stands before a statement: a, b, c and so on."""
    return chr(ord("a") + number)


def page_words(puzzle: Puzzle) -> Mapping[str, Message]:
    """Return all that the template prints, by the names that it asks for."""
    said = {"how": _how(puzzle), "find": say(f"logic-grid.find-{puzzle.sort}")}
    for number, statement in enumerate(puzzle.statements):
        said[f"statement-{number}"] = sentence(puzzle, statement)
    for category, one in enumerate(puzzle.categories):
        for member in range(len(one.members)):
            name = label(puzzle, (category, member))
            said[f"member-{category}-{member}"] = say("logic-grid.label", name=name)
    short = shorts(puzzle)
    if short:
        legend = tuple(
            say("logic-grid.legend-entry", short=s, face=f) for f, s in sorted(short.items())
        )
        said["legend"] = say("logic-grid.legend", entries=legend)
        for row, faces in enumerate(puzzle.figures):
            for column, face in enumerate(faces):
                said[f"short-{row}-{column}"] = say("logic-grid.label", name=short[face])
    return said


def _how(puzzle: Puzzle) -> Message:
    if puzzle.scene != "own":
        return say("logic-grid.how", scene=say(f"logic-grid.about-{puzzle.scene}"))
    names = tuple(
        say("logic-grid.in-order" if category.ordered else "logic-grid.label", name=category.name)
        for category in puzzle.categories
    )
    return say("logic-grid.how", scene=say("logic-grid.about-own", names=names))


def shorts(puzzle: Puzzle) -> dict[str, str]:
    """Return for each face on the sheet the few letters that stand for it in a square."""
    if puzzle.sort != "faces":
        return {}
    faces = sorted({face for row in puzzle.figures for face in row})
    for length in (1, 2):
        cut = [face[:length] for face in faces]
        if len(set(cut)) == len(faces):
            return dict(zip(faces, cut, strict=True))
    return {face: mark(at).upper() for at, face in enumerate(faces)}

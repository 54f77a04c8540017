"""The working in words, and the hints that come out of it."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.problems import Message, Path, say
from boxwright.puzzles.contract import Step
from boxwright.puzzles.logic_grid_cells import Cells, cells
from boxwright.puzzles.logic_grid_forms import Item, Puzzle
from boxwright.puzzles.logic_grid_words import label, mark
from boxwright.puzzles.logic_grid_working import Find, Working, work


def steps_of(puzzle: Puzzle, figures: tuple[str, ...]) -> tuple[Step, ...]:
    """Return the working as steps that name statements, and last the figures to read."""
    grid = cells(len(puzzle.categories), len(puzzle.categories[0].members))
    working = work(puzzle)
    steps = [Step(_says(puzzle, grid, find), tuple(_paths(find))) for find in working.finds]
    if not working.done:
        steps.append(Step(say("logic-grid.step-left-open")))
    return (*steps, Step(say("logic-grid.step-read", figures=figures), (("sheet", "order"),)))


def _says(puzzle: Puzzle, grid: Cells, find: Find) -> Message:
    ticks = _squares(puzzle, grid, find.ticks)
    crosses = _squares(puzzle, grid, find.crosses)
    if find.how == "statement":
        sign = mark(find.statement)
        if ticks and crosses:
            return say("logic-grid.step-both", mark=sign, ticks=ticks, crosses=crosses)
        if ticks:
            return say("logic-grid.step-ticks", mark=sign, ticks=ticks)
        return say("logic-grid.step-crosses", mark=sign, crosses=crosses)
    about = [label(puzzle, item) for item in find.about]
    if find.how == "only":
        return say("logic-grid.step-only", a=about[0], ticks=ticks)
    return Message(
        f"logic-grid.step-{find.how}", {"a": about[0], "b": about[1], "crosses": crosses}
    )


def _squares(puzzle: Puzzle, grid: Cells, mask: int) -> tuple[Message, ...]:
    return tuple(_square(puzzle, *grid.items(square)) for square in grid.squares(mask))


def _square(puzzle: Puzzle, a: Item, b: Item) -> Message:
    return say("logic-grid.square", a=label(puzzle, a), b=label(puzzle, b))


def _paths(find: Find) -> Iterator[Path]:
    if find.how == "statement":
        yield ("sheet", "statements", find.statement)
    for category, member in find.about:
        yield ("sheet", "categories", category, "members", member)


def hints_of(puzzle: Puzzle) -> tuple[Message, Message, Message]:
    """Name a way to begin, the statement to begin with, and the first tick that is a find."""
    grid = cells(len(puzzle.categories), len(puzzle.categories[0].members))
    working = work(puzzle)
    find = _first_tick(working)
    chain = sorted(_chain(working, find))
    used = list(dict.fromkeys(s for at in chain if (s := working.finds[at].statement) >= 0))
    used = used or [0]
    square = next(grid.squares(find.ticks or find.crosses))
    a, b = grid.items(square)
    third = "logic-grid.hint-tick" if find.ticks else "logic-grid.hint-cross"
    return (
        say("logic-grid.hint-begin"),
        say("logic-grid.hint-statement", mark=mark(used[0])),
        Message(
            third,
            {
                "n": len(used),
                "marks": tuple(map(mark, sorted(used))),
                "a": label(puzzle, a),
                "b": label(puzzle, b),
            },
        ),
    )


def _first_tick(working: Working) -> Find:
    """Return the first tick that two finds or more lead to, else the first, else any find."""
    ticks = [find for find in working.finds if find.ticks]
    deep = [find for find in ticks if len(_chain(working, find)) > 2]
    return next(iter(deep or ticks or working.finds))


def _chain(working: Working, find: Find) -> set[int]:
    """Return the numbers of all finds that `find` rests on, and its own."""
    waiting, found = [working.finds.index(find)], set[int]()
    while waiting:
        at = waiting.pop()
        if at not in found:
            found.add(at)
            waiting += working.finds[at].needs
    return found

"""The teacher's categories: read from the table, and what is wrong with them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from boxwright.content.tables import Table
from boxwright.dice import Dice
from boxwright.problems import Problem, Where
from boxwright.puzzles.contract import Answer, Given
from boxwright.puzzles.logic_grid_forms import Category

FEWEST_MEMBERS = 3
CATEGORIES = 3
MORE_CATEGORIES = 4  # only where three members each, of short names, leave room on the paper
SHORT = 9
LONGEST: Mapping[int, int] = {3: 14, 4: 12, 5: 9}
"""Signs of a name or a member, by how many members there are: large print must have room."""


def table_of(given: Given) -> Table | None:
    """Return the teacher's table, if there is one."""
    return given.content.tables.get("categories")


def by_category(table: Table) -> dict[str, list[str]]:
    """Return the members of each category, both in the order of the file."""
    found: dict[str, list[str]] = {}
    for row in table.rows:
        found.setdefault(row["category"], []).append(row["member"])
    return found


def least_size(answer: Answer) -> int:
    """Return how many members each category must have at least."""
    return max(FEWEST_MEMBERS, len(answer.symbols))


def faults(table: Table, ordered: str, answer: Answer) -> Iterator[Problem]:
    """Yield what is wrong with a table for this answer, the first to be mended first."""
    found, least = by_category(table), least_size(answer)
    yield from _row_faults(table, LONGEST[least])
    if ordered and ordered not in found:
        where = Where("", ("options", "ordered"))
        yield Problem.of("logic-grid.no-such-order", where, name=ordered, choices=tuple(found))
    rich = [name for name, members in found.items() if len(members) >= least]
    if len(rich) < CATEGORIES:
        where = Where(table.file, ())
        yield Problem.of(
            "logic-grid.too-few",
            where,
            need=CATEGORIES,
            least=least,
            found=tuple(f"{name}: {len(members)}" for name, members in found.items()),
            length=len(answer.symbols),
        )
    elif ordered in found and ordered not in rich:
        where = Where(table.file, ())
        yield Problem.of("logic-grid.short-order", where, name=ordered, least=least)


def _row_faults(table: Table, longest: int) -> Iterator[Problem]:
    seen: dict[str, int] = {}
    lines = table.lines or tuple(range(2, len(table.rows) + 2))
    for row, line in zip(table.rows, lines, strict=True):
        category, member = row["category"], row["member"]
        where = Where(table.file, (line, "member"), line)
        if not category or not member:
            yield Problem.of("logic-grid.empty-cell", where)
        elif member.casefold() in seen:
            yield Problem.of("logic-grid.twice", where, member=member, line=seen[member.casefold()])
        elif len(member) > longest:
            yield Problem.of(
                "logic-grid.long-member", where, member=member, most=longest, n=len(member)
            )
        elif len(category) > longest:
            yield Problem.of(
                "logic-grid.long-category", where, name=category, most=longest, n=len(category)
            )
        seen.setdefault(member.casefold(), line)


def size_for(table: Table, wanted: int, answer: Answer) -> int:
    """Return how many members to take: as wished, as far as rows and room for them go."""
    found = by_category(table)
    counts = sorted((len(members) for members in found.values()), reverse=True)
    longest = max(len(word) for name, members in found.items() for word in (name, *members))
    room = max(size for size, most in LONGEST.items() if size == FEWEST_MEMBERS or longest <= most)
    return max(least_size(answer), min(wanted, counts[CATEGORIES - 1], room))


def categories_from(table: Table, ordered: str, size: int, dice: Dice) -> tuple[Category, ...]:
    """Return categories with `size` members each, drawn from the table in its own order.

    The ordered one becomes the third, so that its members stand along the figures.
    """
    found = {name: m for name, m in by_category(table).items() if len(m) >= size}
    longest = max(len(member) for members in found.values() for member in members)
    more = size == FEWEST_MEMBERS and longest <= SHORT
    count = MORE_CATEGORIES if more else CATEGORIES
    free = [name for name in found if name != ordered]
    kept = dice.sample(free, min(len(free), count - (ordered in found)))
    names = [name for name in free if name in kept]
    if ordered in found:
        names.insert(2, ordered)
    return tuple(
        Category(name, _drawn(found[name], size, dice.child(name)), name == ordered)
        for name in names
    )


def _drawn(members: list[str], size: int, dice: Dice) -> tuple[str, ...]:
    kept = dice.sample(members, size)
    return tuple(member for member in members if member in kept)

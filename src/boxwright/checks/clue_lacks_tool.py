"""A puzzle that takes a torch, a mirror or a reader has one among what its clue needs.

Only what a clue `needs` is looked for on the shelf and packed; so a torch that is not
named there is missing in the room.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.reach import had
from boxwright.checks.remedies import change
from boxwright.choose.edition import Edition
from boxwright.problems import Count, Edit, Finding, Problem, Severity, say
from boxwright.puzzles.contract import Use
from boxwright.puzzles.shelf import kind

CODE = "clue.lacks-tool"
TOOLS: dict[Use, tuple[str, ...]] = {
    "torch": ("torch", "lamp", "light"),
    "mirror": ("mirror",),
    "scanner": ("scanner", "reader", "phone", "tablet", "camera"),
}
"""Words in a tool's id by which it is known for what a puzzle takes."""


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix for each torch that no clue names; a note for what schools have."""
    for id, clue in edition.game.clues.items():
        tools = [edition.game.items[item].tool or "" for item in clue.needs]
        room = about.folder.room
        tools += room.room.facilities if room is not None else ()
        for use, names in TOOLS.items():
            if use not in kind(clue.kind).FACTS.uses:
                continue
            if not any(name in tool for tool in tools for name in names):
                where, what = about.where(*clue.source.path), say(f"clue.tool-{use}")
                edit = _needing(edition, about, id, names)
                problem = Problem.of(CODE, where, edit=edit, clue=id, tool=what, example=names[0])
                severity: Severity = "fix" if use == "torch" else "note"
                yield Finding(problem, severity, "computed", Count(0, 1))


def _needing(edition: Edition, about: About, clue: str, names: tuple[str, ...]) -> Edit | None:
    """Return what lets a clue need the tool that the game has, if that is one and had in time."""
    items, one = edition.game.items.items(), edition.game.clues[clue]
    tools = [id for id, item in items if any(name in (item.tool or "") for name in names)]
    if len(tools) != 1 or about.folder.game.items[tools[0]].optional:
        return None
    in_time = tools[0] in had(edition, about, without=[clue])
    to = [*one.needs, *tools]
    return change(about, *one.source.path, "needs", to=to) if in_time else None

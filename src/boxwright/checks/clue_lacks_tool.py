"""A puzzle that takes a torch, a mirror or a reader has one among what its clue needs.

Only what a clue `needs` is looked for on the shelf and packed; so a torch that is not
named there is missing in the room.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.problems import Count, Finding, Problem, Severity, say
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
                problem = Problem.of(CODE, where, clue=id, tool=what, example=names[0])
                severity: Severity = "fix" if use == "torch" else "note"
                yield Finding(problem, severity, "computed", Count(0, 1))

"""Every page of the studio, in the order of a teacher's work: its stem, and where it lives.

A page is one stem: `pages/STEM.py` with a `router`, `templates/STEM.html`, and where it
needs them `static/STEM.js` and `static/STEM.css`. Pages that are `linked` stand in a game's own
row of links, in that order.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from importlib import import_module

from fastapi import APIRouter

GAME = "/games/{game}"


@dataclass(frozen=True, slots=True)
class Entry:
    """One page: its stem, its address, and whether it stands in a game's row of links."""

    stem: str
    path: str
    linked: bool = False

    @property
    def router(self) -> APIRouter:
        """What answers there."""
        found: APIRouter = import_module(f"boxwright.web.pages.{self.stem}").router
        return found


CONTENTS: tuple[Entry, ...] = (
    Entry("lock_in_hand", ""),
    Entry("planted", "/example"),
    Entry("games", "/games"),
    Entry("locks", "/locks"),
    Entry("boxes", f"{GAME}/boxes", linked=True),
    Entry("clues", f"{GAME}/clues", linked=True),
    Entry("story", f"{GAME}/story", linked=True),
    Entry("times", f"{GAME}/times", linked=True),
    Entry("kit", f"{GAME}/kit", linked=True),
    Entry("room", f"{GAME}/room", linked=True),
    Entry("content", f"{GAME}/content", linked=True),
    Entry("fix", f"{GAME}/fix", linked=True),
    Entry("print_outs", f"{GAME}/print-outs", linked=True),
    Entry("set_up", f"{GAME}/set-up", linked=True),
    Entry("hour", f"{GAME}/hour", linked=True),
    Entry("wall", f"{GAME}/wall"),
    Entry("after", f"{GAME}/after"),
)


def of_a_game() -> Iterator[Entry]:
    """Yield the pages in a game's row of links."""
    return (entry for entry in CONTENTS if entry.linked)

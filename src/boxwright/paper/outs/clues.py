"""What the teacher's papers tell of a clue: its pages, its answer, what it opens, its hints."""

from __future__ import annotations

from boxwright.paper.outs.printing import Printing
from boxwright.paper.page import Page, page_for
from boxwright.paper.solved import Solved
from boxwright.problems import say
from boxwright.puzzles.contract import Reader, Solution


def part_pages(printing: Printing, clue: str, reader: Reader = "pupils") -> tuple[Page, ...]:
    """Return a page for each part of a clue's sheet that is there for `reader`."""
    made, sheet, _ = printing.sheet(clue)
    return tuple(
        part_page(printing, clue, part.name)
        for part in made.FACTS.parts
        if part.reader == reader and getattr(sheet, part.name.replace("-", "_")) is not None
    )


def part_page(printing: Printing, clue: str, part: str) -> Page:
    """Return the page of one part of a clue's sheet."""
    return printing.once(("page", clue, part), lambda: _part_page(printing, clue, part))


def _part_page(printing: Printing, clue: str, part: str) -> Page:
    edition = printing.edition
    made, sheet, _ = printing.sheet(clue)
    return page_for(
        made,
        sheet,
        part,
        title=edition.game.title,
        lang=edition.game.language,
        mark=edition.mark(clue),
        where=edition.game.clues[clue].source,
        folder=printing.folder,
    )


def solved(printing: Printing, clue: str) -> Solved:
    """Return a clue's sheet with its solution."""
    device = printing.devices.get(printing.edition.game.clues[clue].gives)
    solution = printing.solution(clue)
    return Solved(*printing.sheet(clue), solution, printing.language, device)


def opens(printing: Printing, clue: str) -> str:
    """Say what a clue's answer opens or where it leads."""
    game, gives = printing.edition.game, printing.edition.game.clues[clue].gives
    lock = game.locks.get(gives)
    if lock is None:
        leads = printing.place(gives) if gives not in game.items else game.name_of(gives)
        return printing.text("printout.leads", thing=leads)
    named = say(f"mechanism.name-{lock.mechanism}")
    tags, box = printing.stickers(gives), game.name_of(lock.closes)
    if not tags:
        return printing.text("printout.opens-bare", lock=named, box=box)
    return printing.text("printout.opens", lock=named, tags=tags, box=box)


def lies(printing: Printing, clue: str) -> str:
    """Say where a clue's parts lie."""
    kept = printing.edition.sheets[clue]
    places = dict.fromkeys(printing.place(place) for place in kept.parts.values())
    return printing.text("printout.all", all=tuple(places))


def answer(printing: Printing, clue: str, solution: Solution | None) -> str:
    """Return a clue's answer in writing: the lock's code, else what the sheet says."""
    written = printing.written(printing.edition.game.clues[clue].gives)
    if written is not None:
        return written
    return solved(printing, clue).spelled(solution.answer) if solution is not None else ""


def hints(printing: Printing, clue: str) -> tuple[str, ...]:
    """Return a clue's three hints: the game's own, else the kind's from this very sheet."""
    own = printing.edition.game.clues[clue].hints
    if own is not None:
        return own
    return printing.once(("hints", clue), solved(printing, clue).hints)

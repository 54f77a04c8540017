"""What the teacher's papers tell of a clue: its sheet drawn small, its answer, hints, mistakes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import islice
from typing import Any

from boxwright.game.mechanisms import entry
from boxwright.paper.outs.lines import sentence
from boxwright.paper.outs.printing import Printing
from boxwright.paper.page import Page, page_for
from boxwright.problems import Message, say
from boxwright.puzzles.contract import Answer, Reader, Solution

MOST_STEPS = 6
MOST_MISTAKES = 4


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


def drawing(page: Page, printing: Printing, solved: Mapping[str, Any] | None) -> dict[str, Any]:
    """Return a sheet's page as `key.typ` draws it small, with its answer on it."""
    look = printing.sheets_look
    data = page.data()
    kept = {name: data[name] for name in ("template", "part", "sheet", "words", "title", "alt")}
    size = {"size": look.size, "width": look.body.width, "height": look.body.height}
    return kept | size | {"solved": solved}


def solved_by(printing: Printing, clue: str, solution: Solution | None) -> Mapping[str, Any] | None:
    """Return what a kind's template needs to draw the answer; None where it draws none."""
    made, sheet, knows = printing.sheet(clue)
    ask = getattr(made, "solved", None)
    return ask(sheet, knows, solution) if ask and solution is not None else None


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
    return spelled(printing, clue, solution.answer) if solution is not None else ""


def spelled(printing: Printing, clue: str, found: Answer) -> str:
    """Return an answer in writing, as the clue's lock writes it."""
    device = printing.devices.get(printing.edition.game.clues[clue].gives)
    if device is not None:
        return entry(device).write(device, found.symbols)
    return ("" if all(len(symbol) == 1 for symbol in found.symbols) else " ").join(found.symbols)


def working(printing: Printing, solution: Solution | None, most: int = MOST_STEPS) -> list[str]:
    """Return the steps of a working in words, `most` lines: a long one without its middle."""
    if solution is None:
        return [printing.text("printout.no-working")]
    steps = [printing.said(step.says) for step in solution.working]
    if len(steps) <= most:
        return steps
    left = len(steps) - most + 1
    more = printing.text("printout.more-steps", n=left)
    return [*steps[: most - 2], more, steps[-1]]


def hints(printing: Printing, clue: str, solution: Solution | None) -> tuple[str, ...]:
    """Return a clue's three hints: the game's own, else the kind's from this very sheet."""
    own = printing.edition.game.clues[clue].hints
    if own is not None:
        return own
    if solution is None:
        return ()
    made, sheet, knows = printing.sheet(clue)
    return tuple(sentence(printing.said(hint)) for hint in made.hints(sheet, knows, solution))


def mistakes(
    printing: Printing, clue: str, solution: Solution | None
) -> Iterator[tuple[str, Message]]:
    """Yield the usual wrong answers of a sheet, each with what it means."""
    if solution is not None:
        made, sheet, knows = printing.sheet(clue)
        for one in islice(made.mistakes(sheet, knows, solution), MOST_MISTAKES):
            yield spelled(printing, clue, one.answer), one.means

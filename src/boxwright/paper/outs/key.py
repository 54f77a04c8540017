"""The teacher's key: all codes at a glance, then each clue on half a sheet, in opening order."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from boxwright.messages import words
from boxwright.paper.outs import clues
from boxwright.paper.outs.lines import sentence
from boxwright.paper.outs.printing import Printing
from boxwright.paper.page import Page
from boxwright.paper.solved import drawing
from boxwright.problems import say
from boxwright.puzzles.contract import Reader

READER: Reader = "teacher"
ORDER = 9
HEADS = ("mark", "lies", "opens", "code")
PARTS = ("working", "hints", "mistakes")


def pages(printing: Printing) -> Iterator[Page]:
    """Yield the key, as one page that flows."""
    if not printing.order:
        return
    small = {clue: clues.part_pages(printing, clue) for clue in printing.order}
    entries = [_entry(printing, at, clue, small[clue]) for at, clue in enumerate(printing.order, 1)]
    drawn = [page for found in small.values() for page in found]
    labels = {head: printing.text(f"printout.head-{head}") for head in HEADS}
    labels |= part_labels(printing.language) | {"how": printing.text("printout.key-how")}
    yield printing.page(
        "key",
        title=printing.text("printout.key-title", title=printing.edition.game.title),
        alt=printing.text("card.code-alt"),
        sheet={"entries": entries, "printing": printing.edition.printing},
        labels=labels,
        prints=[text for one in entries for text in _texts(one) if text],
        reader=READER,
        flows=True,
        uses=tuple(dict.fromkeys(page.template for page in drawn)),
        may_scan=tuple(code for page in drawn for code in page.codes),
        files={name: file for page in drawn for name, file in page.files.items()},
    )


def part_labels(language: str) -> dict[str, str]:
    """Return the headings of what is told of a clue beside its sheet."""
    return {part: words(say(f"printout.key-{part}"), language) for part in PARTS}


def _entry(printing: Printing, number: int, clue: str, small: tuple[Page, ...]) -> dict[str, Any]:
    solved = clues.solved(printing, clue)
    on_paper, look = solved.on_paper(), printing.sheets_look
    gives = printing.edition.game.clues[clue].gives
    return {
        "title": printing.text("printout.key-clue", number=number, clue=clue),
        "mark": printing.edition.sheets[clue].mark,
        "lies": sentence(clues.lies(printing, clue)),
        "opens": sentence(clues.opens(printing, clue)),
        "answer": clues.answer(printing, clue, solved.solution),
        "code": printing.picture(gives) if gives in printing.edition.codes else None,
        "drawings": [drawing(page, look, on_paper) for page in small],
        "working": solved.working(),
        "hints": clues.hints(printing, clue),
        "mistakes": solved.mistake_lines(),
    }


def _texts(entry: dict[str, Any]) -> Iterator[str]:
    """Yield what must be read of an entry; what the overview says too, twice."""
    yield entry["title"]
    for name in ("lies", "opens", "answer"):
        yield from (entry[name], entry[name])
    for part in PARTS:
        yield from entry[part]

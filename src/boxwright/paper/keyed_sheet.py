"""One sheet with its key: the pupils' pages, then a page for the teacher, as one file."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from boxwright.choose.marks import NO_SHEET, Mark
from boxwright.choose.sheets import MadeSheet
from boxwright.frozen import frozen_value
from boxwright.game.mechanisms import Code, Device
from boxwright.messages import words
from boxwright.paper.frame import Look
from boxwright.paper.lock_pictures import with_code
from boxwright.paper.outs.key import PARTS, part_labels
from boxwright.paper.page import Page, page_for
from boxwright.paper.press import pressed
from boxwright.paper.render import render
from boxwright.paper.solved import Solved, drawing
from boxwright.problems import Arg, say

KEY = Path(__file__).parent / "outs" / "key.typ"


@frozen_value
class Keyed:
    """A sheet made for one lock's code, under its title; `code` is None for a lock with a key.

    `about` is a line on the key that says for whom the sheet was made.
    """

    made: MadeSheet
    mark: Mark
    title: str
    device: Device
    code: Code | None
    about: str

    def solved(self, language: str) -> Solved:
        """Return the sheet with its solution."""
        made = self.made
        return Solved(made.kind, made.sheet, made.knows, made.solution, language, self.device)

    def pages(self, look: Look) -> list[Page]:
        """Return the pages of all parts that are there: pupils', in unseen ink, the teacher's."""
        made = self.made
        parts = [one.name for one in made.kind.FACTS.parts]
        there = [one for one in parts if getattr(made.sheet, one.replace("-", "_")) is not None]
        return [
            page_for(made.kind, made.sheet, one, title=self.title, lang=look.lang, mark=self.mark)
            for one in there
        ]

    def key(self, look: Look) -> Page:
        """Return the teacher's page: the answer, how it is worked out, hints, usual mistakes."""
        pupils = [page for page in self.pages(look) if page.reader == "pupils"]
        solved = self.solved(look.lang)
        entry = self._entry(solved, pupils, look)
        told = (entry["title"], entry["opens"], entry["lies"], entry["answer"])
        lines = [line for part in PARTS for line in entry[part]]
        return Page(
            template=KEY,
            part="one-sheet",
            sheet={"entries": [entry]},
            words=part_labels(look.lang) | {"teacher": words(say("paper.teacher"), look.lang)},
            title=words(say("printout.key-title", title=self.title), look.lang),
            alt=words(say("card.code-alt"), look.lang),
            mark=Mark(self.mark.printing, NO_SHEET),
            reader="teacher",
            prints=(*told, *lines),
            flows=True,
            uses=tuple(dict.fromkeys(page.template for page in pupils)),
            may_scan=tuple(code for page in pupils for code in page.codes),
        )

    def _entry(self, solved: Solved, pupils: list[Page], look: Look) -> dict[str, Any]:
        def text(message_id: str, /, **args: Arg) -> str:
            return words(say(message_id, **args), look.lang)

        opens = "one-sheet.leads" if self.code is None else "one-sheet.opens"
        answer = solved.spelled(self.made.solution.answer)
        on_paper = solved.on_paper()
        return {
            "title": self.title,
            "mark": list(self.mark.sheet),
            "opens": text(opens, lock=say(f"mechanism.name-{self.device.mechanism}")),
            "lies": self.about,
            "answer": answer,
            "code": None if self.code is None else with_code(self.device, self.code),
            "drawings": [drawing(page, look, on_paper) for page in pupils],
            "working": solved.working(),
            "hints": list(solved.hints()),
            "mistakes": solved.mistake_lines(),
        }

    def pictures(self, look: Look) -> list[bytes]:
        """Return every page but the key as an SVG picture; raises Refused where one is too full."""
        return render(self.pages(look), look, "svg")

    def pdf(self, look: Look) -> bytes:
        """Return all pages and the key as one PDF, read back; raises Refused where it is wrong."""
        pages = [*self.pages(look), self.key(look)]
        return pressed(pages, look).pdf

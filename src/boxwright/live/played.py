"""The report of a session on paper: every table along the clock, and what was noted."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from boxwright.choose.edition import Edition
from boxwright.ledger.event import wall_here
from boxwright.live.clock import Instant
from boxwright.live.noted import State
from boxwright.live.report import Line, TableReport, report
from boxwright.live.telling import on_clock
from boxwright.live.timeline import timeline
from boxwright.messages import words
from boxwright.paper import outs
from boxwright.paper.frame import TEACHERS_SIZE, Look
from boxwright.paper.outs.lines import sentence
from boxwright.paper.page import Page
from boxwright.paper.press import pressed
from boxwright.problems import Arg, Message, say

TEMPLATE = Path(outs.__file__).parent / "played.typ"
MINUTE_S = 60


def played_pdf(state: State, editions: Mapping[str, Edition], when: str, now: Instant) -> bytes:
    """Return the report as it is `now` as PDF, read back; `when` it was played."""
    language = next(iter(editions.values())).game.language
    look = Look("a4", TEACHERS_SIZE, language)
    pages = [_Report(state, editions, language).page(when, now)]
    return pressed(pages, look).pdf


class _Report:
    """One session in one language."""

    def __init__(self, state: State, editions: Mapping[str, Edition], language: str) -> None:
        self.state, self.editions, self.language = state, editions, language
        self.whole = report(state, editions)
        self.line = timeline(state, self.whole)

    def text(self, message_id: str, /, **args: Arg) -> str:
        return self.said(say(message_id, **args))

    def said(self, message: Message) -> str:
        return words(message, self.language)

    def page(self, when: str, now: Instant) -> Page:
        whole = self.whole
        game = next(iter(self.editions.values())).game
        tables = [self.table(one) for one in whole.tables]
        if whole.all:
            told = [self.told(line) for line in whole.all]
            tables.append({"name": sentence(self.text("live.all")), "lines": told, "sums": ""})
        facts = self.facts(when, now)
        legend = [[sort, self.text(f"live.mark-{sort}")] for sort in self.line.sorts]
        sheet = {"facts": facts, "drawn": self.drawn(), "legend": legend, "tables": tables}
        return Page(
            template=TEMPLATE,
            part="played",
            sheet=sheet,
            words={"teacher": self.text("paper.teacher"), "minutes": self.text("live.minutes")},
            title=self.text("live.played-title", title=game.title),
            alt=self.text("live.drawn-alt"),
            prints=tuple(_prints(sheet)),
            reader="teacher",
            flows=True,
        )

    def facts(self, when: str, now: Instant) -> list[str]:
        clock = self.state.clock
        return [
            self.text("live.played-on", day=wall_here(when)),
            self.text(f"live.played-{self.state.purpose}"),
            self.text("live.played-planned", n=clock.planned_s // MINUTE_S),
            self.text("live.played-took", n=round(clock.played_s(now) / MINUTE_S)),
        ]

    def drawn(self) -> dict[str, Any]:
        share = self.line.share
        rows = [
            {
                "name": row.name,
                "won": None if row.won_s is None else share(row.won_s),
                "marks": [[share(mark.second), mark.sort] for mark in row.marks],
            }
            for row in self.line.rows
        ]
        figures = [[share(MINUTE_S * minute), str(minute)] for minute in self.line.figures]
        return {"rows": rows, "figures": figures}

    def table(self, one: TableReport) -> dict[str, Any]:
        took = (self.text("live.took", clue=id, minutes=n) for id, n in one.minutes.items())
        sums = [self.text("live.sums", hints=one.hints, wrong=one.wrong), *took]
        told = [self.told(line) for line in one.lines]
        return {"name": one.name, "lines": told, "sums": " ".join(sums)}

    def told(self, line: Line) -> list[str]:
        return [self.said(on_clock(1000 * line.second)), sentence(self.said(line.says))]


def _prints(sheet: Mapping[str, Any]) -> Iterator[str]:
    """Yield what must be read on the page."""
    yield from sheet["facts"]
    yield from (row["name"] for row in sheet["drawn"]["rows"])
    yield from (said for _, said in sheet["legend"])
    for table in sheet["tables"]:
        yield table["name"]
        yield from (text for line in table["lines"] for text in line)
        if table["sums"]:
            yield table["sums"]

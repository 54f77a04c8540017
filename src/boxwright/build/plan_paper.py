"""A forecast on paper: the verdict, every clue along the clock, and what would help.

It names no code, but it is the teacher's: a page for each edition, as a file or as a picture.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from boxwright.build.forecasting import Foreseen
from boxwright.build.plan_words import course, listed, verdict
from boxwright.forecast.drawn import Drawn, drawn
from boxwright.messages import words
from boxwright.paper import outs
from boxwright.paper.frame import TEACHERS_SIZE, Look, PaperName
from boxwright.paper.page import Page
from boxwright.paper.press import pressed
from boxwright.paper.render import draw
from boxwright.problems import say

TEMPLATE = Path(outs.__file__).parent / "time_plan.typ"
LABELS = ("holds-up", "hints", "finish", "minutes", "middle", "most", "play")


def plan_pdf(
    found: Sequence[Foreseen], title: str, target: float, language: str, paper: PaperName = "a4"
) -> bytes:
    """Return the plan of each edition as one PDF, read back."""
    look = Look(paper, TEACHERS_SIZE, language)
    pages = _pages(found, title, target, language)
    return pressed(pages, look).pdf


def plan_svgs(
    found: Sequence[Foreseen], title: str, target: float, language: str, paper: PaperName = "a4"
) -> list[bytes]:
    """Return the plan of each edition as a picture (SVG)."""
    look = Look(paper, TEACHERS_SIZE, language)
    return draw(_pages(found, title, target, language), look, "svg")


def _pages(found: Sequence[Foreseen], title: str, target: float, language: str) -> list[Page]:
    return [_page(one, title, target, language, alone=len(found) == 1) for one in found]


def _page(one: Foreseen, title: str, target: float, language: str, *, alone: bool) -> Page:
    def text(id: str, /, **args: Any) -> str:
        return words(say(id, **args), language)

    told = [words(message, language) for message in verdict(one)]
    lines = [words(message, language) for message in course(one)]
    lines += listed(one.proposals, target, language)
    lines.append(text("forecast.basis"))
    if not alone:
        told.insert(0, text("forecast.groups", groups=one.groups))
    picture = _picture(drawn(one.forecast))
    labels = {name: text(f"forecast.plan-{name}") for name in LABELS}
    return Page(
        template=TEMPLATE,
        part="plan",
        sheet={"verdict": told, "drawn": picture, "lines": lines},
        words={"teacher": text("paper.teacher"), **labels},
        title=text("forecast.plan-title", title=title),
        alt=text("forecast.plan-alt"),
        prints=tuple(_prints(told, lines, picture)),
        reader="teacher",
        flows=True,
    )


def _picture(plan: Drawn) -> dict[str, Any]:
    """Return the picture as the template takes it."""
    rows = [
        {
            "name": row.name,
            "bar": None
            if row.bar is None
            else [row.bar.may_from, row.bar.begins, row.bar.ends, row.bar.may_to],
            "holds_up": row.holds_up,
            "hints": f"{row.hints:.1f}",
        }
        for row in plan.rows
    ]
    figures = [[str(minute), at] for minute, at in plan.figures]
    return {"rows": rows, "play": plan.play, "finish": plan.finish, "figures": figures}


def _prints(told: list[str], lines: list[str], picture: dict[str, Any]) -> Iterator[str]:
    """Yield what must be read on the page."""
    yield from told
    yield from lines
    yield from (row["name"] for row in picture["rows"])

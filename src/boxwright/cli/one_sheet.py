"""One sheet on its own: made for a code typed at the command line, and printed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal

from boxwright.choose.answers import answer_of, answer_of_word
from boxwright.choose.marks import Mark, draw_triple
from boxwright.choose.sheets import At, MadeSheet, Request, kind_at, make_sheet
from boxwright.dice import Dice
from boxwright.game.mechanisms import device_of, parse_lock, read_code
from boxwright.messages import words
from boxwright.paper.frame import Look
from boxwright.paper.page import page_for
from boxwright.paper.readback import prove
from boxwright.paper.render import lay_out, render
from boxwright.problems import Problem, Where, refuse, say
from boxwright.puzzles.contract import Answer, Given


def made_sheet(
    *,
    kind: str,
    lock: str | None,
    code: str,
    level: Any,
    age: int,
    options: Mapping[str, Any],
    language: str,
    seed: int,
    title: str,
    at: At,
) -> tuple[MadeSheet, Mark]:
    """Return the sheet that was asked for, and its mark."""
    kind_at(kind, at)
    dice = Dice(seed)
    answer = _answer(lock, code)
    given = Given(ages=(age, age), language=language, level=level)
    made = make_sheet(Request(kind, answer, options, given), dice.child("sheet", kind), at)
    printing, sheet = draw_triple(dice.child("printing")), draw_triple(dice.child("mark", kind))
    return made, Mark(printing, sheet)


def _answer(lock: str | None, code: str) -> Answer:
    """Return what the sheet must lead to: a code of `lock`, or without one a word or number."""
    if lock is None:
        text = "".join(code.split())
        return Answer("digits", tuple(text)) if text.isdecimal() else answer_of_word(text)
    device = device_of(parse_lock(lock, Where("--lock")), Where("--lock"))
    read = read_code(device, code, Where("--code"))
    if isinstance(read, Problem):
        refuse(read)
    answer = answer_of(device, read)
    if answer is None:
        refuse(Problem.of("make.no-code", Where("--lock"), lock=lock))
    return answer


def printed(
    made: MadeSheet, mark: Mark, title: str, look: Look, form: Literal["pdf", "png", "svg"]
) -> list[bytes]:
    """Return the sheet's pages for pupils as one PDF, read back, or as a picture each."""
    title = title or words(say("make.title"), look.lang)
    parts = [part.name for part in made.kind.FACTS.parts if part.reader == "pupils"]
    pages = [
        page_for(made.kind, made.sheet, part, title=title, lang=look.lang, mark=mark)
        for part in parts
    ]
    if form != "pdf":
        return render(pages, look, form)
    pdf = lay_out(pages, look)
    prove(pdf, pages, look)
    return [pdf]

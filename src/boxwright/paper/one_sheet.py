"""One sheet on its own: made for a code typed at the command line, and printed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any, Literal

from boxwright.choose.answers import answer_of, answer_of_word
from boxwright.choose.marks import Mark, draw_triple
from boxwright.choose.sheets import At, MadeSheet, Request, kind_at, make_sheet
from boxwright.content.lesson import asked_of
from boxwright.content.tables import Content
from boxwright.dice import Dice
from boxwright.game.mechanisms import device_of, parse_lock, read_code
from boxwright.paper.frame import Look
from boxwright.paper.page import page_for
from boxwright.paper.press import pressed
from boxwright.paper.render import render
from boxwright.problems import Problem, Refused, Where, refuse
from boxwright.puzzles.contract import Answer, Given, Kind


def made_sheet(
    *,
    kind: str,
    lock: str | None,
    code: str,
    level: Any,
    ages: tuple[int, int],
    options: Mapping[str, Any],
    language: str,
    seed: int,
    content: Content,
    at: At,
) -> tuple[MadeSheet, Mark]:
    """Return the sheet that was asked for, and its mark."""
    options = dict(_in_case(kind_at(kind, at), options))
    dice = Dice(seed)
    answer = _answer(lock, code)
    given = Given(ages=ages, language=language, level=level, content=asked_of(content, language))
    made = make_sheet(Request(kind, answer, options, given), dice.child("sheet", kind), at)
    printing, sheet = draw_triple(dice.child("printing")), draw_triple(dice.child("mark", kind))
    return made, Mark(printing, sheet)


def own_content(file: Path | None, where: Where) -> Content:
    """Return the teacher's own table as what a sheet may draw on; nothing where none is named."""
    if file is None:
        return Content()
    from boxwright.content.read import read_alone  # late: few sheets have a table

    content = read_alone(file, where)
    if isinstance(content, tuple):
        raise Refused(content)
    return content


def _in_case(kind: Kind, options: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    """Yield options with a word of a choice as the kind spells it, whatever its capitals."""
    if not options:
        return  # a schema takes a while
    fields = kind.Options.model_json_schema().get("properties", {})
    for name, value in options.items():
        field = fields.get(name, {})
        ways = [field, *field.get("anyOf", ())]
        known = [word for way in ways for word in way.get("enum", ()) if isinstance(word, str)]
        spelt = {word.casefold(): word for word in known}
        yield name, spelt.get(value.casefold(), value) if isinstance(value, str) else value


def _answer(lock: str | None, code: str) -> Answer:
    """Return what the sheet must lead to: a code of `lock`, or without one a word or number."""
    if not code.strip():
        refuse(Problem.of("make.empty-code", Where("--code")))
    if lock is None:
        text = "".join(code.split())
        return (
            Answer("digits", tuple(text))
            if text.isascii() and text.isdecimal()
            else answer_of_word(text)
        )
    device = device_of(parse_lock(lock, Where("--lock")), Where("--lock"))
    read = read_code(device, code, Where("--code"))
    if isinstance(read, Problem):
        refuse(read)
    answer = answer_of(device, read)
    if answer is None:
        refuse(Problem.of("make.no-code", Where("--lock"), lock=lock))
    return answer


def printed(
    made: MadeSheet,
    mark: Mark,
    title: str,
    look: Look,
    form: Literal["pdf", "png", "svg"],
    where: Where,
) -> list[bytes]:
    """Return the sheet's pages for pupils as one PDF, read back, or as a picture each.

    Raises Refused where a page does not fit or is wrong, at `where` if no other place is known.
    """
    try:
        return _pages(made, mark, title, look, form)
    except Refused as refused:
        problems = (
            one if one.where.file else replace(one, where=where) for one in refused.problems
        )
        raise Refused(tuple(problems)) from None


def _pages(
    made: MadeSheet, mark: Mark, title: str, look: Look, form: Literal["pdf", "png", "svg"]
) -> list[bytes]:
    parts = [part.name for part in made.kind.FACTS.parts if part.reader == "pupils"]
    pages = [
        page_for(made.kind, made.sheet, part, title=title, lang=look.lang, mark=mark)
        for part in parts
    ]
    if form != "pdf":
        return render(pages, look, form)
    return [pressed(pages, look).pdf]

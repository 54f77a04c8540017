"""All that is printed for an edition: which pages, in which file, for whom."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from boxwright.choose.edition import Edition
from boxwright.game.folder import Folder
from boxwright.game.mechanisms import Device, entry
from boxwright.messages import words
from boxwright.paper.frame import Look
from boxwright.paper.page import Page, page_for
from boxwright.paper.readback import read_back
from boxwright.paper.render import render
from boxwright.problems import Refused, Where, say
from boxwright.puzzles.contract import Reader
from boxwright.puzzles.sheet_json import from_json
from boxwright.puzzles.shelf import kind

KEY = Path(__file__).with_name("key.typ")


@dataclass(frozen=True, slots=True)
class PrintOut:
    """One file, read back and found to say what it should."""

    name: str
    reader: Reader
    pages: int
    sheets: int
    pdf: bytes

    @property
    def sha256(self) -> str:
        """The digest of the file."""
        return hashlib.sha256(self.pdf).hexdigest()


def print_outs(
    folder: Folder, edition: Edition, devices: Mapping[str, Device], look: Look
) -> tuple[PrintOut, ...]:
    """Lay out, print and read back; raises Refused where a page does not fit or is wrong."""
    language = edition.game.language
    pupils = tuple(page for id in edition.sheets for page in sheet_pages(edition, id))
    return (
        _print(words(say("printout.sheets"), language), "pupils", pupils, look),
        _print(
            words(say("printout.key"), language),
            "teacher",
            [key_page(folder, edition, devices)],
            look,
        ),
    )


def _print(name: str, reader: Reader, pages: Any, look: Look) -> PrintOut:
    pages = tuple(pages)
    pdf = render(pages, look, title=name)
    problems = read_back(pdf, pages, look)
    if problems:
        raise Refused(problems)
    return PrintOut(name, reader, len(pages), len({page.mark for page in pages}), pdf)


def sheet_pages(edition: Edition, clue: str) -> Iterator[Page]:
    """Yield the pages of a clue's sheet that pupils get."""
    kept = edition.sheets[clue]
    made = kind(kept.kind)
    sheet: Any = from_json(made.Sheet, kept.sheet)
    for part in made.FACTS.parts:
        if part.reader == "pupils":
            yield page_for(
                made,
                sheet,
                part.name,
                title=edition.game.title,
                lang=edition.game.language,
                mark=edition.mark(clue),
                where=edition.game.clues[clue].source,
            )


def key_page(folder: Folder, edition: Edition, devices: Mapping[str, Device]) -> Page:
    """Return the teacher's key: each sheet by its signs, what it opens, and the code."""
    language = edition.game.language
    rows = [_key_row(folder, edition, devices, id) for id in edition.sheets]
    texts = [text for row in rows for text in (row["opens"], row["lies"], *row["code"])]
    heads = ("mark", "lies", "opens", "code")
    labels = {name: words(say(f"printout.head-{name}"), language) for name in heads}
    labels["teacher"] = words(say("paper.teacher"), language)
    labels["how"] = words(say("printout.key-how"), language)
    return Page(
        template=KEY,
        part="key",
        sheet={"rows": rows, "printing": list(edition.printing)},
        words=labels,
        title=words(say("printout.key-title", title=edition.game.title), language),
        alt=words(say("printout.key-alt"), language),
        reader="teacher",
        prints=tuple(texts),
        where=Where("game.toml"),
    )


def _key_row(
    folder: Folder, edition: Edition, devices: Mapping[str, Device], clue: str
) -> dict[str, Any]:
    game, language = edition.game, edition.game.language
    gives = game.clues[clue].gives
    place = next(iter(edition.sheets[clue].parts.values()))
    code: list[str] = []
    opens = game.name_of(gives)
    if gives in game.locks:
        device = devices[gives]
        mechanism = entry(device)
        code = [mechanism.write(device, edition.codes[gives])]
        about = {
            "lock": words(say(f"mechanism.name-{device.mechanism}"), language),
            "tag": edition.stickers.get(gives, gives),
            "box": game.name_of(game.locks[gives].closes),
        }
        opens = words(say("printout.opens", **about), language)
    return {
        "mark": list(edition.sheets[clue].mark),
        "lies": place_said(folder, edition, place),
        "opens": opens,
        "code": code,
    }


def place_said(folder: Folder, edition: Edition, place: str) -> str:
    """Return how a person calls a box or a place of the room."""
    language = edition.game.language
    if folder.room is not None and place in folder.room.places:
        return folder.room.places[place].name
    if place in ("start", "table"):
        return words(say(f"printout.place-{place}"), language)
    return edition.game.name_of(place)

"""A page to be printed, as a value: a template, its data, and what must be read on it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import field, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from boxwright.choose.marks import Mark
from boxwright.fonts import Faces, gate_all
from boxwright.frozen import frozen_value
from boxwright.messages import words as said
from boxwright.problems import Problem, Where, plain, say

if TYPE_CHECKING:
    from boxwright.game.folder import Folder
    from boxwright.puzzles.contract import Kind, Reader

NOWHERE = Where("")


@frozen_value
class Page:
    """One page: `template` (a .typ file with `draw`) draws `part` of `sheet`.

    `sheet` is JSON (dicts, lists, text, numbers); `words` are sentences in the reader's
    language, of which the page itself draws `group` (a line for the group's name) and
    `teacher` (on the edge strip). `alt` says what the picture shows. `prints` are texts
    besides title and words that must be read on the printed page, `codes` the contents
    of its bar codes, `files` pictures under the paths that the sheet calls
    them by: `pictures/NAME.png`, `.jpg` or `.svg`.
    `where` is what problems with this page are reported against.

    A page that `flows` takes as many sheets of paper as it needs; it must have a title, and
    every text of it must stand on one of them. Templates in `uses` can be called by it as
    `look.templates.NAME` (a file's stem); `may_scan` are bar codes that these may show.
    A `ruler` of 100 mm in the foot tells whether the printer scaled. Where a page `cuts`,
    thin lines may run as far as a printer reaches.
    """

    template: Path
    part: str
    sheet: Any
    words: Mapping[str, str]
    title: str
    alt: str
    mark: Mark | None = None
    reader: Reader = "pupils"
    prints: tuple[str, ...] = ()
    codes: tuple[str, ...] = ()
    files: Mapping[str, bytes] = field(default_factory=dict)
    where: Where = NOWHERE
    flows: bool = False
    uses: tuple[Path, ...] = ()
    may_scan: tuple[str, ...] = ()
    ruler: bool = False
    cuts: bool = False

    @property
    def texts(self) -> tuple[str, ...]:
        """All that must be read on the page."""
        return (self.title, *self.words.values(), *self.prints)

    def data(self) -> dict[str, Any]:
        """Return what `page.typ` needs, as JSON."""
        return {
            "template": self.template.stem,
            "part": self.part,
            "sheet": self.sheet,
            "words": dict(self.words),
            "title": self.title,
            "alt": self.alt,
            "mark": plain(self.mark),
            "reader": self.reader,
            "flows": self.flows,
            "ruler": self.ruler,
            "uses": bool(self.uses),
        }


def gated(page: Page, faces: Faces | None = None) -> tuple[Page, tuple[Problem, ...]]:
    """Return `page` with nothing on it that the fonts cannot print, and what was replaced."""
    given = {"title": page.title, "words": dict(page.words), "sheet": page.sheet}
    silent = {"alt": page.alt, "prints": list(page.prints)}
    clean, problems = gate_all(given, page.where, faces)
    same, _ = gate_all(silent, page.where, faces)
    return replace(page, **clean, alt=same["alt"], prints=tuple(same["prints"])), problems


def page_for(
    kind: Kind,
    sheet: Any,
    part: str,
    *,
    title: str,
    lang: str,
    mark: Mark | None = None,
    group: bool = False,
    where: Where | None = None,
    folder: Folder | None = None,
) -> Page:
    """Return the page for `part` of a kind's `sheet`, with a ruler if parts lie on each other.

    Besides `words`, the kind's module may have, each called with sheet and part: `prints`,
    texts of the sheet that the page shows; `codes`, the contents of its bar codes; and
    `pictures`, names of the teacher's pictures (from `folder`) that its template draws as
    `/pictures/NAME`.
    """
    reader = next(entry.reader for entry in kind.FACTS.parts if entry.name == part)
    extra = {"group": say("paper.group")} if group else {}
    extra |= {"teacher": say("paper.teacher")} if reader == "teacher" else {}
    messages = {**_ask(kind, "words", sheet, part, {}), **extra}
    return Page(
        template=Path(str(getattr(kind, "__file__", ""))).with_suffix(".typ"),
        part=part,
        sheet=plain(getattr(sheet, part.replace("-", "_"))),
        words={name: said(message, lang) for name, message in messages.items()},
        title=title,
        alt=said(kind.describe(sheet, part), lang),
        mark=mark,
        reader=reader,
        prints=tuple(_ask(kind, "prints", sheet, part, ())),
        codes=tuple(_ask(kind, "codes", sheet, part, ())),
        files=_pictures(folder, _ask(kind, "pictures", sheet, part, ())),
        where=where or NOWHERE,
        ruler=kind.FACTS.laid_on,
    )


def _pictures(folder: Folder | None, names: Iterable[str]) -> dict[str, bytes]:
    if folder is None:
        return {}
    return {f"pictures/{name}": folder.pictures[name].path.read_bytes() for name in names}


def _ask(kind: Kind, name: str, sheet: Any, part: str, default: Any) -> Any:
    answer = getattr(kind, name, None)
    return answer(sheet, part) if answer else default

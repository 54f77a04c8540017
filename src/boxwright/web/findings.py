"""What the checks say of a game, as pages show it: told or put aside, and about which things."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from boxwright.build import Built
from boxwright.choose.codes import AUTO, written_codes
from boxwright.choose.edition import Edition
from boxwright.game.dismissed import parted
from boxwright.game.draft import GAME, KIT, ROOM, SECTIONS
from boxwright.game.folder import Folder
from boxwright.problems import Arg, Edit, Finding, Message, Problem, Severity, Where, plain, say
from boxwright.puzzles.shelf import kind
from boxwright.web import contents
from boxwright.web.game import Game
from boxwright.web.render import told

FIRST = 7
"""How many findings stand in front of a teacher at once."""
SEVERITIES: tuple[Severity, ...] = ("stop", "fix", "note")
AREAS: Mapping[str, tuple[str, ...]] = {
    "reach": ("reach", "game", "part"),
    "sheets": ("sheet", "clue", "item"),
    "locks": ("lock", "code", "guess", "guessed", "mistake"),
    "texts": ("leak", "text", "font"),
    "kit": ("kit", "box"),
    "places": ("place",),
    "hints": ("hints",),
    "time": ("time",),
}
"""What was looked at, in plain words, and the first parts of the codes that speak of it."""
QUOTED = frozenset({"text", "code", "codes", "answers", "meant", "version"})
"""What a message repeats as it stands, though a thing may have such an id."""
PAGES: Mapping[str, str] = {KIT: "kit", ROOM: "room"}


@dataclass(frozen=True)
class Verdict:
    """What was found: `bars` where the game cannot even be made as wished, else findings.

    `groups` is for how many groups it was looked at.
    """

    bars: tuple[Problem, ...]
    findings: tuple[Finding, ...]
    aside: tuple[Finding, ...]
    edition: Edition | None
    groups: int = 0

    @property
    def count(self) -> int:
        """How many things there are to fix; what is only good to know is none."""
        return len(self.bars) + sum(one.severity != "note" for one in self.findings)

    @property
    def notes(self) -> int:
        """How many things are good to know."""
        return sum(one.severity == "note" for one in self.findings)

    @property
    def declared(self) -> tuple[Finding, ...]:
        """What stays on the teacher's word or is to be tried by hand."""
        return tuple(one for one in self.findings if one.basis not in ("computed", "estimated"))

    @property
    def good(self) -> tuple[str, ...]:
        """The areas in which nothing to fix was found, put aside or not."""
        if self.edition is None:
            return ()
        bad = {_first(one) for one in (*self.findings, *self.aside) if one.severity != "note"}
        return tuple(area for area, firsts in AREAS.items() if not bad & set(firsts))

    @property
    def solved(self) -> int:
        """How many sheets were solved: all but the teacher's own pages."""
        sheets = self.edition.sheets.values() if self.edition is not None else ()
        return sum(not kind(one.kind).FACTS.own for one in sheets)

    def group(self, severity: Severity, *, rest: bool = False) -> tuple[Finding, ...]:
        """Return the findings of one rank among the first few, or among the rest."""
        some = self.findings[FIRST:] if rest else self.findings[:FIRST]
        return tuple(one for one in some if one.severity == severity)

    @property
    def more(self) -> int:
        """How many findings are not among the first few."""
        return max(0, len(self.findings) - FIRST)

    def marks(self) -> str:
        """Return for each thing the gravest rank and all that was found, as JSON."""
        found: dict[str, list[dict[str, str]]] = {}
        for one in self.findings:
            said = {"text": told(one.problem.what), "severity": one.severity, "finding": one.id}
            for id in about(one.problem.where, one.also):
                found.setdefault(id, []).append(said)
        marks = {id: {"severity": says[0]["severity"], "says": says} for id, says in found.items()}
        return json.dumps(marks)


def verdict(game: Game) -> Verdict:
    """Return what the checks find in a game as wished, things called by their names."""
    built, names = game.built, _names(game.folder)
    if not isinstance(built, Built):
        return Verdict(tuple(_named(one, names) for one in built), (), (), None)
    groups = sum(len(edition.groups) for edition in built.editions)
    found = [replace(one, problem=_named(one.problem, names)) for one in built.findings]
    return Verdict((), *parted(game.path, found), built.edition, groups)


def _names(folder: Folder) -> Mapping[str, str]:
    """Return what boxes, things and places are called; locks and clues have ids alone."""
    places = folder.room.places if folder.room is not None else {}
    named: dict[str, Any] = {**folder.game.boxes, **folder.game.items, **places}
    return {id: one.name for id, one in named.items()}


def _named(problem: Problem, names: Mapping[str, str]) -> Problem:
    """Return `problem` with names instead of ids: what a page tells is not typed into a file."""
    what, remedy = (_with_names(one, names) for one in (problem.what, problem.remedy))
    return replace(problem, what=what, remedy=remedy)


def _with_names(message: Message, names: Mapping[str, str]) -> Message:
    def called(arg: Arg) -> Arg:
        if isinstance(arg, tuple):
            return tuple(map(called, arg))
        if isinstance(arg, Message):
            return _with_names(arg, names)
        return names.get(arg, arg) if isinstance(arg, str) else arg

    args = {name: one if name in QUOTED else called(one) for name, one in message.args.items()}
    return replace(message, args=args)


def _first(finding: Finding) -> str:
    return finding.problem.code.partition(".")[0]


def about(where: Where, also: Iterable[Where] = ()) -> tuple[str, ...]:
    """Return the things of the game that stand at these places."""
    paths = (one.path for one in (where, *also) if one.file.endswith(GAME))
    return tuple(
        dict.fromkeys(str(path[1]) for path in paths if len(path) > 1 and path[0] in SECTIONS)
    )


def page_of(problem: Problem) -> str | None:
    """Return the page on which what it complains of is changed, if it is not the shelf."""
    where = problem.where
    stem = PAGES.get(where.file, "content" if where.file.startswith("content") else "")
    if where.file.endswith(GAME) and where.path:
        stem = {"story": "story", "time": "times"}.get(str(where.path[0]), "")
    if problem.code.startswith("kit."):
        stem = PAGES[KIT]  # told at what goes without, and mended on the shelf
    return stem if any(one.stem == stem for one in contents.CONTENTS) else None


def does(edit: Edit, called: Callable[[str], str]) -> Message:
    """Return what a change does, in a few words for its button; `called` names things."""
    field, value = str(edit.path[-1]), edit.value
    several = isinstance(value, list | tuple)
    first, last = (value[0], value[-1]) if several else (value, value)
    said = say(
        "page-fix.do-take-out"
        if value is None
        else f"page-fix.do-{field.replace('_', '-')}{'-auto' if value == AUTO else ''}",
        first=called(first) if isinstance(first, str) else str(first),
        last=called(last) if isinstance(last, str) else str(last),
        all=tuple(map(str, value)) if several else written_codes(str(value)),
    )
    is_known = edit.key is None and not told(said).startswith(said.id)
    return said if is_known else say("page-fix.do")


def edit_json(problem: Problem) -> str:
    """Return the change that mends a problem, as its command asks for it."""
    return json.dumps(plain(problem.edit))

"""One clue tried for its page: the sheet as it will print, what it leads to, what it asks."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

from fastapi import HTTPException

from boxwright.build import Built
from boxwright.checks.plan import MINUTE, sheet_s
from boxwright.checks.sheets import basis_of
from boxwright.choose import one_clue
from boxwright.choose.codes import written_codes
from boxwright.choose.edition import Edition
from boxwright.choose.offers import offers
from boxwright.choose.one_clue import Bench, Trial
from boxwright.choose.other_kind import MadeOver
from boxwright.choose.other_kind import made_over as of_kind
from boxwright.game.model import Version
from boxwright.paper.frame import Look, size_for
from boxwright.paper.outs import clues
from boxwright.paper.outs.printing import Printing
from boxwright.paper.page import Page
from boxwright.paper.render import draw, lay_out, misfits
from boxwright.paper.solved import Solved
from boxwright.problems import Message, Problem, Refused, say
from boxwright.puzzles.contract import Effort, Facts, Reader
from boxwright.puzzles.shelf import names
from boxwright.web.errors import problem_json
from boxwright.web.game import Game
from boxwright.web.render import told as words
from boxwright.web.scene import drawing
from boxwright.web.tables import contents_of

ALL_STEPS = 60


@dataclass(frozen=True)
class Tried:
    """A clue's sheet that was made, with all that a teacher wants to know of it."""

    printing: Printing
    clue: str

    @cached_property
    def solved(self) -> Solved:
        """The sheet with its solution."""
        return clues.solved(self.printing, self.clue)

    @property
    def facts(self) -> Facts:
        """What its kind is good for."""
        return self.solved.kind.FACTS

    @property
    def effort(self) -> Effort:
        """What it costs pupils."""
        return self.solved.kind.effort(self.solved.sheet)

    @property
    def minutes(self) -> int:
        """About how long it takes, at its level; rough."""
        edition = self.printing.edition
        level = edition.game.clues[self.clue].level
        return round(sheet_s(edition.sheets[self.clue].kind, level) / MINUTE)

    @property
    def basis(self) -> str:
        """On what the answer rests."""
        return basis_of(self.solved.kind, self.solved.sheet)

    @property
    def answer(self) -> str:
        """What the sheet leads to, in writing."""
        return clues.answer(self.printing, self.clue, self.solved.solution)

    @property
    def opens(self) -> str:
        """What the answer opens, or where it leads."""
        return clues.opens(self.printing, self.clue)

    @property
    def lock(self) -> Mapping[str, Any] | None:
        """The lock that the answer opens, as it shows it; None where it leads to a place."""
        gives = self.printing.edition.game.clues[self.clue].gives
        device = self.printing.devices.get(gives)
        codes = self.printing.edition.codes
        return None if device is None else drawing(device, codes.get(gives))

    @property
    def drawn(self) -> bool:
        """Whether the code is one that was drawn."""
        lock = self.printing.edition.game.locks.get(
            self.printing.edition.game.clues[self.clue].gives
        )
        return lock is not None and len(written_codes(lock.code)) != 1

    @property
    def own_hints(self) -> bool:
        """Whether the hints are the teacher's own."""
        return self.printing.edition.game.clues[self.clue].hints is not None

    @property
    def hints(self) -> tuple[str, ...]:
        """The three hints."""
        return clues.hints(self.printing, self.clue)

    @property
    def working(self) -> list[str]:
        """How one gets there, step by step."""
        return self.solved.working(ALL_STEPS)

    @property
    def mistakes(self) -> list[tuple[str, Message]]:
        """Usual wrong answers, each with what it means."""
        return list(self.solved.mistakes())

    def pages(self, reader: Reader = "pupils") -> tuple[Page, ...]:
        """The printed parts for `reader`."""
        return clues.part_pages(self.printing, self.clue, reader)

    def drawn_pages(self, form: Any, ppi: float = 110.0) -> list[bytes]:
        """Return a picture of each pupils' page; whether all fits is not looked at."""
        pages = self.pages()
        return draw(pages, self.printing.look, form, ppi=ppi) if pages else []

    def misfits(self) -> list[Problem]:
        """Return what does not fit its paper."""
        pages = self.pages()
        if not pages:
            return []
        return misfits(lay_out(pages, self.printing.look), pages, self.printing.look)


def bench_of(game: Game, clue: str, way: str) -> Bench:
    """Return the game in which a way of a clue can be tried; raises Refused where there is none."""
    key = ("bench", game.path, game.tag, repr(game.wishes), clue, way)
    return game.studio.memory.recall(
        key, lambda: one_clue.bench(game.folder, game.wishes, clue, way)
    )


def tried(game: Game, clue: str, way: str, trial: Trial) -> Tried:
    """Return what comes of a trial; raises Refused with what keeps it from being made."""
    key = (game.path, game.tag, repr(game.wishes), game.printed_at, clue, way, repr(trial))

    def made() -> Tried:
        bench = bench_of(game, clue, way)
        return _laid(game, one_clue.tried(bench, trial, game.chance), clue)

    return game.studio.trials.recall(key, made)


def kept(game: Game, clue: str, way: str) -> Tried:
    """Return a way as it stands: of the printed set where it is in it, else as it would be made."""
    built = game.built
    if isinstance(built, Built):
        for edition in built.editions:
            if edition.chosen.get(clue) == way and clue in edition.sheets:
                return _laid(game, edition, clue)
    return tried(game, clue, way, Trial.of(version_of(game, clue, way)))


def _laid(game: Game, edition: Edition, clue: str) -> Tried:
    if clue not in edition.sheets:
        where = game.folder.where("game.toml", ("clues", clue, "gives"))
        raise Refused([Problem.of("page-clues.no-answer", where, clue=clue)])
    look = Look("a4", size_for(edition.game.ages), edition.game.language)
    return Tried(Printing(game.folder, edition, look), clue)


def version_of(game: Game, clue: str, way: str) -> Version:
    """Return one way of a clue as the game has it; 404 where there is none."""
    try:
        return game.folder.game.clues[clue].versions[way]
    except KeyError:
        raise HTTPException(404) from None


def made_over(game: Game, clue: str, way: str, trial: Trial) -> Trial:
    """Return a trial whose options are another kind's as one of its own kind."""
    folder, like = game.folder, MadeOver(trial.content, trial.options)
    level = trial.level or bench_of(game, clue, way).wished
    try:
        all_of_them = offers(folder, folder.game.clues[clue].gives, trial.code, game.chance)
    except Refused:  # told by the trial itself
        all_of_them = []
    for one in all_of_them:
        if one.name == trial.kind:
            like = of_kind(folder, one, like, contents_of(game), level, game.chance)
    return replace(trial, content=like.content, options=like.options)


def pictures_of(game: Game, clue: str, way: str) -> tuple[tuple[bytes, str], ...]:
    """Return small pictures of a way's pupils' pages as it stands, each with what it shows."""
    key = ("pictures", game.path, game.tag, repr(game.wishes), game.printed_at, clue, way)

    def drawn() -> tuple[tuple[bytes, str], ...]:
        one = kept(game, clue, way)
        return tuple(zip(one.drawn_pages("png", 80), (p.alt for p in one.pages()), strict=True))

    return game.studio.memory.recall(key, drawn)


# Problems beside the fields that they are about.


def told_at_fields(problems: Iterable[Problem], bench: Bench) -> list[dict[str, Any]]:
    """Return problems as the page reads them, each at its field, kinds by their titles."""
    return [_told(one, bench) for one in problems]


def _told(problem: Problem, bench: Bench) -> dict[str, Any]:
    """Return one problem: its field, the line of a table, the kinds that would do."""
    where, choices = problem.where, problem.what.args.get("choices", ())
    known = [one for one in choices if one in names()] if isinstance(choices, tuple) else []
    of_table = where.file not in bench.folder.files and where.line is not None
    line = words(say("studio.where", file=where.file, line=where.line or 0)) if of_table else ""
    return problem_json(with_titles(problem)) | {
        "path": list(_field(problem, bench)),
        "where": line,
        "kinds": [{"name": one, "title": words(say(f"{one}.title"))} for one in known],
    }


def _field(problem: Problem, bench: Bench) -> tuple[str | int, ...]:
    path, mine = problem.where.path, bench.path
    if path[: len(mine)] == mine:
        return path[len(mine) :] or ("kind",)
    if path[:1] == ("locks",):
        return ("code",)
    return ("content",) if problem.where.file not in bench.folder.files else ()


def with_titles(problem: Problem) -> Problem:
    """Return `problem` with kinds called by their titles, as people know them."""
    known = frozenset(names())

    def titled(value: Any) -> Any:
        if isinstance(value, tuple):
            return tuple(map(titled, value))
        return say(f"{value}.title") if value in known else value

    args = {
        name: titled(value) if name in ("kind", "choices", "near", "name") else value
        for name, value in problem.what.args.items()
    }
    what, remedy = replace(problem.what, args=args), replace(problem.remedy, args=args)
    return replace(problem, what=what, remedy=remedy)

"""The print-outs of a game for its pages: the printed set as it stands, and what is laid out."""

from __future__ import annotations

import threading
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

from fastapi import HTTPException

from boxwright.build import Built
from boxwright.build.current import Stale, Standing, current_editions
from boxwright.build.printing import files_of, printed
from boxwright.choose.edition import Edition
from boxwright.game.choosing import Wishes
from boxwright.paper.bundles import merged, pictured
from boxwright.paper.frame import PaperName
from boxwright.paper.printouts import PrintOut, Seen
from boxwright.problems import Problem, Refused, Where, refuse, say
from boxwright.web.game import Game
from boxwright.web.render import told

OUT = "out"
Hands = Literal["pupils", "teacher", "office"]
State = Literal["now", "none", "gone", "changed", "lost"]
Found = tuple[PrintOut, ...]
PrintSize = Literal["age", "12", "14", "18"]


@dataclass(frozen=True, slots=True)
class Look:
    """What is chosen for the pages: the paper, and the size of the text."""

    paper: PaperName = "a4"
    size: PrintSize = "age"

    @property
    def points(self) -> int | None:
        """The size in points; None where it follows from the pupils' age."""
        return None if self.size == "age" else int(self.size)


@dataclass(frozen=True, slots=True)
class PrintedSet:
    """How the printed set of a game stands: is there one, is it of the game as it is?

    `editions` are those of the game as it is or was; `changed` names files that are not as
    they were; `problems` say why it cannot be read.
    """

    state: State
    wishes: Wishes
    of: Standing | Stale | None = None
    editions: tuple[Edition, ...] = ()
    changed: tuple[str, ...] = ()
    problems: tuple[Problem, ...] = ()

    @property
    def clues(self) -> tuple[str, ...]:
        """The clues with a sheet in it."""
        return tuple(dict.fromkeys(clue for edition in self.editions for clue in edition.sheets))

    @property
    def groups(self) -> int:
        """How many groups it is for; nought where it is not of the game as it is."""
        editions = self.of.editions if isinstance(self.of, Standing) else ()
        return sum(len(edition.groups) for edition in editions)


def set_of(game: Game) -> PrintedSet:
    """Return how the game's printed set stands; raises Refused where its files have faults."""
    if game.faults:
        raise Refused(game.faults)
    found = game.standing
    if isinstance(found, tuple):
        return PrintedSet("lost", Wishes(), problems=found)
    if isinstance(found, Standing):
        return PrintedSet("now", found.asked.wishes, found, found.editions)
    editions = current_editions(game.path) if found.why == "changed" else ()
    return PrintedSet(found.why, found.asked.wishes, found, editions, found.changed)


def built_of(game: Game) -> Built | None:
    """Return the set that was kept, or after a change the one to come; None where there is none.

    It is checked. Raises Refused where the one to come cannot be made.
    """
    found = game.standing
    if isinstance(found, Standing):
        return game.kept(found)
    if isinstance(found, tuple) or found.why != "changed":
        return None
    made = game.made(found.asked)
    if isinstance(made, tuple):
        raise Refused(made)
    return made


@dataclass(slots=True)
class Tray:
    """The latest print-outs of one game in one look: how far they are, and their pictures."""

    of: Hashable = None
    found: Found | Refused = ()
    done: int = 0
    files: int = 0
    pictures: dict[tuple[str, int, int], bytes] = field(default_factory=dict)
    lock: threading.Lock = field(default_factory=threading.Lock)

    def filled(self, of: Hashable, work: Callable[[Seen], Found]) -> Found:
        """Return what `work` prints, or what lies here already if it is of the same.

        Raises Refused as `work` does; who asks meanwhile waits for the same.
        """
        with self.lock:
            if self.of != of:
                self.done = self.files = 0
                self.found = _outcome(lambda: work(self.seen))
                self.pictures.clear()
                self.of = of
            if isinstance(self.found, Refused):
                raise Refused(self.found.problems)
            return self.found

    def seen(self, done: int, files: int) -> None:
        """Note how many files are done."""
        self.done, self.files = done, files

    def picture(self, one: PrintOut, page: int, width: int) -> bytes:
        """Return a page of a file as a picture."""
        key = (one.sha256, page, width)
        if key not in self.pictures:
            self.pictures[key] = pictured(one.pdf, page, width)
        return self.pictures[key]


def _outcome(work: Callable[[], Found]) -> Found | Refused:
    try:
        return work()
    except Refused as refused:
        return refused


def tray_of(game: Game, look: Look) -> Tray:
    """Return where the print-outs of a game in one look lie."""
    return game.studio.memory.recall(("tray", game.path, look), Tray)


def laid_out(game: Game, look: Look) -> Found:
    """Return all print-outs of what is shown of a game; none where there is no printed set.

    Raises Refused where a page does not fit.
    """
    built = built_of(game)
    if built is None:
        return ()
    of = (game.tag, tuple(edition.id for edition in built.editions))
    tray = tray_of(game, look)
    return tray.filled(of, lambda seen: printed(built, look.paper, look.points, seen=seen))


def ready(game: Game, look: Look) -> Mapping[str, PrintOut]:
    """Return the files to print; Refused where there is no printed set of the game as it is."""
    if set_of(game).state != "now":
        refuse(Problem.of("edition.stale", Where(game.name), command=""))
    built = built_of(game)
    assert built is not None, "it is as the game is now"
    return files_of(built, laid_out(game, look))


def named(found: Iterable[PrintOut], name: str) -> PrintOut:
    """Return the file of that name; 404 where there is none."""
    one = next((one for one in found if one.name == name), None)
    if one is None:
        raise HTTPException(404)
    return one


def pack(game: Game, found: Sequence[PrintOut], hands: Hands | None) -> tuple[str, bytes]:
    """Return files for one person as one, each as often as it is printed."""
    if not found:
        raise HTTPException(404)
    head = game.folder.game.game
    title = told(say("page-print-outs.pack-title", title=head.title))
    name = f"{head.id}-{hands or OUT}.pdf"
    pdfs = [one.pdf for one in found for _ in range(one.copies if hands == "pupils" else 1)]
    return name, merged(pdfs, title, head.language)

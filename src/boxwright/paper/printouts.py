"""All that is printed for the editions of one play: laid out, printed, read back."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import replace
from functools import cache
from importlib import import_module
from itertools import islice
from pkgutil import iter_modules
from queue import SimpleQueue
from types import ModuleType
from typing import TYPE_CHECKING, Literal, NamedTuple

from boxwright.choose.edition import Edition, no_sheet
from boxwright.choose.marks import NO_SHEET
from boxwright.frozen import frozen_value
from boxwright.game.folder import Folder
from boxwright.paper import outs
from boxwright.paper.earlier import digest
from boxwright.paper.frame import Look
from boxwright.paper.outs.printing import File, Printing
from boxwright.paper.page import Page
from boxwright.paper.press import Press, Proof, pressed
from boxwright.problems import Refused, Where, refuse
from boxwright.puzzles.contract import Reader

if TYPE_CHECKING:
    from concurrent.futures import Executor, Future

SHEETS = "sheets"
Seen = Callable[[int, int], None]
"""Told after each file how many are done, and of how many."""


@frozen_value
class PrintOut:
    """One file, read back and found to say what it should.

    `of` is the print-out that it belongs to ("sheets", "set-up"), `groups` whose it is, and
    `copies` how often it is printed for them.
    """

    name: str
    reader: Reader
    pages: int
    sheets: int
    pdf: bytes
    of: str = ""
    groups: tuple[str, ...] = ()
    copies: int = 1

    @property
    def hands(self) -> Literal["pupils", "teacher", "office"]:
        """Into whose hands it goes: all sheets in one file are the office's, to be copied."""
        if self.reader != "teacher":
            return "pupils"
        return "office" if self.of == SHEETS else "teacher"

    @property
    def sha256(self) -> str:
        """The digest of the file."""
        return digest(self.pdf)


@cache
def modules() -> tuple[ModuleType, ...]:
    """Return every print-out, in the order of its files."""
    names = (info.name for info in iter_modules(outs.__path__))
    found = (import_module(f"{outs.__name__}.{name}") for name in names)
    return tuple(sorted((one for one in found if hasattr(one, "READER")), key=_order))


def _order(module: ModuleType) -> int:
    order: int = module.ORDER
    return order


def print_outs(
    folder: Folder,
    editions: Sequence[Edition],
    look: Look,
    only: str | None = None,
    *,
    teacher: Look | None = None,
    seen: Seen | None = None,
) -> tuple[PrintOut, ...]:
    """Lay out, print and read back; raises Refused where a page does not fit or is wrong.

    With several editions each has files of its own, named by its groups. `only` prints
    the sheet of one clue. The teacher's papers look as `teacher`, else as the pupils' do.
    `seen` is told how far it is.
    """
    with pressing(folder, editions, look, only, teacher=teacher) as begun:
        return begun.finished(seen or _nobody)


@contextmanager
def pressing(
    folder: Folder,
    editions: Sequence[Edition],
    look: Look,
    only: str | None = None,
    *,
    teacher: Look | None = None,
    second: Press = pressed,
) -> Iterator[Begun]:
    """Begin what `print_outs` does, and give what is begun, to be waited for later.

    What is done meanwhile costs no time. Two presses work: this process's, and the `second`.
    """
    from concurrent.futures import ThreadPoolExecutor

    printings = [Printing(folder, edition, look) for edition in editions]
    found = _jobs(printings, teacher or look) if only is None else _one_sheet(printings, only)
    presses = _Presses((second, pressed))
    with ThreadPoolExecutor(presses.count, "press") as threads:
        yield _begun(threads, presses, found)


def _begun(threads: Executor, presses: _Presses, found: Iterator[_Job]) -> Begun:
    """Return `found` as it is pressed: first one a press, while the others are thought out.

    Then the longest go first, so that all presses end at about the same time; the very first,
    the office's sheets, is among the longest itself.
    """
    jobs: list[_Job] = []
    begun: dict[Future[PrintOut | Refused], int] = {}
    for job in islice(found, presses.count):
        begun[threads.submit(presses.press, job)] = len(jobs)
        jobs.append(job)
    first = len(jobs)
    jobs += found
    for at in sorted(range(first, len(jobs)), key=lambda at: -_weight(jobs[at])):
        begun[threads.submit(presses.press, jobs[at])] = at
    return Begun(tuple(jobs), begun)


def _nobody(done: int, of: int) -> None:
    """Tell nobody."""


class _Job(NamedTuple):
    """A file's name, its title as readers announce it, what is on it, and for whom."""

    name: str
    title: str
    reader: Reader
    pages: tuple[Page, ...]
    look: Look
    of: str
    groups: tuple[str, ...]
    copies: int

    def print_out(self, proof: Proof) -> PrintOut:
        """Return the file that was made of it."""
        marks = {page.mark for page in self.pages if page.mark and page.mark.sheet != NO_SHEET}
        about = (self.of, self.groups, self.copies)
        return PrintOut(self.name, self.reader, proof.sheets, len(marks), proof.pdf, *about)


def _jobs(printings: Sequence[Printing], teacher: Look) -> Iterator[_Job]:
    """Yield every file that is to be printed, as it is thought out."""
    for printing in printings:
        suffix = _suffix(printing, alone=len(printings) == 1)
        for_teacher = replace(printing, look=teacher, pupils=printing.look)
        for module in modules():
            own = module.READER == "teacher" and not hasattr(module, "LIES_ON_SHEETS")
            one = for_teacher if own else printing
            for name, file in _files(module, one):
                if file.pages:
                    yield _job(one, name + suffix, file, module)


def _job(printing: Printing, name: str, file: File, module: ModuleType) -> _Job:
    """Return the job of printing `file`; its title is the game's and its own name."""
    title = printing.text("printout.document", title=printing.edition.game.title, name=name)
    groups = printing.edition.groups
    copies = len(groups) if hasattr(module, "FOR_EACH_GROUP") else 1
    return _Job(
        name, title, file.reader, file.pages, printing.look, name_of(module), groups, copies
    )


def name_of(module: ModuleType) -> str:
    """Return how a print-out is called in messages: `set_up.py` is "set-up"."""
    return module.__name__.rpartition(".")[2].replace("_", "-")


def _files(module: ModuleType, printing: Printing) -> Iterator[tuple[str, File]]:
    """Yield every file of a print-out with its name."""
    name = printing.text(f"printout.{name_of(module)}")
    if hasattr(module, "files"):
        yield from ((name + file.suffix, file) for file in module.files(printing))
    else:
        yield name, File(module.READER, tuple(module.pages(printing)))


def _suffix(printing: Printing, *, alone: bool) -> str:
    return "" if alone else "-" + "-".join(printing.edition.groups)


def _one_sheet(printings: Sequence[Printing], clue: str) -> Iterator[_Job]:
    from boxwright.paper.outs import sheets
    from boxwright.paper.outs.clues import part_pages

    having = [printing for printing in printings if clue in printing.edition.sheets]
    if not having:
        known = tuple(dict.fromkeys(id for one in printings for id in one.edition.sheets))
        refuse(no_sheet(clue, known, Where("--only")))
    for one in having:
        name = clue + _suffix(one, alone=len(having) == 1)
        yield _job(one, name, File("pupils", part_pages(one, clue)), sheets)


class _Presses:
    """Some presses, each of which takes one job at a time."""

    def __init__(self, presses: Sequence[Press]) -> None:
        self.count = len(presses)
        self._free: SimpleQueue[Press] = SimpleQueue()
        for one in presses:
            self._free.put(one)

    def press(self, job: _Job) -> PrintOut | Refused:
        """Return what a press makes of a job; waits for one that is free."""
        press = self._free.get()
        try:
            return job.print_out(press(job.pages, job.look, job.title))
        except Refused as refused:
            return refused
        finally:
            self._free.put(press)


@frozen_value
class Begun:
    """Files that are being pressed: what is on each, and which of them is which job's."""

    jobs: tuple[_Job, ...]
    begun: Mapping[Future[PrintOut | Refused], int]

    def finished(self, seen: Seen = _nobody) -> tuple[PrintOut, ...]:
        """Return what is printed, in order; Refused, as the first file is, if any was."""
        from concurrent.futures import as_completed

        seen(0, len(self.jobs))
        for done, _ in enumerate(as_completed(self.begun), 1):
            seen(done, len(self.jobs))
        made = {at: future.result() for future, at in self.begun.items()}
        return tuple(_settled(found) for _, found in sorted(made.items()))


def _settled(found: PrintOut | Refused) -> PrintOut:
    if isinstance(found, Refused):
        raise found
    return found


def _weight(job: _Job) -> int:
    """Return about how long a job takes to lay out: by how much is on its pages."""
    return sum(len(str(page.sheet)) for page in job.pages)

"""The print-outs of what was built, and the files that they become."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from pathlib import Path
from typing import Any

from boxwright.build import Built
from boxwright.build.current import Standing, looks_for
from boxwright.build.judgement import weights_of
from boxwright.paper.earlier import Put, put
from boxwright.paper.press import pressed
from boxwright.paper.printouts import PrintOut, Seen, pressing, print_outs
from boxwright.problems import Weighed
from boxwright.second_process import ALONE, SecondProcess


def printed(
    built: Built,
    paper: Any = "a4",
    size: int | None = None,
    only: str | None = None,
    seen: Seen | None = None,
) -> tuple[PrintOut, ...]:
    """Return all print-outs, or the sheet of the clue `only`; `seen` is told how far it is.

    Raises Refused where a page does not fit or is wrong.
    """
    look, teacher = looks_for(built, paper, size)
    return print_outs(built.folder, built.editions, look, only, teacher=teacher, seen=seen)


def printed_and_judged(
    found: Built | Standing,
    paper: Any = "a4",
    size: int | None = None,
    only: str | None = None,
    second: SecondProcess = ALONE,
) -> tuple[tuple[PrintOut, ...], Sequence[Weighed]]:
    """Return what `printed` does, and how grave what the checks find in it is.

    Where that is not known it is judged while the first files are pressed, by the `second`
    process too.
    """
    look, teacher = looks_for(found, paper, size)
    there = partial(second, pressed)
    begin = pressing(found.folder, found.editions, look, only, teacher=teacher, second=there)
    with begin as begun:
        weights = weights_of(found)
        return begun.finished(), weights


def files_of(built: Built | Standing, found: Sequence[PrintOut]) -> dict[str, PrintOut]:
    """Return print-outs by the names of their files."""
    return {f"{built.edition.game.id}-{one.name}.pdf": one for one in found}


def put_into(
    out: Path, built: Built | Standing, files: Mapping[str, PrintOut], *, whole: bool
) -> Put:
    """Write print-outs into a folder; those of an earlier print go if these are the `whole`."""
    pdfs = {name: one.pdf for name, one in files.items()}
    editions = [edition.id for edition in built.editions]
    return put(out, built.edition.game.id, pdfs, editions, whole=whole)

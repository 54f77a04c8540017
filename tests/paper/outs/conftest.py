"""A game with everything that print-outs must cope with, printed once for all tests."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from boxwright.build import Asked, Built, build
from boxwright.paper.frame import Look
from boxwright.paper.outs.printing import Printing
from boxwright.paper.printouts import PrintOut, print_outs

MILL = Path(__file__).with_name("mill")


@cache
def mill() -> Built:
    return build(Asked(MILL))


@cache
def printed(look: Look) -> tuple[PrintOut, ...]:
    made = mill()
    return print_outs(made.folder, made.editions, look)


@pytest.fixture(name="made", scope="session")
def made_mill() -> Built:
    """Two groups, nested boxes, a key safe, an envelope, a key that its lock holds, a torch."""
    return mill()


@pytest.fixture(name="files", scope="session")
def printed_mill() -> dict[str, PrintOut]:
    """All print-outs of that game by name, A4 at 12 pt."""
    return {one.name: one for one in printed(Look("a4", 12))}


@pytest.fixture(name="printing", scope="session")
def about_to_print() -> Printing:
    """That game, about to be printed."""
    return Printing(mill().folder, mill().edition, Look("a4", 12))

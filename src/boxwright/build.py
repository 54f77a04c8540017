"""The whole flow as one function: a game folder in, a checked and printed edition out.

The command line, the studio and the tests all call this. Each step is a function from
frozen values to a frozen value; only reading and writing touch the disk.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path as File
from typing import TypeVar

from boxwright import checks
from boxwright.choose import store
from boxwright.choose.edition import Edition
from boxwright.choose.faults import choice_faults
from boxwright.choose.fitting import devices_of, fit
from boxwright.choose.making import Chance, make_edition
from boxwright.content.read import content_faults, content_of
from boxwright.game.arrange import Wishes, arrange
from boxwright.game.folder import Folder, read_game
from boxwright.paper.frame import Look
from boxwright.paper.printouts import PrintOut, print_outs
from boxwright.problems import Finding, Problem, Refused

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Asked:
    """What a teacher asks for; without a `look` nothing is printed.

    `kit` and `room` are files to take instead of those in the game folder.
    """

    game: File
    wishes: Wishes = field(default_factory=Wishes)
    chance: Chance = field(default_factory=lambda: Chance(1))
    kit: File | None = None
    room: File | None = None
    look: Look | None = None


@dataclass(frozen=True, slots=True)
class Built:
    """What one run gives: the edition, what the checks find, and what was printed."""

    folder: Folder
    edition: Edition
    findings: tuple[Finding, ...]
    printed: tuple[PrintOut, ...] = ()

    @property
    def stops(self) -> bool:
        """Whether something was found with which the game cannot run."""
        return any(finding.severity == "stop" for finding in self.findings)


def build(asked: Asked) -> Built:
    """Take a game folder all the way; raises Refused with everything that bars the way."""
    folder = read(asked.game, asked.kit, asked.room)
    share = settled(arrange(folder, asked.wishes)).games[0]
    fitted = fit(folder, share.game)
    contents = {id: settled(content_of(folder, one)) for id, one in share.game.clues.items()}
    edition = make_edition(folder, share, fitted, contents, asked.chance)
    return judged(folder, edition, asked.look)


def reopen(
    file: File, kit: File | None = None, room: File | None = None, look: Look | None = None
) -> Built:
    """Take a saved edition the rest of the way, held against its folder as it is now."""
    edition = store.load(file)
    return judged(read(file.absolute().parent.parent, kit, room), edition, look)


def read(game: File, kit: File | None = None, room: File | None = None) -> Folder:
    """Return the game folder; raises Refused with every fault in its files."""
    return settled(read_game(game, kit, room, also=(choice_faults, content_faults)))


def judged(folder: Folder, edition: Edition, look: Look | None) -> Built:
    """Check an edition, and print it if a look is given."""
    about = checks.About(folder, devices_of(folder, edition))
    findings = checks.run(edition, about)
    printed = () if look is None else print_outs(folder, edition, about.devices, look)
    return Built(folder, edition, findings, printed)


def settled(value: T | tuple[Problem, ...]) -> T:
    """Return `value`, or raise Refused where it is problems."""
    if isinstance(value, tuple):
        raise Refused(value)
    return value

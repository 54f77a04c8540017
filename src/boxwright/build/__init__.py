"""The whole flow as one function: a game folder in, a checked edition out; `printing` prints it.

The command line, the studio and the tests all call this. Each step is a function from
frozen values to a frozen value; only reading and writing touch the disk.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field
from functools import partial
from pathlib import Path as File
from typing import TYPE_CHECKING, TypeVar

from boxwright import checks
from boxwright.build.parameters import parameter_faults
from boxwright.choose import store
from boxwright.choose.asking import read_contents
from boxwright.choose.chance import Chance
from boxwright.choose.edition import Edition
from boxwright.choose.faults import choice_faults
from boxwright.choose.fitting import devices_of, fit
from boxwright.choose.making import make_editions
from boxwright.content.read import content_faults
from boxwright.frozen import frozen_value
from boxwright.game.arrange import Wishes, arrange
from boxwright.game.folder import Folder, read_game
from boxwright.problems import Finding, Problem, Refused, has_stop
from boxwright.second_process import ALONE, Errand, SecondProcess

if TYPE_CHECKING:
    from boxwright.forecast.answers import Forecast

T = TypeVar("T")
ALSO = (choice_faults, content_faults, parameter_faults)
"""What is looked for in a folder besides what its own files tell."""


@frozen_value
class Asked:
    """What a teacher asks for.

    `kit` and `room` are files to take instead of those in the game folder.
    """

    game: File
    wishes: Wishes = field(default_factory=Wishes)
    chance: Chance = field(default_factory=lambda: Chance(1))
    kit: File | None = None
    room: File | None = None


@frozen_value
class Built:
    """What one run gives: the editions of one play, and what the checks find."""

    folder: Folder
    editions: tuple[Edition, ...]
    findings: tuple[Finding, ...]

    @property
    def edition(self) -> Edition:
        """The first group's edition, which is the only one where all groups share their ways."""
        return self.editions[0]

    @property
    def stops(self) -> bool:
        """Whether something was found with which the game cannot run."""
        return has_stop(self.findings)


def build(asked: Asked, second: SecondProcess = ALONE) -> Built:
    """Make a game concrete, and check it; raises Refused with everything that bars the way.

    A `second` process forecasts it meanwhile, which is the longest of the checks' work.
    """
    folder = read(asked.game, asked.kit, asked.room)
    return judged(folder, made(folder, asked.wishes, asked.chance), second)


def made(folder: Folder, wishes: Wishes, chance: Chance) -> Sequence[Edition]:
    """Make a game concrete as wished, unchecked; raises Refused with what bars the way."""
    arranged = settled(arrange(folder, wishes))
    fitted = fit(folder, arranged)
    contents = read_contents(folder, arranged)
    return make_editions(folder, arranged, fitted, contents, chance)


def reopen(
    files: Sequence[File],
    kit: File | None = None,
    room: File | None = None,
    second: SecondProcess = ALONE,
) -> Built:
    """Check saved editions of one play, held against their folder as it is; see `build`."""
    editions = [store.load(file) for file in files]
    return judged(read(files[0].absolute().parent.parent, kit, room), editions, second)


def read(game: File, kit: File | None = None, room: File | None = None) -> Folder:
    """Return the game folder; raises Refused with every fault in its files."""
    return settled(read_game(game, kit, room, also=ALSO))


def judged(folder: Folder, editions: Sequence[Edition], second: SecondProcess = ALONE) -> Built:
    """Check editions; see `build`."""
    abouts = [about_of(folder, edition, second) for edition in editions]
    for edition, about in zip(editions, abouts, strict=True):
        for pupils in (None, edition.game.pupils[1]):  # which every edition is asked for
            about.foresee(edition, pupils)
    findings = checks.run(zip(editions, abouts, strict=True))
    return Built(folder, tuple(editions), findings)


def about_of(folder: Folder, edition: Edition, second: SecondProcess = ALONE) -> checks.About:
    """Return what the checks know of an edition besides itself."""
    devices = {
        group: devices_of(folder, edition.game, edition.stickers[group]) for group in edition.groups
    }
    return checks.About(folder, devices, partial(_reckoned, second))


def _reckoned(
    second: SecondProcess,
    edition: Edition,
    about: checks.About,
    pupils: int | None,
    hints: int | None,
) -> Errand[Forecast | None]:
    from boxwright.build.forecasting import reckoned  # late: that module builds on this one

    return reckoned(edition, about, pupils, hints, second)


def settled(value: T | tuple[Problem, ...]) -> T:
    """Return `value`, or raise Refused where it is problems."""
    if isinstance(value, tuple):
        raise Refused(value)
    return value

"""What a computation can find wrong with an edition; one check, one file.

A check is a module of this folder with a `CODE` and a function `check(edition, about)`
that yields findings. Nothing lists them: `run` calls every module that has a `CODE`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import field
from functools import cache
from importlib import import_module
from pkgutil import iter_modules
from types import ModuleType
from typing import TYPE_CHECKING, Any, TypeAlias, TypeVar

from boxwright.choose.edition import Edition
from boxwright.frozen import frozen_value
from boxwright.game.folder import Folder
from boxwright.game.mechanisms import Code, Device, entry
from boxwright.problems import Finding, Path, Where, gravest_first

if TYPE_CHECKING:
    from boxwright.forecast.answers import Forecast
    from boxwright.second_process import Errand

T = TypeVar("T")
Reckon: TypeAlias = "Callable[..., Errand[Forecast | None]]"


@frozen_value
class About:
    """What is known besides the edition: its folder, and what each group's locks can show."""

    folder: Folder
    devices: Mapping[str, Mapping[str, Device]]
    reckon: Reckon | None = field(default=None, compare=False, repr=False)
    """How a forecast is made (see `forecast`), where one can be."""
    known: dict[Any, Any] = field(default_factory=dict, compare=False, repr=False)
    """What checks share and one of them worked out already, by `once`."""

    def once(self, edition: Edition, work: Callable[..., T], *args: Any) -> T:
        """Return `work(edition, self, *args)`, worked out once however many checks ask."""
        key = (work, id(edition), *args)
        if key not in self.known:
            # The edition is kept along, so that no other one can get its address.
            self.known[key] = (edition, work(edition, self, *args))
        found: T = self.known[key][1]
        return found

    def forecast(
        self, edition: Edition, pupils: int | None = None, hints: int | None = None
    ) -> Forecast | None:
        """Return what is to be expected of an edition; None where that cannot be reckoned.

        `pupils` and `hints` are for a group, where not the game's own are meant.
        """
        begun = self.foresee(edition, pupils, hints)
        return None if begun is None else begun.result()

    def foresee(
        self, edition: Edition, pupils: int | None = None, hints: int | None = None
    ) -> Errand[Forecast | None] | None:
        """Have the `forecast` reckoned that checks will ask for, if there is who can meanwhile."""
        return None if self.reckon is None else self.once(edition, self.reckon, pupils, hints)

    def where(self, *path: str | int) -> Where:
        """Return the place of `path` in the game file."""
        place: Path = path
        return self.folder.where("game.toml", place)

    def device(self, lock: str) -> Device:
        """Return what a lock's codes are, as the first group has it."""
        return next(iter(self.devices.values()))[lock]

    def all_devices(self, lock: str) -> tuple[Device, ...]:
        """Return what a lock's codes are in all groups, each kind of real lock once."""
        return tuple(dict.fromkeys(of_group[lock] for of_group in self.devices.values()))

    def written(self, lock: str, code: Code) -> str:
        """Return a lock's code as people write it."""
        return entry(self.device(lock)).write(self.device(lock), code)


Check = Callable[[Edition, About], Iterator[Finding]]


@cache
def modules() -> tuple[ModuleType, ...]:
    """Return every check, in alphabetical order of their files; those that lead go first."""
    found = (import_module(f"{__name__}.{info.name}") for info in iter_modules(__path__))
    checks = (module for module in found if hasattr(module, "CODE"))
    return tuple(sorted(checks, key=lambda module: not getattr(module, "LEADS", False)))


def run(editions: Iterable[tuple[Edition, About]]) -> tuple[Finding, ...]:
    """Return all that the checks find in the editions of one play, each once, the gravest first."""
    found = {
        finding.id: finding
        for edition, about in editions
        for module in modules()
        for finding in module.check(edition, about)
    }
    return tuple(gravest_first(found.values()))

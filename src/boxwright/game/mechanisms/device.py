"""What a lock's codes are, as a value that knows nothing of files.

A `Device` holds the faces at each position of the longest code, in the order in which
they follow each other round the wheel or on the keys. Everything that can be asked of a
lock is asked of its mechanism's entry, with the device as the argument.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TypeAlias

from boxwright.frozen import frozen_value
from boxwright.game.model import KitLock, LockMake, LockShape, MechanismName

Code: TypeAlias = tuple[str, ...]
BLANK = "_"


@frozen_value
class Device:
    """A lock's codes, and what matters for trying them.

    `positions`: the faces of each position of the longest code; `shortest`: symbols in the
    shortest. `tolerance`: marks by which a dialled number may miss. `order_matters` False:
    each key is pressed at most once, in any order. `cheap`: wheels can be felt, and may
    open one step off. After `wrong_tries` wrong tries it rests for `rest_s` seconds; either
    0 means never. `fixed`: the only code, of a lock that cannot be set. `shelf`: what it is
    set to while it rests.
    """

    mechanism: MechanismName
    positions: tuple[tuple[str, ...], ...]
    shortest: int
    tolerance: int = 0
    order_matters: bool = True
    cheap: bool = False
    wrong_tries: int = 0
    rest_s: int = 0
    fixed: Code | None = None
    shelf: Code | None = None

    @property
    def longest(self) -> int:
        """Symbols in the longest code."""
        return len(self.positions)

    @property
    def lengths(self) -> range:
        """How many symbols a code may have."""
        return range(self.shortest, self.longest + 1)

    @property
    def faces(self) -> tuple[str, ...]:
        """Every face that some position has, in order of first appearance."""
        return _faces(self.positions)

    @property
    def rests(self) -> bool:
        """Whether wrong tries make it rest."""
        return self.wrong_tries > 0 and self.rest_s > 0


@lru_cache(maxsize=256)
def _faces(positions: tuple[tuple[str, ...], ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(face for position in positions for face in position))


def merged(model: LockMake | None, lock: KitLock) -> KitLock:
    """Return `lock` with what it leaves unsaid taken from its model, the mechanism too."""
    if model is None:
        return lock
    unsaid = {name: getattr(model, name) for name in model.model_fields_set if not says(lock, name)}
    return lock.model_copy(update=unsaid)


def says(lock: LockShape, name: str) -> bool:
    """Tell whether `lock` itself gives the field `name`."""
    return name in lock.model_fields_set and getattr(lock, name) is not None

"""One running studio: the folder that holds the games, the ledger, and what is remembered.

The game folders stay the truth. What is remembered here is worked out from them, under
the tag that says what they hold, so that an edit from outside is never overlooked.
"""

from __future__ import annotations

import re
import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeVar

from boxwright.game.bin import free_name
from boxwright.game.draft import GAME

T = TypeVar("T")
REMEMBERED = 64
TRIALS = 4
_NAME = re.compile(r"[^./\\\x00-\x1f][^/\\\x00-\x1f]*")


@dataclass(slots=True)
class Memory:
    """The last few things that were worked out, by what they were worked out from."""

    most: int = REMEMBERED
    kept: OrderedDict[Hashable, Any] = field(default_factory=OrderedDict)
    lock: threading.Lock = field(default_factory=threading.Lock)

    def recall(self, key: Hashable, work_out: Callable[[], T]) -> T:
        """Return what stands under `key`, worked out now if it does not stand there."""
        with self.lock:
            if key in self.kept:
                self.kept.move_to_end(key)
                found: T = self.kept[key]
                return found
        made = work_out()
        with self.lock:
            made = self.kept.setdefault(key, made)
            while len(self.kept) > self.most:
                self.kept.popitem(last=False)
        return made


@dataclass(frozen=True, slots=True)
class Studio:
    """Where games lie (`games`, a folder of game folders) and where the ledger is.

    `ledger` is a file or a URL; None means the place that is usual on this machine. `trials`
    holds sheets that are only tried, so that typing does not drive out what is shown.
    """

    games: Path
    ledger: str | None = None
    memory: Memory = field(default_factory=Memory)
    trials: Memory = field(default_factory=lambda: Memory(TRIALS))

    def folder(self, name: str) -> Path | None:
        """Return the game folder `name`; None where there is none, or it leads elsewhere."""
        if not _NAME.fullmatch(name):
            return None
        folder = self.games / name
        inside = folder.is_dir() and folder.resolve().parent == self.games.resolve()
        return folder if inside and (folder / GAME).is_file() else None

    def names(self) -> tuple[str, ...]:
        """Return the names of all game folders, in order."""
        found = (file.parent.name for file in self.games.glob(f"*/{GAME}"))
        return tuple(sorted(name for name in found if self.folder(name) is not None))

    def free_name(self, wish: str) -> str:
        """Return `wish`, or it with a number, such that no folder has that name yet."""
        return free_name(self.games, wish)

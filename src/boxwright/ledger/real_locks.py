"""Real locks of a kit and the lock book: what each is set to, what can be noted, where to search.

A lock that cannot be set needs no entry: what always opens it stands in its kit.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import reduce

from boxwright.game.mechanisms import Code, Device, entry, read_code
from boxwright.game.model import KitLock
from boxwright.ledger.lock_book import Book, LockRecord, after
from boxwright.problems import Problem, Where, refuse


@dataclass(frozen=True, slots=True)
class RealLock:
    """A lock by its kit's id and its sticker, with all that the kit says of it."""

    kit: str
    tag: str
    make: KitLock
    device: Device

    @property
    def fixed(self) -> str | None:
        """The code of a lock that cannot be set."""
        return None if self.device.fixed is None else self.written(self.device.fixed)

    @property
    def keyed(self) -> bool:
        """Whether it opens with a key, and has no code."""
        return entry(self.device).alphabet(self.device) is None

    def written(self, code: Code) -> str:
        """Return a code as it is written."""
        return entry(self.device).write(self.device, code)

    def read(self, text: str, where: Where) -> Code:
        """Return a code that was typed at `where`; raises Refused where it cannot show it."""
        code = read_code(self.device, text, where)
        if isinstance(code, Problem):
            refuse(code)
        return code

    def record(self, book: Book) -> LockRecord:
        """Return what is known of it: the book's, upon what its kit says."""
        blank = LockRecord(self.kit, self.tag, meant=self.fixed, known=self.fixed is not None)
        kept = book.get((self.kit, self.tag))
        return blank if kept is None else reduce(after, kept.history, blank)

    def settable(self, text: str, where: Where) -> str:
        """Return a code in its written form; raises Refused where it cannot be set to that."""
        if self.keyed:
            refuse(Problem.of("locks.key", where, tag=self.tag))
        if self.fixed is not None:
            refuse(Problem.of("locks.fixed", where, tag=self.tag, code=self.fixed))
        return self.written(self.read(text, where))

    def earlier(self, record: LockRecord) -> tuple[Code, ...]:
        """Return what it may be set to besides what was meant: what it had, what it rests at."""
        read = (read_code(self.device, code, Where(self.tag)) for code in record.earlier)
        found = tuple(code for code in read if not isinstance(code, Problem))
        return found if self.device.shelf is None else (*found, self.device.shelf)

"""The one desk of a studio: opened when a page first needs it, shared by all from then on."""

from __future__ import annotations

import threading
from dataclasses import dataclass, field
from typing import Annotated

from fastapi import Depends
from starlette.requests import HTTPConnection

from boxwright.ledger.store import Ledger
from boxwright.live.clock import SystemClock
from boxwright.live.desk import Desk


@dataclass(slots=True)
class LateDesk:
    """A desk on the ledger `named` (a file or a URL), which is opened when it is first asked for.

    A studio in which nobody plays leaves the ledger alone. Raises Refused, each time anew, where
    the ledger cannot be used.
    """

    named: str | None
    _desk: Desk | None = None
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def open(self) -> Desk:
        """Return the desk."""
        with self._lock:
            if self._desk is None:
                self._desk = Desk(Ledger(self.named), SystemClock())
            return self._desk

    def close(self) -> None:
        """Let go of the ledger; a desk that is asked for later opens it again."""
        with self._lock:
            desk, self._desk = self._desk, None
        if desk is not None:
            desk.ledger.close()


def desk_of(connection: HTTPConnection) -> Desk:
    """Return the desk of the studio that answers a request or a socket."""
    late: LateDesk = connection.app.state.desk
    return late.open()


TheDesk = Annotated[Desk, Depends(desk_of)]

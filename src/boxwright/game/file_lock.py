"""One at a time: a file that one process, or one thread of it, holds while it changes others."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path as File

if sys.platform == "win32":
    import msvcrt

    def _hold(handle: int) -> None:
        msvcrt.locking(handle, msvcrt.LK_LOCK, 1)

    def _let_go(handle: int) -> None:
        msvcrt.locking(handle, msvcrt.LK_UNLCK, 1)

else:
    import fcntl

    def _hold(handle: int) -> None:
        fcntl.flock(handle, fcntl.LOCK_EX)

    def _let_go(handle: int) -> None:
        fcntl.flock(handle, fcntl.LOCK_UN)


@contextmanager
def held(path: File) -> Iterator[None]:
    """Wait until nobody else holds the file `path`, and hold it; it is made if need be.

    The lock goes with the process that holds it, however that ends. Raises OSError.
    """
    with path.open("ab") as file:
        file.seek(0)
        _hold(file.fileno())
        try:
            yield
        finally:
            file.seek(0)
            _let_go(file.fileno())

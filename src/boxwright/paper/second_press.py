"""A second process that presses files beside this one, so that two processors are at work.

Threads alone gain little: Python runs one at a time, and so does PDFium. The second process
starts up while this one still reads the game. It is told what to press through its standard
input and answers through its standard output, one file at a time. Where it cannot be started
or goes astray, all is pressed here, as if there were none.
"""

from __future__ import annotations

import gc
import os
import pickle
import signal
import subprocess
import sys
from collections.abc import Sequence
from types import TracebackType
from typing import IO, TYPE_CHECKING, Any

from boxwright.problems import Problem, Refused

if TYPE_CHECKING:
    from boxwright.paper.frame import Look
    from boxwright.paper.page import Page
    from boxwright.paper.press import Proof

ASTRAY = (OSError, EOFError, pickle.PickleError)


class SecondPress:
    """A press (`paper.press.Press`) that a process of its own works, while it is entered."""

    def __init__(self, *, wanted: bool = True) -> None:
        """Start the process if it is `wanted`. It takes a while to be ready: begin early."""
        self._process = _started() if wanted else None

    def __call__(self, pages: Sequence[Page], look: Look, title: str | None = None) -> Proof:
        """Return the proof of `pages`, whichever process makes it. Raises as a press does."""
        from boxwright.paper.press import pressed

        answer = self._answer((pages, look, title))
        if answer is None:
            return pressed(pages, look, title)
        if isinstance(answer, tuple):
            raise Refused(answer)
        return answer

    def _answer(self, asked: Any) -> Proof | tuple[Problem, ...] | None:
        """Return what the process answers; None where there is none, or none any more."""
        process = self._process
        if process is None or process.stdin is None or process.stdout is None:
            return None
        try:
            _send(asked, process.stdin)
            answer: Proof | tuple[Problem, ...] = pickle.load(process.stdout)  # noqa: S301 - our own process wrote it
        except ASTRAY:
            self._stop()
            return None
        return answer

    def _stop(self) -> None:
        if self._process is not None:
            self._process.kill()
            self._process.communicate()
            self._process = None

    def __enter__(self) -> SecondPress:
        """Return itself."""
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        at: TracebackType | None,
    ) -> None:
        """End the process, which keeps nothing."""
        self._stop()


def _started() -> subprocess.Popen[bytes] | None:
    """Start the process; None where there is no processor for it, or it cannot be started."""
    if (os.cpu_count() or 1) == 1 or not sys.executable:
        return None
    # It looks for modules where this one does, and not beside the files of whoever works.
    code = f"import sys; sys.path[:] = {sys.path!r}; from {__name__} import serve; serve()"
    try:
        return subprocess.Popen(
            [sys.executable, "-c", code],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,  # what goes wrong there goes wrong here, and is told
            creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
        )
    except OSError:
        return None


def serve() -> None:
    """Be the second process: press what is asked for, until nobody asks any more."""
    gc.disable()  # it lives as long as one command
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the first process ends it
    asked, answers = sys.stdin.buffer, sys.stdout.buffer
    sys.stdout = sys.stderr
    _warm_up()
    while True:
        try:
            pages, look, title = pickle.load(asked)  # noqa: S301 - the first process wrote it
        except EOFError:
            return
        _send(_pressed(pages, look, title), answers)


def _pressed(pages: Sequence[Page], look: Look, title: str | None) -> Proof | tuple[Problem, ...]:
    """Return the proof, or the problems of a refusal; whatever else goes wrong ends the process."""
    from boxwright.paper.press import pressed

    try:
        return pressed(pages, look, title)
    except Refused as refused:
        return refused.problems


def _warm_up() -> None:
    """Load what pressing takes, while nothing is asked for yet."""
    import pypdfium2.raw
    import zxingcpp
    from PIL import Image

    from boxwright.fonts import faces
    from boxwright.paper import press

    _ = pypdfium2.raw, zxingcpp, Image, press
    faces()


def _send(value: Any, to: IO[bytes]) -> None:
    pickle.dump(value, to, pickle.HIGHEST_PROTOCOL)
    to.flush()

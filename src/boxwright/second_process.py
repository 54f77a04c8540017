"""A second process that works beside this one, so that two processors are at work.

Threads alone gain little: Python runs one at a time. The second process starts up, and loads
what it will need, while this one still reads a game. It is told what to do through its standard
input and answers through its standard output, one errand at a time. Where it cannot be started
or goes astray, all is done here, as if there were none.
"""

from __future__ import annotations

import gc
import os
import pickle
import signal
import subprocess
import sys
from collections import deque
from collections.abc import Callable
from types import TracebackType
from typing import IO, Any, Generic, Self, TypeVar

from boxwright.frozen import frozen_value
from boxwright.problems import Problem, Refused

T = TypeVar("T")
ASTRAY = (OSError, EOFError, pickle.PickleError)


@frozen_value
class _Given:
    """What work gave."""

    value: Any


@frozen_value
class _Barred:
    """Why work was refused."""

    problems: tuple[Problem, ...]


class Errand(Generic[T]):
    """Work that somebody may do meanwhile: a function by its name in its module, and values."""

    def __init__(self, work: Callable[..., T], args: tuple[Any, ...], to: SecondProcess) -> None:
        """See `SecondProcess.begin`."""
        self.work, self.args, self._to = work, args, to
        self.answer: _Given | _Barred | None = None

    def result(self) -> T:
        """Return what the work gives, whoever does it; raises what the work raises."""
        if self.answer is None:
            self._to.finish(self)
        if self.answer is None:
            self.answer = _answered(self.work, self.args)
        if isinstance(self.answer, _Barred):
            raise Refused(self.answer.problems)
        given: T = self.answer.value
        return given


class SecondProcess:
    """A process that does errands while it is entered; one thread at a time may give them."""

    def __init__(self, ready: Callable[[], None] | None = None) -> None:
        """Start the process, which calls `ready` first; None: there is to be no process.

        `ready` loads what errands will need. It takes a while: begin early.
        """
        self._process = None if ready is None else _started()
        self._doing: Errand[Any] | None = None
        self._waiting: deque[Errand[Any]] = deque()
        if ready is not None:
            self._tell(ready)

    def __call__(self, work: Callable[..., T], *args: Any) -> T:
        """Return what `work` gives for `args`, done by whichever process."""
        return self.begin(work, *args).result()

    def begin(self, work: Callable[..., T], *args: Any) -> Errand[T]:
        """Have `work` done meanwhile, after what was begun before.

        The work, what it takes and what it gives must be such as `pickle` can write.
        """
        errand = Errand(work, args, self)
        if self._process is not None:
            self._waiting.append(errand)
            self._go_on()
        return errand

    def finish(self, errand: Errand[Any]) -> None:
        """Have `errand` answered; it is not where there is no process, or none any more."""
        while self._process is not None and errand.answer is None:
            self._hear()
            self._go_on()

    def _go_on(self) -> None:
        """Give the next errand, if none is being done: two at once could block one another."""
        if self._doing is None and self._waiting:
            errand = self._waiting.popleft()
            if self._tell((errand.work, errand.args)):
                self._doing = errand

    def _tell(self, told: Any) -> bool:
        if self._process is None or self._process.stdin is None:
            return False
        try:
            _send(told, self._process.stdin)
        except ASTRAY:
            self._stop()
            return False
        return True

    def _hear(self) -> None:
        """Wait for the answer to the errand that is being done."""
        if self._doing is None or self._process is None or self._process.stdout is None:
            return
        try:
            answer = pickle.load(self._process.stdout)  # noqa: S301 - our own process wrote it
        except ASTRAY:
            self._stop()
        else:
            self._doing.answer = answer
        self._doing = None

    def _stop(self) -> None:
        if self._process is not None:
            self._process.kill()
            self._process.communicate()
            self._process = None

    def __enter__(self) -> Self:
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


ALONE = SecondProcess()
"""No second process: all is done here, when it is asked for."""


def _started() -> subprocess.Popen[bytes] | None:
    """Start the process; None where there is no processor for it, or it cannot be started."""
    if (os.cpu_count() or 1) == 1 or not sys.executable:
        return None
    # It looks for modules where this one does, and not beside the files of whoever works.
    code = (  # not read by people
        f"import sys; sys.path[:] = {sys.path!r}; from {__name__} import serve; serve()"
    )
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
    """Be the second process: do what is asked for, until nobody asks any more.

    A refusal is an answer; whatever else goes wrong ends the process.
    """
    gc.disable()  # it lives as long as one command
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the first process ends it
    # Whatever a library prints, whether through Python or not, must not stand among the answers.
    asked, answers = sys.stdin.buffer, os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    ready = pickle.load(asked)  # noqa: S301 - the first process wrote it, as all below
    ready()
    while True:
        try:
            work, args = pickle.load(asked)  # noqa: S301
        except EOFError:
            return
        _send(_answered(work, args), answers)


def _answered(work: Callable[..., Any], args: tuple[Any, ...]) -> _Given | _Barred:
    try:
        return _Given(work(*args))
    except Refused as refused:
        return _Barred(tuple(refused.problems))


def _send(value: Any, to: IO[bytes]) -> None:
    pickle.dump(value, to, pickle.HIGHEST_PROTOCOL)
    to.flush()

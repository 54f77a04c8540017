"""What the tests of the commands share: running one as a teacher types it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any, Protocol

import pytest

from boxwright.cli import main


class Ran:
    """What a command printed, and the code with which it ended."""

    def __init__(self, code: object, out: str, err: str) -> None:
        self.code, self.out, self.err = code, out, err

    @property
    def json(self) -> dict[str, Any]:
        value: dict[str, Any] = json.loads(self.out)
        return value

    def refused(self, *said: str) -> bool:
        """Whether the command ended with 2, said all of this, and what helps."""
        return self.code == 2 and all(one in self.err for one in (*said, "What helps:"))


class Run(Protocol):
    """Run a command."""

    def __call__(self, *arguments: str | Path) -> Ran: ...


@pytest.fixture(autouse=True)
def no_ledger(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Keep the sessions of whoever runs the tests out of them."""
    monkeypatch.setattr("boxwright.ledger.place.usual_file", lambda: tmp_path / "usual" / "l.db")


@pytest.fixture(autouse=True)
def one_processor(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have all done by this process: what a second one needs is loaded here already."""
    monkeypatch.setattr("os.cpu_count", lambda: 1)


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    def ran(*arguments: str | Path) -> Ran:
        capsys.readouterr()
        with pytest.raises(SystemExit) as end:
            main([str(one) for one in arguments])
        shown = capsys.readouterr()
        return Ran(end.value.code, shown.out, shown.err)

    return ran

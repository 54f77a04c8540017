"""Whatever happens to the program, what was acknowledged is kept, and nothing by halves."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from boxwright.ledger.store import Ledger
from tests.ledger.happenings import event

ROOT = Path(__file__).resolve().parents[2]
SCRIPT = """
import os, sys
from sqlalchemy import event as hooks
from boxwright.ledger.store import Ledger
from tests.ledger.happenings import event

file, name, writes = sys.argv[1], sys.argv[2], int(sys.argv[3])
ledger = Ledger(file)
if writes < 0:
    hooks.listen(ledger._engine, "after_cursor_execute", lambda *_: _[2].startswith("INSERT")
                 and os._exit(9))
for number in range(abs(writes)):
    kept = ledger.append(event("s-one", id=f"{name}-event-{number:04}"))
    print(kept.seq, kept.id, flush=True)
sys.stdin.read()
os._exit(9)
"""


def start(file: Path, name: str, writes: int) -> subprocess.Popen[str]:
    """Start a program that writes so often, or dies in the middle of writing if that is -1."""
    return subprocess.Popen(
        [sys.executable, "-c", SCRIPT, str(file), name, str(writes)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        env=os.environ | {"PYTHONPATH": f"{ROOT}{os.pathsep}{ROOT / 'src'}"},
    )


@pytest.fixture
def file(tmp_path: Path) -> Path:
    made = tmp_path / "ledger.db"
    with Ledger(made) as ledger:
        ledger.begin("s-one", "g", {}, event("s-one"))
    return made


def test_what_was_acknowledged_outlives_a_kill(file: Path) -> None:
    program = start(file, "a", 5)
    assert program.stdout is not None
    told = [program.stdout.readline().split() for _ in range(5)]
    program.kill()
    program.communicate()
    with Ledger(file) as ledger:
        kept = [[str(one.seq), one.id] for one in ledger.events("s-one")][1:]
    assert kept == told


def test_what_was_not_acknowledged_is_not_there_by_halves(file: Path) -> None:
    program = start(file, "a", -1)
    out, _ = program.communicate()
    assert (program.returncode, out) == (9, "")
    with Ledger(file) as ledger:
        assert [one.seq for one in ledger.events("s-one")] == [1]
        assert ledger.append(event("s-one", id="a-event-0000")).seq == 2


def test_two_programs_write_into_one_ledger(file: Path) -> None:
    programs = [start(file, name, 15) for name in ("a", "b")]
    told = [line.split() for program in programs for line in program.communicate()[0].splitlines()]
    with Ledger(file) as ledger:
        kept = {(str(one.seq), one.id) for one in ledger.events("s-one")[1:]}
    assert kept == {(seq, id) for seq, id in told}
    assert sorted(int(seq) for seq, _ in told) == list(range(2, 32))


def test_two_programs_make_a_new_ledger_at_once(tmp_path: Path) -> None:
    new = tmp_path / "new.db"
    programs = [start(new, name, 0) for name in ("a", "b")]
    assert [(program.communicate()[0], program.returncode) for program in programs] == [("", 9)] * 2
    with Ledger(new) as ledger:
        assert ledger.sessions() == ()

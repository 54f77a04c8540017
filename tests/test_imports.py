"""No command pays for a package that it does not use; what each loads is looked up, not hoped."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.games import demo

HEAVY = {"numpy", "scipy", "ortools", "pandas", "matplotlib", "sqlalchemy", "fastapi", "networkx"}
PAPER = {"typst", "pypdfium2", "pikepdf", "PIL", "zxingcpp", "fontTools"}
WORDS = {"wordfreq"}

SCRIPT = """
import contextlib, io, json, os, sys
processors = int(sys.argv.pop(1))
os.cpu_count = lambda: processors
from boxwright.cli import main
with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
    try:
        main(sys.argv[1:])
    except SystemExit as end:
        code = end.code
print(json.dumps([code, sorted({name.partition(".")[0] for name in sys.modules})]))
"""


def loaded(*arguments: str, data: Path | None = None, processors: int = 1) -> set[str]:
    """Run a command in a fresh Python and return the packages that it loaded.

    `data`: where the user's own ledger would be.
    """
    command = [sys.executable, "-c", SCRIPT, str(processors), *arguments]
    own = {} if data is None else {"XDG_DATA_HOME": str(data)}
    env = os.environ | own
    done = subprocess.run(command, capture_output=True, text=True, check=True, env=env)
    code, modules = json.loads(done.stdout)
    assert code == 0
    return set(modules)


def test_the_overview_loads_neither_models_nor_paper() -> None:
    modules = loaded("--help")
    assert not modules & (HEAVY | PAPER | WORDS | {"pydantic", "tomlkit", "rich"})


@pytest.mark.parametrize("command", ["kinds", "lock"])
def test_questions_load_no_paper(command: str) -> None:
    arguments = {"kinds": ["kinds"], "lock": ["lock", "number-wheels:3", "--code", "427"]}
    assert not loaded(*arguments[command]) & (HEAVY | PAPER | WORDS)


def test_a_sheet_is_made_without_paper_and_printed_without_numpy(tmp_path: Path) -> None:
    make = ["make", "nonogram", "--lock", "number-wheels:3", "--code", "427", "--out"]
    assert not loaded(*make, str(tmp_path / "sheet.json")) & (HEAVY | PAPER | WORDS)
    assert not loaded("solve", str(tmp_path / "sheet.json")) & (HEAVY | PAPER | WORDS)
    printed = loaded(*make, str(tmp_path / "sheet.pdf"))
    assert not printed & (HEAVY | WORDS)
    assert printed >= {"typst", "pypdfium2"}


def test_an_edition_is_built_checked_and_forecast_without_paper(tmp_path: Path) -> None:
    game = str(demo(tmp_path))
    assert loaded("build", game) & (HEAVY | PAPER | WORDS) == {"numpy"}
    assert loaded("check", game) & (HEAVY | PAPER | WORDS) == {"numpy"}
    assert loaded("print", game, "--out", str(tmp_path / "out")) & (HEAVY | WORDS) == set()


@pytest.mark.parametrize("command", ["build", "check"])
def test_with_two_processors_numpy_is_the_second_ones(command: str, tmp_path: Path) -> None:
    game = str(demo(tmp_path))
    assert loaded(command, game, processors=2) & (HEAVY | PAPER | WORDS) == set()


def test_a_forecast_without_sessions_loads_numpy_and_nothing_else_that_is_heavy(
    tmp_path: Path,
) -> None:
    modules = loaded("forecast", str(demo(tmp_path)), "--trials", "100", data=tmp_path)
    assert modules & (HEAVY | PAPER | WORDS) == {"numpy"}

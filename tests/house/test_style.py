"""Every file is formatted, checked and typed, and imports point one way."""

import subprocess
import sys

import pytest

from tests.house.source import ROOT

IMPORTS = "from importlinter.cli import lint_imports_command; lint_imports_command()"


@pytest.mark.parametrize(
    "arguments",
    [
        ["-m", "ruff", "format", "--check", "."],
        ["-m", "ruff", "check", "."],
        ["-m", "mypy", "--strict"],
        ["-c", IMPORTS, "--no-cache"],
    ],
    ids=["format", "lint", "types", "imports"],
)
def test_the_tool_has_nothing_to_say(arguments: list[str]) -> None:
    done = subprocess.run(
        [sys.executable, *arguments], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr

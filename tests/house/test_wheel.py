"""The package holds everything that it needs, and runs where the project's folder is not."""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from tests.house import source


def run(*arguments: str | Path, cwd: Path, **environment: str) -> str:
    """Run Python with `arguments`; its output."""
    done = subprocess.run(
        [sys.executable, *arguments],
        cwd=cwd,
        env=os.environ | environment,
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel, built by what is installed, without the network."""
    folder = tmp_path_factory.mktemp("wheel")
    run("-m", "hatchling", "build", "--target", "wheel", "--directory", folder, cwd=source.ROOT)
    (built,) = folder.glob("*.whl")
    return built


@pytest.mark.xdist_group("wheel")
def test_it_holds_every_file_of_the_package(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        held = {name for name in archive.namelist() if ".dist-info/" not in name}
    inside = [path.relative_to(source.PACKAGE.parent) for path in source.files() if within(path)]
    examples = [path for path in source.files() if path.is_relative_to(source.ROOT / "examples")]
    along = {Path("boxwright") / path.relative_to(source.ROOT) for path in examples}
    assert {path.as_posix() for path in {*inside, *along}} == held
    assert {".mo", ".po", ".py", ".typ"} <= {path.suffix for path in inside}


def within(path: Path) -> bool:
    """Whether a file belongs to the package."""
    return path.is_relative_to(source.PACKAGE)


@pytest.mark.xdist_group("wheel")
def test_it_runs_installed_elsewhere(wheel: Path, tmp_path: Path) -> None:
    site, cwd = tmp_path / "site", tmp_path / "elsewhere"
    cwd.mkdir()
    options = ["--no-deps", "--no-index", "--no-compile", "--quiet", "--target", str(site)]
    run("-m", "pip", "install", *options, wheel, cwd=cwd, PIP_CONSTRAINT=os.devnull, PIP_USER="0")
    where = run("-c", "import boxwright; print(boxwright.__file__)", cwd=cwd, PYTHONPATH=str(site))
    assert Path(where.strip()).is_relative_to(site)
    told = run("-m", "boxwright", "--help", cwd=cwd, PYTHONPATH=str(site))
    assert "Usage: boxwright" in told
    assert "cli.help" not in told

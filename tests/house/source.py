"""The project's own files, as the rules of the house look at them."""

import os
import subprocess
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "src" / "boxwright"
ELSEWHERE = {".git", ".venv", "__pycache__", "out", "build", "dist"}


@cache
def files() -> tuple[Path, ...]:
    """Return all files that are, or are about to be, committed."""
    command = ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
    try:
        done = subprocess.run(command, cwd=ROOT, capture_output=True, check=True)
    except (OSError, subprocess.CalledProcessError):
        return tuple(walked(ROOT))
    names = sorted({os.fsdecode(name) for name in done.stdout.split(b"\0") if name})
    return tuple(path for path in (ROOT / name for name in names) if path.is_file())


def walked(folder: Path) -> list[Path]:
    """Return the files under `folder` without asking git, as in an unpacked archive."""
    found = []
    for path in sorted(folder.iterdir()):
        if path.name in ELSEWHERE or path.name.endswith("_cache"):
            continue
        found += walked(path) if path.is_dir() else [path]
    return found


def texts(*suffixes: str) -> dict[str, str]:
    """Return the project's text files with one of `suffixes` (none: all), by relative path."""
    found = {}
    for path in files():
        if suffixes and path.suffix not in suffixes:
            continue
        data = path.read_bytes()
        if b"\0" not in data:
            found[path.relative_to(ROOT).as_posix()] = data.decode("utf-8", "replace")
    return found


def package(*suffixes: str) -> dict[str, str]:
    """Return the text files of the package itself with one of `suffixes`."""
    return {
        name: text for name, text in texts(*suffixes).items() if name.startswith("src/boxwright/")
    }

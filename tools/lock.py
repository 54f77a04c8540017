"""Writes requirements/*.lock anew from pyproject.toml. For developers; needs uv on the PATH.

    python tools/lock.py            keeps the versions that stand, adds and drops what changed
    python tools/lock.py --upgrade  takes the newest that pyproject.toml allows

The locks hold every platform's packages (markers say which is whose) and the hash of
every file, and name no index, so that each reader's own index settings count.
"""

import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent

OPTIONS = (
    "--universal",
    "--python-version=3.11",
    "--generate-hashes",
    "--no-header",
    "--no-emit-index-url",
    "--no-emit-find-links",
    "--quiet",
)

# What each lock holds beside the run-time dependencies. The tests run on the very versions
# that users have, hence the constraint.
LOCKS: dict[str, tuple[str, ...]] = {
    "run": (),
    "test": ("--group=test", "--constraints=requirements/run.lock"),
}


def command(uv: str, lock: str, more: list[str]) -> list[str]:
    """The uv command that writes one lock; paths are relative, as they end up in comments."""
    output = f"--output-file=requirements/{lock}.lock"
    return [uv, "pip", "compile", "pyproject.toml", *OPTIONS, *LOCKS[lock], output, *more]


def main(arguments: list[str]) -> int:
    """Write all locks; the exit code is uv's, or 2 where uv is missing."""
    uv = os.environ.get("UV") or shutil.which("uv")
    if uv is None:
        print("uv is missing. Type: pip install uv   (or set UV to where it is)", file=sys.stderr)
        return 2
    for lock in LOCKS:
        done = subprocess.run(command(uv, lock, arguments), cwd=ROOT, check=False)
        if done.returncode:
            return done.returncode
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

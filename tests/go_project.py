"""A stand-in of the project for the tests of go.py: two locks of packages made here."""

import hashlib
import importlib.util
import json
import os
import re
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path
from types import ModuleType, SimpleNamespace
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parent.parent
GO = ROOT / "go.py"

# What the stand-in's Boxwright and pytest do: tell how they were called, and end as told.
TELLS = """\
import json, os, signal, sys
keys = ("PYTHONPATH", "PIP_TARGET", "PIP_CONSTRAINT")
told = {"args": sys.argv[1:], "cwd": os.getcwd(), "path": sys.path,
        "env": {key: os.environ[key] for key in keys if key in os.environ}}
print(json.dumps(told))
if sys.argv[1:2] == ["killed"]:
    os.kill(os.getpid(), signal.SIGTERM)
sys.exit(int(sys.argv[2]) if sys.argv[1:2] == ["exit"] else 0)
"""


def load() -> ModuleType:
    spec = importlib.util.spec_from_file_location("go", GO)
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


go = load()
LINUX = go.System("posix", "linux", root=False, debian=False)
DEBIAN = go.System("posix", "linux", root=False, debian=True)
DEBIAN_ROOT = go.System("posix", "linux", root=True, debian=True)
MAC = go.System("posix", "darwin", root=False, debian=False)
WINDOWS = go.System("nt", "win32", root=False, debian=False)


def make_wheel(folder: Path, name: str, files: dict[str, str]) -> str:
    """Put a wheel of `files` into `folder`; its line for a lock file."""
    info = f"{name}-1.0.dist-info"
    files = files | {
        f"{info}/METADATA": f"Metadata-Version: 2.1\nName: {name}\nVersion: 1.0\n",
        f"{info}/WHEEL": "Wheel-Version: 1.0\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
    }
    record = "".join(f"{path},,\n" for path in [*files, f"{info}/RECORD"])
    wheel = folder / f"{name}-1.0-py3-none-any.whl"
    with zipfile.ZipFile(wheel, "w") as archive:
        for path, text in (files | {f"{info}/RECORD": record}).items():
            archive.writestr(path, text)
    return f"{name}==1.0 \\\n    --hash=sha256:{hashlib.sha256(wheel.read_bytes()).hexdigest()}\n"


def make_project(folder: Path, wheels: Path) -> Path:
    """A folder like ours, with next to nothing in it. Its name is one that breaks things."""
    wheels.mkdir(parents=True)
    run = make_wheel(wheels, "tiny", {"tiny.py": ""})
    test = run + make_wheel(wheels, "pytest", {"pytest.py": TELLS})
    here = folder / "für Класс 5 b"
    (here / "requirements").mkdir(parents=True)
    (here / "requirements/run.lock").write_text(run)
    (here / "requirements/test.lock").write_text(test)
    (here / "src/boxwright").mkdir(parents=True)
    (here / "src/boxwright/__main__.py").write_text(TELLS)
    shutil.copy(GO, here)
    return here


class Project:
    """The stand-in, and how to start its go.py."""

    def __init__(self, folder: Path) -> None:
        self.wheels = folder / "wheels"
        self.here = make_project(folder, self.wheels)
        self.venv = self.here / ".venv"
        self.settings = folder / "pip.conf"

    def environment(self, **more: str) -> dict[str, str]:
        return os.environ | {
            "PIP_CONFIG_FILE": str(self.settings),
            "PIP_NO_INDEX": "1",
            "PIP_FIND_LINKS": str(self.wheels),
            "PYTHONUTF8": "1",
        } | more  # fmt: skip

    def popen(self, *arguments: str, cwd: Path | None = None, **more: str) -> subprocess.Popen[str]:
        return subprocess.Popen(
            [sys.executable, str(self.here / "go.py"), *arguments],
            cwd=cwd,
            env=self.environment(**more),
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            encoding="utf-8",
        )

    def go(self, *arguments: str, cwd: Path | None = None, **more: str) -> SimpleNamespace:
        process = self.popen(*arguments, cwd=cwd, **more)
        out, err = process.communicate(timeout=600)
        assert "Traceback" not in err
        told = [json.loads(line) for line in out.splitlines() if line.startswith("{")]
        return SimpleNamespace(code=process.returncode, out=out, err=err, told=told)

    def stamps(self) -> set[str]:
        return {file.name for file in self.venv.glob("*.stamp")}

    def mark(self) -> Path:
        """A file that is gone when .venv is made anew."""
        mark = self.venv / "mark"
        mark.touch()
        return mark


def trouble(function: Any, *arguments: Any) -> str:
    """What is said when it goes wrong."""
    with pytest.raises(go.Trouble) as caught:
        function(*arguments)
    text: str = caught.value.text()
    assert re.fullmatch(r"\S.*\.\n  Why:  \S.*\n  Next: \S.*\n", text, re.S)
    return text

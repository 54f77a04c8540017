"""A whole game folder to work on, and a way to write it with changes."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

SAMPLE = Path(__file__).with_name("sample")

Changed = Callable[..., Path]


@pytest.fixture
def sample(tmp_path: Path) -> Path:
    """A copy of the sample game that a test may spoil."""
    folder = tmp_path / "mill"
    shutil.copytree(SAMPLE, folder)
    (folder / "pictures").mkdir(exist_ok=True)
    return folder


@pytest.fixture
def changed(sample: Path) -> Changed:
    """Write the sample with `old` replaced by `new` once in a file, and return the folder."""

    def change(*pairs: tuple[str, str], file: str = "game.toml") -> Path:
        path = sample / file
        text = path.read_text(encoding="utf-8")
        for old, new in pairs:
            assert text.count(old) >= 1, old
            text = text.replace(old, new, 1)
        path.write_text(text, encoding="utf-8")
        return sample

    return change

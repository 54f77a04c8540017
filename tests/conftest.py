"""What all tests share: the long ones run only when asked for."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Sequence
from typing import Any

import pytest
from hypothesis import settings

settings.register_profile("house", deadline=None, derandomize=bool(os.environ.get("CI")))
settings.load_profile("house")


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add `--long`."""
    parser.addoption("--long", action="store_true", help="run the tests that take minutes, too")


def pytest_configure(config: pytest.Config) -> None:
    """Name the marker."""
    config.addinivalue_line("markers", "long: takes minutes; runs with --long")


def pytest_collection_modifyitems(config: pytest.Config, items: Sequence[pytest.Item]) -> None:
    """Leave out long tests unless they are asked for."""
    if config.getoption("--long"):
        return
    skip = pytest.mark.skip(reason="takes minutes; add --long")
    for item in items:
        if "long" in item.keywords:
            item.add_marker(skip)


class Processors:
    """How many processors the machine seems to have, and what is started on it since."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self._monkeypatch, self._start = monkeypatch, subprocess.Popen

    def __call__(self, count: int) -> list[subprocess.Popen[bytes]]:
        """Let there be `count`, and return the processes, as they are started from now on."""
        started: list[subprocess.Popen[bytes]] = []

        def noted(*args: Any, **more: Any) -> subprocess.Popen[bytes]:
            started.append(self._start(*args, **more))
            return started[-1]

        self._monkeypatch.setattr("os.cpu_count", lambda: count)
        self._monkeypatch.setattr("subprocess.Popen", noted)
        return started


@pytest.fixture
def processors(monkeypatch: pytest.MonkeyPatch) -> Processors:
    return Processors(monkeypatch)

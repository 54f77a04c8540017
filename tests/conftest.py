"""What all tests share: the long ones run only when asked for."""

from __future__ import annotations

import os
from collections.abc import Sequence

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

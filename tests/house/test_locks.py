"""The locks hold what pyproject.toml asks for, and the tests run on what users get."""

import re
import tomllib

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from tests.house.source import ROOT

PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
RUN: list[str] = PROJECT["project"]["dependencies"]
TEST: list[str] = RUN + PROJECT["dependency-groups"]["test"]
PIN = re.compile(
    r"([\w.-]+)==(\S+)(?: ; [^\\]+)? \\\n((?: +--hash=sha256:[0-9a-f]{64}(?: \\)?\n)+)"
)


def pins(text: str) -> dict[str, set[str]]:
    """Return what a lock holds: for each package its version, or versions for several Pythons."""
    found: dict[str, set[str]] = {}
    for name, version, _ in PIN.findall(text):
        found.setdefault(canonicalize_name(name), set()).add(version)
    return found


def lock(name: str) -> str:
    """Return the text of one lock."""
    return (ROOT / "requirements" / f"{name}.lock").read_text("utf-8")


def unmet(asked: list[str], held: dict[str, set[str]]) -> list[str]:
    """Return the requirements that no version held meets."""
    found = []
    for text in asked:
        wanted = Requirement(text)
        versions = held.get(canonicalize_name(wanted.name), set())
        if not versions or not all(wanted.specifier.contains(version) for version in versions):
            found.append(text)
    return found


@pytest.mark.parametrize(("name", "asked"), [("run", RUN), ("test", TEST)])
def test_each_lock_holds_what_is_asked_for(name: str, asked: list[str]) -> None:
    """Otherwise type: python tools/lock.py"""
    assert unmet(asked, pins(lock(name))) == []


@pytest.mark.parametrize("name", ["run", "test"])
def test_each_package_has_its_hashes_and_nothing_else_stands_there(name: str) -> None:
    rest = re.sub(r"^ *#.*\n", "", PIN.sub("", lock(name)), flags=re.M)
    assert rest == ""


def test_tests_run_on_what_users_get() -> None:
    run, test = pins(lock("run")), pins(lock("test"))
    assert run
    assert {name: test.get(name) for name in run} == run


def test_what_is_not_met_is_found() -> None:
    held = {"typst": {"0.15.2"}, "zxing-cpp": {"3.1"}}
    assert unmet(["typst>=0.15,<0.16", "zxing_cpp"], held) == []
    assert unmet(["typst<0.15", "rich"], held) == ["typst<0.15", "rich"]

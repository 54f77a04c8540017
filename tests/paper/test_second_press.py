"""A second process that presses files: the same files, the same refusals, and no need of it."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from boxwright.paper.frame import Look
from boxwright.paper.press import pressed
from boxwright.paper.render import MisprintError
from boxwright.paper.second_press import SecondPress
from boxwright.problems import Refused
from tests.paper.conftest import Maker

A4 = Look("a4", 14)


@pytest.fixture(name="started")
def _started(monkeypatch: pytest.MonkeyPatch) -> list[subprocess.Popen[bytes]]:
    """Every process that is started from now on, on a machine with two processors."""
    begun: list[subprocess.Popen[bytes]] = []
    start = subprocess.Popen

    def noted(*args: Any, **more: Any) -> subprocess.Popen[bytes]:
        begun.append(start(*args, **more))
        return begun[-1]

    monkeypatch.setattr("os.cpu_count", lambda: 2)
    monkeypatch.setattr("subprocess.Popen", noted)
    return begun


@pytest.fixture(name="second")
def _second(started: list[subprocess.Popen[bytes]]) -> Iterator[SecondPress]:
    """A press whose process runs."""
    with SecondPress() as press:
        assert [one.poll() for one in started] == [None]
        yield press


@pytest.fixture(name="not_here")
def _not_here(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing is pressed in this process."""

    def refused(*_: object) -> None:
        raise AssertionError("pressed here")

    monkeypatch.setattr("boxwright.paper.press.pressed", refused)


@pytest.mark.usefixtures("not_here")
def test_it_makes_the_same_file_as_this_process(second: SecondPress, page: Maker) -> None:
    pages = [page(), page(title="Another diary")]
    assert second(pages, A4, "Two diaries") == pressed(pages, A4, "Two diaries")


@pytest.mark.usefixtures("not_here")
def test_it_presses_one_file_after_the_other(second: SecondPress, page: Maker) -> None:
    assert second([page()], A4).sheets == 1
    assert second([page(), page(title="Another diary")], A4).sheets == 2


@pytest.mark.usefixtures("not_here")
def test_what_does_not_fit_is_refused_as_here(second: SecondPress, page: Maker) -> None:
    pages = [page(lines=("A long line of a long story. " * 40,) * 12)]
    with pytest.raises(Refused) as there:
        second(pages, A4)
    with pytest.raises(Refused) as here:
        pressed(pages, A4)
    assert there.value.problems == here.value.problems
    assert second([page()], A4).sheets == 1


def test_a_faulty_template_is_told_as_here(
    second: SecondPress, page: Maker, started: list[subprocess.Popen[bytes]], tmp_path: Path
) -> None:
    faulty = tmp_path / "faulty"
    faulty.with_suffix(".typ").write_text(
        '#let draw(part, sheet, words, look) = panic("torn")', encoding="utf-8"
    )
    with pytest.raises(MisprintError, match="torn"):
        second([page(template=str(faulty))], A4)
    assert [one.poll() is None for one in started] == [False]


def test_where_it_has_ended_all_is_pressed_here(
    second: SecondPress, page: Maker, started: list[subprocess.Popen[bytes]]
) -> None:
    started[0].kill()
    for _ in range(2):
        assert second([page()], A4) == pressed([page()], A4)


def test_where_it_answers_nonsense_all_is_pressed_here(
    page: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    talks = "import sys; sys.stdout.write('No!'); sys.stdout.flush(); sys.stdin.read()"
    start = subprocess.Popen
    monkeypatch.setattr("os.cpu_count", lambda: 2)
    monkeypatch.setattr(
        "subprocess.Popen", lambda _, **more: start([sys.executable, "-c", talks], **more)
    )
    with SecondPress() as second:
        assert second([page()], A4) == pressed([page()], A4)


def test_where_it_cannot_be_started_all_is_pressed_here(
    page: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("os.cpu_count", lambda: 2)
    monkeypatch.setattr("sys.executable", "/nowhere/python")
    with SecondPress() as second:
        assert second([page()], A4) == pressed([page()], A4)


def test_one_processor_gets_no_second_process(
    page: Maker, monkeypatch: pytest.MonkeyPatch, started: list[subprocess.Popen[bytes]]
) -> None:
    monkeypatch.setattr("os.cpu_count", lambda: 1)
    with SecondPress() as second:
        assert second([page()], A4) == pressed([page()], A4)
    assert started == []


def test_its_process_ends_with_it(started: list[subprocess.Popen[bytes]]) -> None:
    with pytest.raises(KeyboardInterrupt), SecondPress():
        raise KeyboardInterrupt
    assert [one.poll() is None for one in started] == [False]


@pytest.mark.usefixtures("not_here")
def test_it_looks_for_nothing_beside_the_files_of_whoever_works(
    page: Maker, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, started: list[object]
) -> None:
    (tmp_path / "pickle.py").write_text("raise SystemExit", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(sys, "path", [one for one in sys.path if one])
    with SecondPress() as second:
        assert second([page()], A4).sheets == 1
    assert len(started) == 1

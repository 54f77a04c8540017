"""A second process: it does what is asked as this one would, and nothing needs it."""

from __future__ import annotations

import gc
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from boxwright.problems import Problem, Refused, Where, refuse
from boxwright.second_process import ALONE, SecondProcess
from tests.conftest import Processors

STORY = Problem.of("folder.missing", Where("story.toml"), name="story.toml")


@pytest.fixture(name="started")
def _started(processors: Processors) -> list[subprocess.Popen[bytes]]:
    """Every process that is started from now on, on a machine with two processors."""
    return processors(2)


@pytest.fixture(name="second")
def _second(started: list[subprocess.Popen[bytes]]) -> Iterator[SecondProcess]:
    """A second process that runs."""
    with SecondProcess(gc.disable) as second:
        assert [one.poll() for one in started] == [None]
        yield second


def test_it_does_one_errand_after_the_other(second: SecondProcess) -> None:
    assert second(divmod, 17, 5) == (3, 2)
    assert second(sorted, "cab") == ["a", "b", "c"]


def test_another_process_does_it(second: SecondProcess, started: list[Any]) -> None:
    assert second(os.getpid) == started[0].pid != os.getpid()


def test_what_it_will_need_is_made_ready_first(started: list[Any]) -> None:
    with SecondProcess(gc.enable) as ready:
        assert ready(gc.isenabled)
    with SecondProcess(gc.disable) as ready:
        assert not ready(gc.isenabled)
    assert len(started) == 2


@pytest.mark.parametrize("order", [(0, 1, 2), (2, 0, 1), (1, 2, 0)])
def test_what_was_begun_can_be_asked_for_in_any_order(
    second: SecondProcess, order: tuple[int, ...]
) -> None:
    begun = [second.begin(divmod, number, 5) for number in (6, 12, 18)]
    assert second(os.getpid) != os.getpid()
    found = {at: begun[at].result() for at in order}
    assert [found[at] for at in range(3)] == [(1, 1), (2, 2), (3, 3)]


@pytest.mark.parametrize("work", [print, os.system])
def test_what_is_printed_there_is_no_answer(second: SecondProcess, work: Any) -> None:
    second(work, "echo No!")
    assert second(os.getpid) != os.getpid()


def test_an_answer_is_asked_for_once(second: SecondProcess) -> None:
    errand = second.begin(os.urandom, 8)
    assert errand.result() == errand.result()


def test_what_is_refused_there_is_refused_here(second: SecondProcess) -> None:
    with pytest.raises(Refused) as told:
        second(refuse, STORY)
    assert told.value.problems == (STORY,)
    assert second(os.getpid) != os.getpid()


def test_whatever_else_goes_wrong_there_goes_wrong_here(
    second: SecondProcess, started: list[subprocess.Popen[bytes]]
) -> None:
    with pytest.raises(ValueError, match="'twelve'"):
        second(int, "twelve")
    assert [one.poll() is None for one in started] == [False]


def test_where_it_has_ended_all_is_done_here(
    second: SecondProcess, started: list[subprocess.Popen[bytes]]
) -> None:
    begun = second.begin(os.getpid)
    started[0].kill()
    assert second(divmod, 17, 5) == (3, 2)
    assert begun.result() in (os.getpid(), started[0].pid)
    assert second(os.getpid) == os.getpid()


def test_where_it_answers_nonsense_all_is_done_here(monkeypatch: pytest.MonkeyPatch) -> None:
    talks = "import sys; sys.stdout.write('No!'); sys.stdout.flush(); sys.stdin.read()"
    start = subprocess.Popen
    monkeypatch.setattr("os.cpu_count", lambda: 2)
    monkeypatch.setattr(
        "subprocess.Popen", lambda _, **more: start([sys.executable, "-c", talks], **more)
    )
    with SecondProcess(gc.disable) as second:
        assert second(os.getpid) == os.getpid()


def test_where_it_cannot_be_started_all_is_done_here(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("os.cpu_count", lambda: 2)
    monkeypatch.setattr("sys.executable", "/nowhere/python")
    with SecondProcess(gc.disable) as second:
        assert second(os.getpid) == os.getpid()


def test_one_processor_gets_no_second_process(processors: Processors) -> None:
    started = processors(1)
    with SecondProcess(gc.disable) as second:
        assert second(os.getpid) == os.getpid()
    assert started == []


def test_alone_it_is_done_when_it_is_asked_for() -> None:
    done: list[int] = []
    errand = ALONE.begin(done.append, 1)
    assert done == []
    errand.result()
    errand.result()
    assert done == [1]


def test_alone_a_refusal_is_told_each_time() -> None:
    errand = ALONE.begin(refuse, STORY)
    for _ in range(2):
        with pytest.raises(Refused) as told:
            errand.result()
        assert told.value.problems == (STORY,)


def test_its_process_ends_with_it(started: list[subprocess.Popen[bytes]]) -> None:
    with pytest.raises(KeyboardInterrupt), SecondProcess(gc.disable):
        raise KeyboardInterrupt
    assert [one.poll() is None for one in started] == [False]


def test_it_looks_for_nothing_beside_the_files_of_whoever_works(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, started: list[Any]
) -> None:
    (tmp_path / "pickle.py").write_text("raise SystemExit", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(sys, "path", [one for one in sys.path if one])
    with SecondProcess(gc.disable) as second:
        assert second(os.getpid) == started[0].pid

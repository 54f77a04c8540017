"""go.py: what it sets up, and when.

The whole way is gone with a stand-in of the project, so that nothing needs the network.
"""

import os
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.go_project import (
    LINUX,
    ROOT,
    TELLS,
    WINDOWS,
    Project,
    go,
    make_project,
    make_wheel,
    trouble,
)


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Project]:
    """One set-up for all tests that leave it working, under settings that are in the way."""
    project = Project(tmp_path_factory.mktemp("go"))
    constraint = project.settings.with_name("constraints.txt")
    constraint.write_text("tiny<1\n")
    project.settings.write_text(
        f"[global]\nconstraint = {constraint}\nuser = true\nrequire-virtualenv = true\n"
    )
    done = project.go("--", PIP_USER="1", PIP_PREFIX="nowhere")
    assert done.code == 0, done.err
    assert len(done.out.splitlines()) == len(done.told)  # what it did about itself is in err
    assert "Setting up in" in done.err
    yield project
    shutil.rmtree(project.here)


together = pytest.mark.xdist_group("go")  # so that `shared` is made once


# --- the whole way ---------------------------------------------------------------------


@together
def test_a_command_gets_its_arguments_and_its_folder(shared: Project, tmp_path: Path) -> None:
    (tmp_path / "json.py").write_text("raise SystemExit('imported from where someone works')")
    done = shared.go("--", "check", "my game", "ü", "--x=*", cwd=tmp_path)
    assert (done.code, done.err) == (0, "")
    assert done.told[0]["args"] == ["check", "my game", "ü", "--x=*"]
    assert Path(done.told[0]["cwd"]) == tmp_path.resolve()
    assert str(shared.here.resolve() / "src") in done.told[0]["path"]


@together
def test_its_exit_code_is_passed_on(shared: Project) -> None:
    assert shared.go("--", "exit", "7").code == 7


@pytest.mark.skipif(os.name == "nt", reason="signals end processes on POSIX alone")
def test_a_killed_step_ends_the_demo_as_shells_count() -> None:
    assert go.run([sys.executable, "-c", TELLS, "killed"], dict(os.environ)) == 128 + 15


@together
def test_settings_that_lead_elsewhere_are_cleared(shared: Project, tmp_path: Path) -> None:
    done = shared.go("--", PIP_TARGET=str(tmp_path), PYTHONPATH=str(tmp_path))
    assert done.told[0]["env"] == {"PIP_CONSTRAINT": os.devnull}


@together
def test_the_demo_is_checked_then_printed(shared: Project, tmp_path: Path) -> None:
    done = shared.go(cwd=tmp_path)
    assert done.code == 0
    assert [told["args"] for told in done.told] == [list(step) for step in go.DEMO_STEPS]
    assert {Path(told["cwd"]) for told in done.told} == {shared.here.resolve()}
    assert str(shared.here.resolve() / "out") in done.out
    assert "-- --help" in done.out


def test_the_demo_stops_at_the_first_step_that_fails(monkeypatch: pytest.MonkeyPatch) -> None:
    ran = []

    def fails(command: list[str], *_: object) -> int:
        ran.append(command)
        return 2

    monkeypatch.setattr(go, "set_up", lambda *_: None)
    monkeypatch.setattr(go, "run", fails)
    assert go.demo(str(ROOT), LINUX, {}) == 2
    assert len(ran) == 1


@together
@pytest.mark.skipif(os.name == "nt", reason="processor time of children is counted on POSIX alone")
def test_a_second_start_costs_next_to_nothing(shared: Project) -> None:
    """In processor time, as the clock's depends on what else runs."""

    def least(command: list[str]) -> float:
        costs = []
        for _ in range(7):
            before = os.times()
            subprocess.run(command, env=shared.environment(), check=True, capture_output=True)
            after = os.times()
            costs.append(sum(after[2:4]) - sum(before[2:4]))
        return min(costs)

    direct = least([go.venv_python(str(shared.here), LINUX), "-P", "-m", "boxwright"])
    through = least([sys.executable, str(shared.here / "go.py"), "--"])
    assert through - direct < 0.3


@together
def test_what_tests_need_is_set_up_on_top(shared: Project) -> None:
    assert shared.stamps() == {"boxwright-run.stamp"}
    mark = shared.mark()
    done = shared.go("test", "-k", "a b", "--long")
    assert done.code == 0
    assert done.told[0]["args"] == ["-k", "a b", "--long"]
    assert Path(done.told[0]["cwd"]) == shared.here.resolve()
    assert shared.stamps() == {"boxwright-run.stamp", "boxwright-test.stamp"}
    assert mark.exists()
    assert "Setting up" not in shared.go("--").err

    (shared.venv / "boxwright-run.stamp").unlink()  # as a set-up leaves it that was broken off
    assert shared.go("--").code == 0
    assert not mark.exists()
    assert shared.stamps() == {"boxwright-run.stamp"}


FALSE = f" --hash=sha256:{'0' * 64}"
OFFLINE = {
    "PIP_INDEX_URL": "http://127.0.0.1:9/",  # nobody listens there
    "PIP_NO_INDEX": "0",
    "PIP_FIND_LINKS": os.devnull,
    "PIP_RETRIES": "1",
}


@together
@pytest.mark.parametrize(
    ("package", "settings", "line"),
    [
        ("untrue==1.0" + FALSE, {}, "its checksum differs"),
        ("untrue==1.0", {}, "Hashes are required"),
        ("absent==1.0" + FALSE, {}, "64-bit Python"),
        ("absent==1.0" + FALSE, OFFLINE, "Connect to the internet"),
    ],
    ids=["untrue", "unhashed", "absent", "offline"],
)
def test_what_cannot_be_installed_is_told_and_leaves_no_stamp(
    shared: Project,
    monkeypatch: pytest.MonkeyPatch,
    package: str,
    settings: dict[str, str],
    line: str,
) -> None:
    here = str(shared.here.resolve())
    lock = shared.here / "requirements/run.lock"
    right = lock.read_text()
    make_wheel(shared.wheels, "untrue", {})
    monkeypatch.setattr(go, "make_venv", lambda *_: None)
    lock.write_text(package)
    try:
        environment = go.child_environment(shared.environment(**settings))
        assert line in trouble(go.set_up, here, "run", LINUX, environment)
        assert not go.is_ready(here, "run", LINUX)
    finally:
        lock.write_text(right)


@pytest.mark.skipif(os.name == "nt", reason="a killed holder is tried where it can be killed")
def test_two_starts_after_a_killed_one_set_up_once(tmp_path: Path) -> None:
    project = Project(tmp_path)
    killed = project.popen("--")
    try:
        while not (project.venv / "pyvenv.cfg").exists():
            assert killed.poll() is None
            time.sleep(0.02)
    finally:
        killed.kill()
        killed.communicate()
    both = [project.popen("--", "a"), project.popen("--", "b")]
    outs = [process.communicate(timeout=600) for process in both]
    assert [process.returncode for process in both] == [0, 0], outs
    assert sum("Setting up in" in err for _, err in outs) == 1
    assert sum("Waiting for it" in err for _, err in outs) >= 1
    shutil.rmtree(project.here)


@pytest.mark.skipif(os.name == "nt", reason="there a lock ends with the start that holds it")
def test_what_a_killed_start_left_running_holds_the_lock_on(tmp_path: Path) -> None:
    file = tmp_path / "lock"
    command = [sys.executable, "-c", "print(1, flush=True); input()"]
    with file.open("a") as first:
        go.wait_for_lock(first, LINUX)
        held = ["-c", f"import os; os.fstat({first.fileno()}); print('held')"]
        assert go.run_quietly([sys.executable, *held], str(tmp_path), None) == (0, "held\n")
        left = subprocess.Popen(
            command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, close_fds=False
        )
    with left, file.open("a") as second:
        assert left.stdout
        assert left.stdout.readline()
        assert not go.lock_now(second, LINUX)
        left.kill()
        left.wait()
        assert go.lock_now(second, LINUX)


# --- when it is made anew --------------------------------------------------------------


@pytest.fixture
def ready(tmp_path: Path) -> str:
    """A folder that looks set up, though nothing is installed."""
    here = make_project(tmp_path, tmp_path / "wheels")
    for system in (LINUX, WINDOWS):
        python = Path(go.venv_python(str(here), system))
        python.parent.mkdir(parents=True)
        python.touch()
    for name in go.LOCKS:
        Path(go.stamp_file(here, name)).write_text(go.wanted_stamp(str(here), name))
    return str(here)


@pytest.mark.parametrize("system", [LINUX, WINDOWS], ids=["linux", "windows"])
def test_all_that_fits_is_ready(ready: str, system: Any) -> None:
    assert go.is_ready(ready, "run", system)
    assert go.is_ready(ready, "test", system)


def test_another_lock_python_or_folder_is_not_ready(
    ready: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as change:
        change.setattr(sys, "version", "3.12.0 (another)")
        assert not go.is_ready(ready, "run", LINUX)
    moved = ready + " moved"
    os.rename(ready, moved)  # noqa: PTH104 - strings, as go.py has them
    assert not go.is_ready(moved, "run", LINUX)
    os.rename(moved, ready)  # noqa: PTH104
    assert go.is_ready(ready, "run", LINUX)
    Path(ready, "requirements/test.lock").write_text("")
    assert go.is_ready(ready, "run", LINUX)
    assert not go.is_ready(ready, "test", LINUX)
    Path(ready, "requirements/run.lock").write_text("")
    assert not go.is_ready(ready, "run", LINUX)


def test_an_install_on_top_that_breaks_off_leaves_nothing_ready(
    ready: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    def breaks_off(*_: object) -> None:
        raise KeyboardInterrupt

    Path(go.stamp_file(ready, "test")).unlink()
    monkeypatch.setattr(go, "install", breaks_off)
    with pytest.raises(KeyboardInterrupt):
        go.set_up(ready, "test", LINUX, {})
    assert not go.is_ready(ready, "run", LINUX)


@pytest.mark.parametrize(("lock", "anew"), [(None, 0), ("test", 1), ("run", 1)])
def test_only_what_was_never_there_is_put_on_top(
    ready: str, monkeypatch: pytest.MonkeyPatch, lock: str | None, anew: int
) -> None:
    made: list[object] = []
    monkeypatch.setattr(go, "make_venv", lambda *_: made.append(1))
    monkeypatch.setattr(go, "install", lambda *_: None)
    if lock:
        Path(ready, "requirements", f"{lock}.lock").write_text("changed==1.0")
    else:
        Path(go.stamp_file(ready, "test")).unlink()
    go.set_up(ready, "test", LINUX, {})
    assert len(made) == anew
    assert go.is_ready(ready, "test", LINUX)


def test_a_venv_whose_python_is_gone_is_not_ready(ready: str) -> None:
    Path(go.venv_python(ready, LINUX)).unlink()
    assert not go.is_ready(ready, "run", LINUX)


def test_a_half_removed_venv_is_removed_to_the_end(tmp_path: Path) -> None:
    folder = tmp_path / ".venv"
    (folder / "lib").mkdir(parents=True)
    (folder / "pyvenv.cfg").touch()
    go.remove_venv(str(tmp_path))
    assert list(folder.iterdir()) == []
    go.remove_venv(str(tmp_path))


def test_a_removal_that_breaks_off_leaves_what_tells_that_it_is_a_venv(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def breaks_off(_: object) -> None:
        raise KeyboardInterrupt

    folder = tmp_path / ".venv"
    (folder / "lib").mkdir(parents=True)
    (folder / "pyvenv.cfg").touch()
    monkeypatch.setattr(go.os, "listdir", lambda _: ["pyvenv.cfg", "lib"])
    monkeypatch.setattr(go.shutil, "rmtree", breaks_off)
    with pytest.raises(KeyboardInterrupt):
        go.remove_venv(str(tmp_path))
    assert (folder / "pyvenv.cfg").exists()


def test_a_folder_that_is_no_venv_is_left_alone(tmp_path: Path) -> None:
    precious = tmp_path / ".venv" / "thesis.txt"
    precious.parent.mkdir()
    precious.touch()
    with pytest.raises(go.Trouble) as caught:
        go.remove_venv(str(tmp_path))
    assert "Move it away" in caught.value.remedy
    assert precious.exists()


def test_packages_that_land_elsewhere_are_noticed(
    ready: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    site = Path(go.site_packages(ready))
    site.mkdir(parents=True)
    monkeypatch.setattr(go, "run_quietly", lambda *_: (0, ""))
    assert "pip config list" in trouble(go.install, ready, "run", LINUX, {})
    (site / "tiny-1.0.dist-info").mkdir()
    go.install(ready, "run", LINUX, {})
    assert (site / "boxwright-source.pth").exists()

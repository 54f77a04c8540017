"""go.py: what it sets up, when, and what it says where it cannot.

The whole way is gone with a stand-in of the project, whose two locks name packages made
here, so that nothing needs the network. Other systems are passed in as arguments.
"""

import ast
import errno
import hashlib
import importlib.util
import json
import os
import re
import shutil
import subprocess
import sys
import time
import zipfile
from collections.abc import Iterator
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


# --- the stand-in ----------------------------------------------------------------------


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
        out, err = process.communicate(timeout=120)
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
    assert (done.code, done.err) == (0, "")
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
    done = shared.go("--", PIP_TARGET=str(tmp_path), PIP_CONSTRAINT="nowhere.txt")
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
def test_a_second_start_costs_next_to_nothing(shared: Project) -> None:
    def fastest(command: list[str]) -> float:
        times = []
        for _ in range(7):
            began = time.perf_counter()
            subprocess.run(command, env=shared.environment(), check=True, capture_output=True)
            times.append(time.perf_counter() - began)
        return min(times)

    direct = fastest([go.venv_python(str(shared.here), LINUX), "-P", "-m", "boxwright"])
    through = fastest([sys.executable, str(shared.here / "go.py"), "--"])
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
    assert "Setting up" not in shared.go("--").out

    (shared.venv / "boxwright-run.stamp").unlink()  # as a set-up leaves it that was broken off
    assert shared.go("--").code == 0
    assert not mark.exists()
    assert shared.stamps() == {"boxwright-run.stamp"}


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
        ("untrue==1.0", {}, "its checksum differs"),
        ("absent==1.0", {}, "64-bit Python"),
        ("absent==1.0", OFFLINE, "Connect to the internet"),
    ],
    ids=["untrue", "absent", "offline"],
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
    lock.write_text(f"{package} --hash=sha256:{'0' * 64}\n")
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
    outs = [process.communicate(timeout=180) for process in both]
    assert [process.returncode for process in both] == [0, 0], outs
    assert sum("Setting up in" in out for out, _ in outs) == 1
    assert sum("Waiting for it" in out for out, _ in outs) == 1
    shutil.rmtree(project.here)


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


def test_a_folder_that_is_no_venv_is_left_alone(tmp_path: Path) -> None:
    precious = tmp_path / ".venv" / "thesis.txt"
    precious.parent.mkdir()
    precious.touch()
    with pytest.raises(go.Trouble) as caught:
        go.remove_venv(str(tmp_path))
    assert "Move it away" in caught.value.remedy
    assert precious.exists()


# --- what it says ----------------------------------------------------------------------


def test_any_python_can_read_it() -> None:
    """An old Python must get as far as the sentence that tells it so."""
    text = GO.read_bytes().decode("ascii")
    tree = ast.parse(text, feature_version=(3, 4))
    for node in ast.walk(tree):
        assert not isinstance(node, ast.JoinedStr | ast.AnnAssign | ast.NamedExpr | ast.Nonlocal)
        assert not isinstance(node, ast.AsyncFunctionDef | ast.Await | ast.YieldFrom)
        assert not (isinstance(node, ast.Raise) and node.cause)
        if isinstance(node, ast.FunctionDef):
            assert node.returns is None
            assert not any(isinstance(inner, ast.Starred) for inner in node.args.defaults)
            assert not node.args.kwonlyargs
            assert not node.args.posonlyargs
            assert not any(argument.annotation for argument in node.args.args)
    named = {node.id for node in ast.walk(tree) if isinstance(node, ast.Name)}
    assert "print" not in named


def test_it_needs_the_standard_library_alone() -> None:
    tree = ast.parse(GO.read_bytes())
    names = {
        alias.name
        for node in ast.walk(tree)
        if isinstance(node, ast.Import)
        for alias in node.names
    }
    assert names <= sys.stdlib_module_names
    assert not any(isinstance(node, ast.ImportFrom) for node in ast.walk(tree))


def test_its_oldest_python_is_the_projects() -> None:
    asked = re.search(
        r'^requires-python = ">=(\d+)\.(\d+)"', (ROOT / "pyproject.toml").read_text(), re.M
    )
    assert asked
    assert tuple(int(part) for part in asked.groups()) == go.OLDEST


def trouble(function: Any, *arguments: Any) -> str:
    """What is said when it goes wrong."""
    with pytest.raises(go.Trouble) as caught:
        function(*arguments)
    text: str = caught.value.text()
    assert re.fullmatch(r"\S.*\.\n  Why:  \S.*\.\n  Next: \S.*\n", text)
    return text


@pytest.mark.parametrize(
    ("system", "line"),
    [
        (LINUX, "your system's packages"),
        (MAC, "type brew install python@3.13"),
        (WINDOWS, "type winget install Python.Python.3.13"),
    ],
)
def test_an_old_python_is_told_where_a_newer_is(system: Any, line: str, tmp_path: Path) -> None:
    go.check_version((3, 11, 0), system, "")
    text = trouble(go.check_version, (3, 8, 10), system, str(tmp_path))
    assert "it needs 3.11; this is 3.8." in text
    assert line in text


@pytest.mark.skipif(os.name == "nt", reason="a file's mode makes it a program on POSIX alone")
def test_the_newest_python_that_is_there_is_named(tmp_path: Path) -> None:
    for name in ("python3.10", "python3.12", "python3.9"):
        (tmp_path / name).touch(0o755)
    path = os.pathsep.join(["nowhere", str(tmp_path)])
    assert "type python3.12 go.py" in trouble(go.check_version, (2, 7), MAC, path)


@pytest.mark.parametrize(
    ("system", "line"),
    [
        (DEBIAN, "type sudo apt-get install -y python3.12-venv"),
        (DEBIAN_ROOT, "type apt-get install -y python3.12-venv"),
        (MAC, "python.org"),
    ],
)
def test_a_python_without_venv_is_told_what_to_install(system: Any, line: str) -> None:
    go.check_venv(True, system, (3, 12, 1))
    assert line in trouble(go.check_venv, False, system, (3, 12, 1))


def test_this_python_has_venv_and_a_bare_one_has_not(monkeypatch: pytest.MonkeyPatch) -> None:
    assert go.has_venv()
    monkeypatch.setitem(sys.modules, "ensurepip", None)
    assert not go.has_venv()


def test_a_colon_in_the_folder_is_refused_where_it_parts() -> None:
    assert "Rename the folder" in trouble(go.check_folder, "/home of/12:30", LINUX)
    go.check_folder(r"C:\games", WINDOWS)
    go.check_folder("/games", LINUX)


def test_a_missing_lock_file_is_told(tmp_path: Path) -> None:
    assert "requirements/run.lock" in trouble(go.wanted_stamp, str(tmp_path), "run")


@pytest.mark.parametrize(
    ("number", "line"),
    [
        (errno.ENOSPC, "Make room"),
        (errno.EROFS, "Copy the whole folder to where you may write"),
        (errno.EACCES, "Copy the whole folder to where you may write"),
        (errno.EIO, "Put that right"),
    ],
)
def test_what_the_system_refuses_is_told(number: int, line: str) -> None:
    error = OSError(number, os.strerror(number), "/games/.venv.lock")
    assert line in go.os_trouble(error, "/games", LINUX).text()


def test_main_tells_instead_of_tracing_back(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def refuses(*_: object) -> None:
        raise PermissionError(errno.EACCES, "Permission denied", "/games/.venv.lock")

    def breaks_off(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(go, "set_up", refuses)
    assert go.main(["--"]) == 1
    assert "/games/.venv.lock cannot be written" in capsys.readouterr().err
    monkeypatch.setattr(go, "set_up", breaks_off)
    assert go.main([]) == 130


@pytest.mark.parametrize(
    ("printed", "line"),
    [
        ("OSError: [Errno 28] No space left on device", "Make room"),
        ("SSLError(1, '[SSL: CERTIFICATE_VERIFY_FAILED] certificate", "global.cert"),
        (
            "NewConnectionError('...: Failed to establish')\nNo matching distribution found",
            "internet",
        ),
        ("ERROR: No matching distribution found for typst==0.15.2", "64-bit Python"),
        ("something new", "something new"),
    ],
)
def test_what_pip_prints_becomes_a_sentence(printed: str, line: str) -> None:
    text = go.pip_trouble(printed, LINUX).text()
    assert line in text
    assert "Next: " in text


def test_packages_that_land_elsewhere_are_noticed(ready: str) -> None:
    site = Path(go.site_packages(ready))
    site.mkdir(parents=True)
    assert "pip config list" in trouble(go.check_landed, ready, "run")
    (site / "tiny-1.0.dist-info").mkdir()
    go.check_landed(ready, "run")


def test_a_terminal_that_lacks_the_letters_gets_escapes(tmp_path: Path) -> None:
    with (tmp_path / "out").open("w", encoding="cp1252") as stream:
        go.tell("C:/Класс", stream)
    assert (tmp_path / "out").read_text("cp1252") == "C:/\\u041a\\u043b\\u0430\\u0441\\u0441\n"


@pytest.mark.parametrize(("arguments", "code"), [(["--help"], 0), (["-h"], 0), (["check"], 2)])
def test_how_to_call_it_is_told(
    arguments: list[str], code: int, capsys: pytest.CaptureFixture[str]
) -> None:
    assert go.main(arguments) == code
    told = capsys.readouterr()
    assert "python3 go.py test" in (told.err if code else told.out)


# --- the browser -----------------------------------------------------------------------


@pytest.mark.skipif(os.name == "nt", reason="a file's mode makes it a program on POSIX alone")
def test_a_browser_is_found_where_systems_keep_it(tmp_path: Path) -> None:
    assert go.browser_present(LINUX, {"PATH": str(tmp_path)}) is None
    assert go.browser_present(WINDOWS, {"PROGRAMFILES": str(tmp_path)}) is None
    (tmp_path / "chromium").touch(0o755)
    assert go.browser_present(LINUX, {"PATH": str(tmp_path)}) == str(tmp_path / "chromium")
    chrome = tmp_path / go.WINDOWS_BROWSERS[0]
    chrome.parent.mkdir(parents=True, exist_ok=True)
    chrome.touch(0o755)
    assert go.browser_present(WINDOWS, {"PROGRAMFILES": str(tmp_path)}) == str(chrome)


@pytest.mark.skipif(os.name == "nt", reason="a file's mode makes it a program on POSIX alone")
def test_root_on_debian_installs_it_and_nobody_else(tmp_path: Path) -> None:
    asked: list[list[str]] = []

    def installs(packages: list[str], _: object) -> None:
        asked.append(packages)
        (tmp_path / "chromium").touch(0o755)

    nowhere = {"PATH": str(tmp_path)}
    for system in (LINUX, DEBIAN, MAC, WINDOWS):
        trouble(go.ensure_browser, system, nowhere, installs)
    assert asked == []
    go.ensure_browser(DEBIAN_ROOT, nowhere, installs)
    go.ensure_browser(DEBIAN_ROOT, nowhere, installs)
    assert asked == [["chromium"]]


@pytest.mark.parametrize(
    ("system", "line"),
    [
        (LINUX, "your system's packages"),
        (DEBIAN, "type sudo apt-get install -y chromium"),
        (DEBIAN_ROOT, "type apt-get install -y chromium"),
        (MAC, "type brew install --cask"),
        (WINDOWS, "type winget install"),
    ],
)
def test_a_browser_that_stays_missing_stops_the_tests(system: Any, line: str) -> None:
    assert line in trouble(go.ensure_browser, system, {"PATH": ""}, lambda *_: None)


def test_only_tests_of_pages_ask_for_a_browser(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = []
    monkeypatch.setattr(go, "set_up", lambda *_: None)
    monkeypatch.setattr(go, "hand_over", lambda *_: 0)
    monkeypatch.setattr(go, "ensure_browser", lambda *_: asked.append(1))
    go.run_tests(str(tmp_path), LINUX, {}, [])
    assert asked == []
    (tmp_path / "tests" / "web").mkdir(parents=True)
    go.run_tests(str(tmp_path), LINUX, {}, [])
    assert asked == [1]


# --- Windows runs where others become --------------------------------------------------


def test_windows_runs_the_command_and_passes_its_end_on(tmp_path: Path) -> None:
    command = [sys.executable, "-c", "import os; raise SystemExit(len(os.getcwd()) % 100 + 3)"]
    code = go.hand_over(command, dict(os.environ), WINDOWS, str(tmp_path))
    assert code == len(str(tmp_path.resolve())) % 100 + 3


def test_ctrl_c_is_the_commands_to_answer(monkeypatch: pytest.MonkeyPatch) -> None:
    waits = []

    class Process:
        def __init__(self, *_: object, **__: object) -> None: ...

        def wait(self) -> int:
            waits.append(1)
            if len(waits) == 1:
                raise KeyboardInterrupt
            return 0

    monkeypatch.setattr(go.subprocess, "Popen", Process)
    assert go.run(["x"], {}) == 130
    assert len(waits) == 2


def test_each_system_has_its_own_paths() -> None:
    parts = Path(go.venv_python("here", WINDOWS)).parts[-3:]
    assert parts == (".venv", "Scripts", "python.exe")
    assert Path(go.venv_python("here", MAC)).parts[-3:] == (".venv", "bin", "python")
    assert WINDOWS.start("test") == "py go.py test"
    assert MAC.start("test") == "python3 go.py test"

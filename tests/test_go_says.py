"""go.py: what it says where it cannot go on, and what it does on other systems."""

import ast
import errno
import os
import re
import sys
from pathlib import Path
from typing import Any

import pytest

from tests.go_project import (
    DEBIAN,
    DEBIAN_ROOT,
    GO,
    LINUX,
    MAC,
    ROOT,
    WINDOWS,
    go,
    make_project,
    trouble,
)

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


@pytest.mark.skipif(os.name == "nt", reason="there is no such folder there")
def test_a_colon_in_the_folder_is_refused_where_it_parts(tmp_path: Path) -> None:
    nothing_yet = str(tmp_path / "12:30")
    assert "Rename the folder" in trouble(go.check_folder, nothing_yet, LINUX)
    make_project(Path(nothing_yet), tmp_path / "wheels")
    (here,) = Path(nothing_yet).iterdir()
    assert "Rename the folder" in trouble(go.set_up, str(here), "run", LINUX, {})
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
    assert go.System("posix", python="python3.12").start() == "python3.12 go.py"

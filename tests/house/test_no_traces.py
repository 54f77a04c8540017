"""What is committed tells nothing of the machines that it was made on, and names no registry."""

import re

import pytest

from tests.house import source

# Put together here so that this file itself holds none of them.
TRACES = re.compile(
    "|".join(
        [
            r"(?<![\w./-])/" + r"(?:work|root|opt)/",
            r"(?<![\w./-])/" + r"(?:home|Users)/\w",
            r"(?<![\w./-])/" + r"tmp/\w",
            r"[A-Z]:\\" + r"+Users\\",
            "pypi" + r"\.org/simple",
            "files" + r"\.pythonhosted",
            r"\.\./" + "shared",
        ]
    )
)
LOCK_TRACES = re.compile(r"://|\w\.(?:org|com|io|net)\b|(?<!\w)/|[a-z]:\\", re.I)


def lines(text: str, pattern: re.Pattern[str]) -> list[str]:
    """Return the lines that the pattern is found in."""
    return [line for line in text.splitlines() if pattern.search(line)]


def test_no_committed_text_holds_a_trace() -> None:
    texts = source.texts()
    assert "go.py" in texts
    found = {name: lines(text, TRACES) for name, text in texts.items()}
    assert {name: held for name, held in found.items() if held} == {}


def test_locks_name_no_place() -> None:
    locks = source.texts(".lock")
    assert len(locks) == 2
    assert {name: lines(text, LOCK_TRACES) for name, text in locks.items()} == {
        "requirements/run.lock": [],
        "requirements/test.lock": [],
    }


@pytest.mark.parametrize(
    "text",
    [
        "see /wo" + "rk/main",
        "(/ro" + "ot/.cache)",
        "/op" + "t/wheels",
        "/tm" + "p/x",
        "https://pypi" + ".org/simple",
        "../sha" + "red/x.md",
        "C:\\Us" + "ers\\me",
    ],
)
def test_traces_are_found(text: str) -> None:
    assert lines(text, TRACES)


@pytest.mark.parametrize("text", ["homework/main", "tests/root/x", "and/or", "see shared/x"])
def test_plain_texts_pass(text: str) -> None:
    assert not lines(text, TRACES)


@pytest.mark.parametrize("text", ["--index-url https://x", "# via /x/y.toml", "pypi.org", "C:\\x"])
def test_places_in_locks_are_found(text: str) -> None:
    assert lines(text, LOCK_TRACES)

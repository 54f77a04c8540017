"""No file grows past what one can keep in mind, unless it says why at its head."""

import ast
import re

import pytest

from tests.house import source

MOST = 500
REASON = re.compile(r"\bLength: \S+ \S+")


def head(name: str, text: str) -> str:
    """Return the first docstring of a Python file, or the first comment of a template."""
    if name.endswith(".py"):
        return ast.get_docstring(ast.parse(text)) or ""
    comment = re.match(r"(?://[^\n]*\n)+|/\*.*?\*/", text, re.S)
    return comment[0] if comment else ""


def too_long(name: str, text: str) -> bool:
    """Whether a file is long and does not say why."""
    return text.count("\n") > MOST and not REASON.search(head(name, text))


def test_long_files_say_why() -> None:
    assert [
        name for name, text in source.texts(".py", ".typ").items() if too_long(name, text)
    ] == []


@pytest.mark.parametrize(
    ("name", "start", "long"),
    [
        ("a.py", '"""What it is."""\n', True),
        ("a.py", '"""What it is.\n\nLength: one table, made in one go.\n"""\n', False),
        ("a.py", "# Length: not in the docstring\n", True),
        ("a.typ", "// What it is.\n", True),
        ("a.typ", "// What it is.\n// Length: all signs in one place.\n", False),
        ("a.typ", "\n// Length: not at the head.\n", True),
    ],
)
def test_the_reason_stands_at_the_head(name: str, start: str, long: bool) -> None:
    assert too_long(name, start + "\n" * MOST) is long
    assert not too_long(name, start)

"""What helps, said for a page: nothing to type, no line of a file, only what is on the screen."""

from __future__ import annotations

import re
from functools import cache

import pytest

from tests.house import calls, source
from tools import catalogues

ENGLISH = sorted((catalogues.LOCALE / "en" / "LC_MESSAGES").glob("*.po"))
ON_PAGE = ".on-page"
TYPED = re.compile(r"\{boxwright\}| --\w")
"""What only a terminal understands."""
WRITTEN = re.compile(r"\{boxwright\}| --\w|\w_\w| = |\.toml|\[\w|build again|[\"`]")
"""What only a terminal or a file understands."""
PAGE = re.compile(r"\bpages? ([A-Z][\w-]*(?: [a-z]+)*)")
LABEL = re.compile(r"“([^”{}]+)”")


@cache
def said() -> dict[str, str]:
    """Return every English message, all its forms in one."""
    found = {}
    for file in ENGLISH:
        for message in catalogues.read(file):
            if message.id:
                id = message.id if isinstance(message.id, str) else message.id[0]
                found[id] = "\n".join(calls.forms(message))
    return found


@cache
def asked() -> dict[str, tuple[set[str], list[str]]]:
    """Return what each Python file asks for: ids, and patterns of ids."""
    return {name: calls.mentioned(text) for name, text in source.package(".py").items()}


def by_command_alone(code: str) -> bool:
    """Tell whether nothing but the command line can bring up the problem `code`."""
    files = (
        name
        for name, (ids, patterns) in asked().items()
        if code in ids or any(re.fullmatch(one, code) for one in patterns)
    )
    return all("/cli/" in name for name in files)


def test_a_remedy_that_must_be_typed_has_its_words_for_pages() -> None:
    lacking = [
        id
        for id, text in said().items()
        if id.endswith(calls.REMEDY)
        and TYPED.search(text)
        and id.removesuffix(calls.REMEDY) + ON_PAGE not in said()
        and not by_command_alone(id.removesuffix(calls.REMEDY))
    ]
    assert lacking == []


def on_pages() -> list[str]:
    return [id for id in said() if id.endswith(ON_PAGE)]


@pytest.mark.parametrize("id", on_pages())
def test_words_for_pages_say_what_is_on_the_screen(id: str) -> None:
    problem, text = id.removesuffix(ON_PAGE), said()[id]
    assert not WRITTEN.search(text)
    known = calls.blanks(said()[problem]) | calls.blanks(said()[problem + calls.REMEDY])
    assert calls.blanks(text) <= known
    heads = re.compile(r"studio\.(page-.*|games)")
    names = {text for name, text in said().items() if heads.fullmatch(name)}
    assert {one for one in PAGE.findall(text) if not one.startswith(tuple(names))} == set()
    labels = set(said().values())
    assert {one for one in LABEL.findall(text) if one not in labels} - {"editions"} == set()

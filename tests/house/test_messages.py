"""Code and catalogues fit: what is asked for is there, and what is there is asked for."""

import re
import shutil
from functools import cache
from pathlib import Path

import pytest

from tests.house import calls, source
from tools import catalogues

ENGLISH = sorted((catalogues.LOCALE / "en" / "LC_MESSAGES").glob("*.po"))


@cache
def known() -> dict[str, frozenset[str]]:
    """Return the blanks of every English message."""
    found: dict[str, frozenset[str]] = {}
    for file in ENGLISH:
        found |= calls.catalogue(file).blanks
    return found


def test_what_is_asked_for_is_there_and_gets_its_blanks_filled() -> None:
    found = []
    for name, text in source.package(".py").items():
        found += list(calls.faults(calls.calls(name, text), known()))
    assert found == []


def test_every_message_is_asked_for() -> None:
    ids: set[str] = set()
    patterns: list[str] = []
    for text in source.package(".py").values():
        more = calls.mentioned(text)
        ids, patterns = ids | more[0], patterns + more[1]
    for text in source.package(".typ").values():
        ids |= set(re.findall(r'"([a-z0-9.-]+)"', text))
    for text in source.package(".html").values():
        more = calls.in_html(text)
        ids, patterns = ids | more[0], patterns + more[1]
    assert calls.unused(known(), ids, patterns) == []


def test_a_message_stands_in_its_areas_catalogue() -> None:
    strays = [
        f"{file.name}: {id}"
        for file in ENGLISH
        for id in calls.catalogue(file).blanks
        if id.partition(".")[0] != file.stem or not calls.ID.fullmatch(id)
    ]
    assert strays == []


def test_every_message_says_something() -> None:
    silent = [
        f"{file.name}: {message.id}"
        for file in sorted(catalogues.LOCALE.glob("*/LC_MESSAGES/*.po"))
        for message in catalogues.read(file)
        if message.id and not all(form for form in calls.forms(message))
    ]
    assert silent == []


def test_other_languages_fill_the_same_blanks() -> None:
    faults = []
    for file in sorted(catalogues.LOCALE.glob("*/LC_MESSAGES/*.po")):
        for id, blanks in calls.catalogue(file).blanks.items():
            if not blanks <= known().get(id, frozenset()):
                faults.append(f"{file.relative_to(catalogues.LOCALE)}: {id}")
    assert faults == []


def test_compiled_catalogues_are_up_to_date() -> None:
    """Otherwise type: python tools/catalogues.py"""
    late = [path.relative_to(catalogues.ROOT).as_posix() for path in catalogues.stale()]
    assert late + [path.name for path in catalogues.orphans()] == []


# --- the rules themselves --------------------------------------------------------------

SOME = {
    "lock.jams": frozenset({"wheel"}),
    "lock.jams.remedy": frozenset({"wheel"}),
    "lock.fine": frozenset[str](),
    "lock.worn-much": frozenset[str](),
}


@pytest.mark.parametrize(
    "code",
    [
        'say("lock.fine")',
        'say("lock.jams", wheel=3)',
        'say("lock.jams", **found)',
        'say("lock.jams" if x else "lock.fine", wheel=1)',
        'Problem.of("lock.jams", where, wheel=3, edit=None)',
        "say(id)",
        'said("lock.none")',
    ],
)
def test_calls_that_fit_pass(code: str) -> None:
    assert list(calls.faults(calls.calls("x.py", code), SOME)) == []


@pytest.mark.parametrize(
    ("code", "count"),
    [
        ('say("lock.none")', 1),
        ('say("lock.jams")', 1),
        ('say("lock.jams", wheels=3)', 1),
        ('say("lock.fine" if x else "lock.none")', 1),
        ('problems.Problem.of("lock.jams", where)', 2),
        ('Problem.of("lock.fine", where)', 1),
        ('Problem.of("lock.none", where, **found)', 2),
    ],
)
def test_calls_that_do_not_fit_are_found(code: str, count: int) -> None:
    assert len(list(calls.faults(calls.calls("x.py", code), SOME))) == count


@pytest.mark.parametrize(
    ("code", "left"),
    [
        ('"lock.jams"; "lock.fine"; "lock.worn-much"', []),
        ('"lock.jams.remedy"', ["lock.jams", "lock.fine", "lock.worn-much"]),
        ('f"lock.worn-{how}"; "lock.fine"', ["lock.jams", "lock.jams.remedy"]),
        ('f"{area}.fine"', ["lock.jams", "lock.jams.remedy", "lock.worn-much"]),
        ('f"{code}.remedy"; f"{a}: {b}."', list(SOME)),
        ("", list(SOME)),
    ],
)
def test_messages_that_nothing_asks_for_are_found(code: str, left: list[str]) -> None:
    assert calls.unused(SOME, *calls.mentioned(code)) == left


def test_blanks_are_read_as_they_are_filled() -> None:
    assert calls.blanks("{a} {b.c} {d[0]} {e:and} {f:>{g}} {{no}}") == frozenset("abdefg")


def test_a_changed_catalogue_is_stale_until_compiled(tmp_path: Path) -> None:
    folder = tmp_path / "en" / "LC_MESSAGES"
    folder.mkdir(parents=True)
    file = folder / "text.po"
    shutil.copy(catalogues.LOCALE / "en" / "LC_MESSAGES" / "text.po", file)
    assert list(catalogues.stale(tmp_path)) == [file.with_suffix(".mo")]
    file.with_suffix(".mo").write_bytes(catalogues.compiled(file))
    assert catalogues.stale(tmp_path) == {}
    file.write_text(file.read_text("utf-8") + '\nmsgid "text.more"\nmsgstr "more"\n', "utf-8")
    assert list(catalogues.stale(tmp_path)) == [file.with_suffix(".mo")]
    file.unlink()
    assert catalogues.orphans(tmp_path) == [file.with_suffix(".mo")]

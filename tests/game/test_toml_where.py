"""The locator finds exactly the paths that the parser finds, where they stand."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from typing import Any

import pytest
import tomlkit
from hypothesis import given, settings
from hypothesis import strategies as st

from boxwright.game.toml_where import outline


def paths(value: Any, base: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    pairs = value.items() if isinstance(value, dict) else enumerate(value)
    for key, inner in pairs:
        yield (*base, key)
        if isinstance(inner, dict | list):
            yield from paths(inner, (*base, key))


KEYS = st.one_of(
    st.from_regex(r"[A-Za-z0-9_-]{1,6}", fullmatch=True),
    st.text(st.characters(codec="utf-8", exclude_characters="\r"), max_size=5),
)
SCALARS = st.one_of(
    st.booleans(),
    st.integers(-(2**63), 2**63 - 1),
    st.floats(),
    st.datetimes(),
    st.dates(),
    st.times(),
    st.text(st.characters(codec="utf-8", exclude_characters="\r"), max_size=12),
)
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(KEYS, inner, max_size=3),
    max_leaves=12,
)
DOCUMENTS = st.dictionaries(KEYS, VALUES, max_size=5)


@settings(max_examples=60, deadline=None)
@given(DOCUMENTS)
def test_every_path_of_a_written_document_is_found_and_no_other(document: dict[str, Any]) -> None:
    text = tomlkit.dumps(document).replace("\r\n", "\n")
    assert set(outline(text).spots) == set(paths(tomllib.loads(text)))


PIECES = {
    "bare": "{k}",
    "quoted": '"{k}"',
    "literal": "'{k}'",
    "escaped": '"\\u0061{k}"',
}
LITERALS = (
    "1", "-1_000", "0xff", "1.5e-3", "inf", "-nan", "true", "1979-05-27T07:32:00Z",
    "1979-05-27 07:32:00.25", "07:32:00", '"a # b"', "'c]d'", '"e\\"}f"', '""', "''",
    '"""\nx = 1\n[no]\n"""', '""""quoted"""""', '"""\\\n   folded \\""" """',
    "[]", "[1, [2, [3]], ]", "[ # why\n 'a', # because\n\n 'b' ]", "{}", "{ a = 1, b.c = [2] }",
    "[{ x = 1 }, { x = {} }]", '{ "q.r" = "}" }',
)  # fmt: skip
GAPS = st.sampled_from(["", " ", "\t"])
LINES_BETWEEN = st.sampled_from(["\n", "\n\n", "\n# a note = [1]\n", "   # [x]\n"])


@st.composite
def hand_written(draw: st.DrawFn) -> str:
    """Text as a person may write it: all key forms, all headers, gaps and comments."""
    names = st.sampled_from("abcd")

    def key() -> str:
        gap = draw(GAPS)
        forms = [draw(st.sampled_from(sorted(PIECES))) for _ in range(draw(st.integers(1, 3)))]
        return f"{gap}.{gap}".join(PIECES[form].format(k=draw(names)) for form in forms)

    text = draw(st.sampled_from(["", "# top\n", "\n"]))
    for _ in range(draw(st.integers(1, 9))):
        gap, what = draw(GAPS), draw(st.integers(0, 4))
        if what == 0:
            line = f"{gap}[{gap}{key()}{gap}]"
        elif what == 1:
            line = f"[[{gap}{key()}{gap}]]"
        else:
            line = f"{gap}{key()}{gap}={gap}{draw(st.sampled_from(LITERALS))}"
        text += line + draw(LINES_BETWEEN)
    return text


@settings(deadline=None)
@given(hand_written())
def test_hand_written_keys_headers_and_gaps_are_all_found(text: str) -> None:
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return
    found = outline(text)
    assert set(found.spots) == set(paths(data))
    assert all(text[token.start : token.end] for token in found.keys)


@settings(deadline=None)
@given(hand_written())
def test_the_span_of_a_value_reads_as_that_value(text: str) -> None:
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return
    for path, (start, end) in outline(text).values.items():
        value: Any = data
        for step in path:
            value = value[step]
        assert repr(tomllib.loads(f"v = {text[start:end]}")["v"]) == repr(value)


@pytest.mark.parametrize(
    ("text", "path", "spot"),
    [
        ("[locks.wind]\n  code = 1\n", ("locks", "wind", "code"), (2, 3)),
        ("[locks.wind]\n", ("locks", "wind"), (1, 8)),
        ("[a.b]\n[a]\nx = 1\n", ("a",), (2, 2)),
        ("[[a]]\n[[a]]\n[a.b]\nx = 1", ("a", 1, "b", "x"), (4, 1)),
        ("x = [\n  1,\n  { y = 2 },\n]", ("x", 1, "y"), (3, 5)),
        ("s = '''\n\n'''\nt = 1", ("t",), (4, 1)),
        ('"ä" = {b = 1}', ("ä", "b"), (1, 8)),
    ],
)
def test_lines_and_columns_count_from_one(
    text: str, path: tuple[Any, ...], spot: tuple[int, int]
) -> None:
    tomllib.loads(text)
    assert outline(text).spots[path] == spot

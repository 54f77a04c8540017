"""Braces in texts: what they name, what they print, and which have no partner."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxwright.game.placeholders import filled, names_in, spans, stray_brace


@pytest.mark.parametrize(
    ("text", "names", "printed"),
    [
        ("no braces", (), "no braces"),
        ("{a} and { b }", ("a", "b"), "<a> and <b>"),
        ("{{a}}", (), "{a}"),
        ("{{{a}}}", ("a",), "{<a>}"),
        ("{}", (), "{}"),
        ("{ } {0} {0.x} {a!r} {a:>3} {%s}", (), "{ } {0} {0.x} {a!r} {a:>3} {%s}"),
        ("100 % { a smile :-} and }{", (), "100 % { a smile :-} and }{"),
        ("{my tin}", ("my tin",), "<my tin>"),
        ("{{", (), "{"),
        ("100 % {a}.{b}", ("a", "b"), "100 % <a>.<b>"),
    ],
)
def test_names_are_found_and_filled_in(text: str, names: tuple[str, ...], printed: str) -> None:
    assert names_in(text) == names
    assert filled(text, lambda name: f"<{name}>") == printed
    assert stray_brace(text) is None


@pytest.mark.parametrize(("text", "at"), [("{a", 0), ("a}", 1), ("{{a}", 3), ("{a {b}", 0)])
def test_a_brace_without_its_partner_is_found(text: str, at: int) -> None:
    assert stray_brace(text) == at


@given(st.text())
def test_any_text_with_its_braces_doubled_prints_as_it_was(text: str) -> None:
    doubled = text.replace("{", "{{").replace("}", "}}")
    assert filled(doubled, lambda _: "never") == text
    assert names_in(doubled) == ()


@given(st.text(alphabet="{}ab "))
def test_spans_hold_the_id_itself(text: str) -> None:
    assert all(text[start:end] == "a" for start, end in spans(text, "a"))
    assert len(list(spans(text, "a"))) == names_in(text).count("a")

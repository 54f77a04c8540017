"""Text: one canonical form wherever it is written."""

from __future__ import annotations

import json
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxwright.messages import words
from boxwright.text import (
    canonical_json,
    content_id,
    duration,
    mm_from_points,
    nearest,
    nfc,
    points_from_mm,
)

JSON = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(), inner, max_size=4),
    max_leaves=12,
)


@given(JSON)
def test_canonical_json_reads_back_and_is_a_fixed_point(value: object) -> None:
    once = canonical_json(value)
    assert canonical_json(json.loads(once)) == once


def test_key_order_does_not_matter_and_a_line_feed_ends_it() -> None:
    assert canonical_json({"b": 1, "a": "é"}) == canonical_json({"a": "é", "b": 1})
    assert canonical_json({"a": "é"}).endswith("}\n")
    assert "é" in canonical_json({"a": "é"})


def test_what_is_no_number_is_refused() -> None:
    with pytest.raises(ValueError, match="not JSON compliant"):
        canonical_json(float("nan"))


def test_a_content_id_is_ten_characters_of_base_32() -> None:
    assert content_id({"a": 1}) != content_id({"a": 2})
    assert set(content_id({})) <= set("abcdefghijklmnopqrstuvwxyz234567")
    assert len(content_id({})) == 10


def test_a4_is_595_by_842_points() -> None:
    # ISO 216: 210 x 297 mm; in PostScript points 595.276 x 841.890.
    assert round(points_from_mm(210), 3) == 595.276
    assert round(points_from_mm(297), 3) == 841.890
    assert mm_from_points(points_from_mm(297)) == pytest.approx(297)


def test_composed_and_decomposed_letters_are_one() -> None:
    assert nfc("e\u0301") == "é"


def test_the_nearest_name_is_found_and_a_far_one_is_not_made_up() -> None:
    assert nearest("nonogramm", ["nonogram", "maze"]) == "nonogram"
    assert nearest("zzz", ["nonogram", "maze"]) is None


@pytest.mark.parametrize(
    ("seconds", "said"),
    [
        (0, "1 second"),
        (0.3, "1 second"),
        (7, "7 seconds"),
        (28, "30 seconds"),
        (62, "60 seconds"),
        (99, "2 minutes"),
        (600, "10 minutes"),
        (1_440, "25 minutes"),
        (6_420, "2 hours"),
        (Fraction(21_384_000, 3), "80 days"),
        (166 * 86_400, "170 days"),
        (233 * 86_400, "250 days"),
        (900 * 86_400, "2 years"),
        (10**15, "30,000,000 years"),
    ],
)
def test_a_time_is_said_in_one_unit_and_without_false_precision(
    seconds: Fraction | float, said: str
) -> None:
    assert words(duration(seconds)) == said


@given(st.fractions(min_value=0, max_value=10**12))
def test_a_time_is_never_said_as_nought_and_is_near_the_truth(seconds: Fraction) -> None:
    message = duration(seconds)
    size = {"seconds": 1, "minutes": 60, "hours": 3_600, "days": 86_400, "years": 31_556_952}
    count = message.args["n"]
    assert isinstance(count, int)
    said = count * size[message.id.removeprefix("text.time-")]
    assert said >= 1
    assert seconds < 2 or Fraction(1, 2) * seconds <= said <= Fraction(3, 2) * seconds

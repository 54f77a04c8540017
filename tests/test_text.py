"""Text: one canonical form wherever it is written."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxwright.text import canonical_json, content_id, mm_from_points, nearest, nfc, points_from_mm

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

"""Sources: check values published for Code 128 and Code 39; zxing-cpp writes and reads as another.

"Wikipedia" in subset B has check value 3281 mod 103 = 88; "PJJ123C" has 54 in subset A and 55
in subset B (Wikipedia, "Code 128"). 123XYZ has the sum 108, 108 mod 43 = 22, so its Code 39
check sign is M (Worth Data manuals).
"""

from __future__ import annotations

from itertools import groupby

import pytest
import zxingcpp
from hypothesis import given, settings
from hypothesis import strategies as st

from boxwright.puzzles.bar_picture_maker import Code, encoded
from boxwright.puzzles.bar_picture_solver import said
from boxwright.puzzles.bar_picture_tables import (
    CAPITALS,
    CODE_39,
    CODE_128,
    DIGITS,
    ORDER_39,
    START_A,
    START_C,
    STOP_128,
)

LETTERS = st.text(CAPITALS, min_size=1, max_size=12)
SIGNS = st.text(CAPITALS + DIGITS, min_size=1, max_size=12)


def symbols(widths: tuple[float, ...]) -> list[int]:
    groups = [
        "".join(str(int(one)) for one in widths[at : at + 6]) for at in range(0, len(widths) - 1, 6)
    ]
    return [CODE_128.index(group) for group in groups]


def runs(*values: int) -> list[float]:
    return [float(width) for value in values for width in CODE_128[value]] + [2.0]


def written(text: str, form: zxingcpp.BarcodeFormat) -> list[int]:
    """The widths that zxing-cpp writes, in pixels: one for each module."""
    image = zxingcpp.write_barcode_to_image(
        zxingcpp.create_barcode(text, form), scale=1, add_quiet_zones=False
    )
    pixels = memoryview(image)  # type: ignore[arg-type]
    row = [pixels[0, x] for x in range(pixels.shape[1])]  # type: ignore[index]
    return [len(list(run)) for _, run in groupby(row)]


@pytest.mark.parametrize(("text", "check"), [("Wikipedia", 88), ("PJJ123C", 55)])
def test_code_128_has_its_published_check_value(text: str, check: int) -> None:
    *_, found, stop = symbols(encoded(text, "code-128"))
    assert (found, stop) == (check, STOP_128)


def test_a_symbol_of_subset_a_with_its_published_check_value_is_read() -> None:
    data = [ord(sign) - 32 for sign in "PJJ123C"]
    assert list(said(runs(START_A, *data, 54, STOP_128))) == ["PJJ123C"]
    assert list(said(runs(START_A, *data, 55, STOP_128))) == []


def test_pairs_of_digits_in_subset_c_are_read() -> None:
    check = (START_C + 1 * 42 + 2 * 7) % 103
    assert list(said(runs(START_C, 42, 7, check, STOP_128))) == ["4207"]


def test_the_signs_of_code_39_stand_in_the_order_of_their_values() -> None:
    total = sum(ORDER_39.index(sign) for sign in "123XYZ")
    assert (total, ORDER_39[total % 43]) == (108, "M")
    assert len(ORDER_39) == 43
    assert set(ORDER_39) | {"*"} == set(CODE_39)
    assert len(set(CODE_39.values())) == len(CODE_39)


def test_code_128_tells_all_its_symbols_apart() -> None:
    assert len(set(CODE_128)) == len(CODE_128) == 107
    assert all(sum(map(int, widths)) == 11 for widths in CODE_128)
    assert all(sum(map(int, widths[::2])) % 2 == 0 for widths in CODE_128[:STOP_128])


@given(LETTERS)
@settings(max_examples=60)
def test_another_encoder_writes_the_same_code_128(text: str) -> None:
    """Of letters alone: for digits it goes over to pairs, which say the same otherwise."""
    ours = [int(width) for width in encoded(text, "code-128")]
    assert ours == written(text, zxingcpp.BarcodeFormat.Code128)


@given(SIGNS)
@settings(max_examples=60)
def test_another_encoder_writes_the_same_code_39(text: str) -> None:
    ours = [2 if width > 1 else 1 for width in encoded(text, "code-39")]
    assert ours == written(text, zxingcpp.BarcodeFormat.Code39)


@given(SIGNS)
@settings(max_examples=60)
def test_what_another_encoder_writes_is_read(text: str) -> None:
    for form in (zxingcpp.BarcodeFormat.Code128, zxingcpp.BarcodeFormat.Code39):
        assert list(said([0.5 * width for width in written(text, form)])) == [text]


@given(SIGNS, st.sampled_from(("code-39", "code-128")), st.floats(0.3, 2.0))
@settings(max_examples=60)
def test_what_is_written_is_read_in_any_size_and_from_either_end(
    text: str, code: Code, module: float
) -> None:
    widths = [round(module * width, 2) for width in encoded(text, code)]
    assert list(said(widths)) == [text]
    assert list(said(widths[::-1])) == [text]

"""Published tables of two bar codes, and the types of what stands on a bar picture.

No functions stand here, so that making and solving can both use it.

Code 128: ISO/IEC 15417, widths of bar, space, bar, space, bar, space in modules; the last
symbol, stop, has one bar more. Code 39: ISO/IEC 16388, of nine elements three are wide, two
of the five bars and one of the four spaces, or three of the spaces.
"""

from __future__ import annotations

from typing import Literal

from boxwright.frozen import frozen_value

Scene = Literal["garden", "library", "music-room"]
Texture = Literal["boards", "reeds", "fence", "books", "curtain", "radiator", "keys"]
Sort = Literal["digits", "letters", "text"]


@frozen_value
class Strip:
    """Upright bars side by side: the left edge, then bar, space, bar, … in millimetres.

    The last run is a bar.
    """

    x: float
    runs: tuple[float, ...]


@frozen_value
class Band:
    """A thing in the picture that has bars; `top` and `low` in hundredths of its height."""

    texture: Texture
    top: int
    low: int
    strips: tuple[Strip, ...]


@frozen_value
class Picture:
    """A drawing; one strip of it can be read, as `signs` signs of one `sort`.

    `width` is in millimetres; `nudge` is whether a reader is drawn beside the words.
    """

    scene: Scene
    width: float
    bands: tuple[Band, ...]
    sort: Sort
    signs: int
    nudge: bool


@frozen_value
class Sheet:
    """The one part."""

    sheet: Picture | None = None


DIGITS = "0123456789"
CAPITALS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"

_WIDTHS_128 = (
    "212222 222122 222221 121223 121322 131222 122213 122312 132212 221213 221312 231212 "
    "112232 122132 122231 113222 123122 123221 223211 221132 221231 213212 223112 312131 "
    "311222 321122 321221 312212 322112 322211 212123 212321 232121 111323 131123 131321 "
    "112313 132113 132311 211313 231113 231311 112133 112331 132131 113123 113321 133121 "
    "313121 211331 231131 213113 213311 213131 311123 311321 331121 312113 312311 332111 "
    "314111 221411 431111 111224 111422 121124 121421 141122 141221 112214 112412 122114 "
    "122411 142112 142211 241211 221114 413111 241112 134111 111242 121142 121241 114212 "
    "124112 124211 411212 421112 421211 212141 214121 412121 111143 111341 131141 114113 "
    "114311 411113 411311 113141 114131 311141 411131 211412 211214 211232 233111"
)
CODE_128 = tuple(_WIDTHS_128.split())
START_A, START_B, START_C, STOP_128 = 103, 104, 105, 106
LAST_BAR = 2  # modules: what stop has more
CHECK_128 = 103

# In the order of their values; sum and remainder by 43 would give the optional check sign.
ORDER_39 = DIGITS + CAPITALS + "-. $/+%"
STOP_39 = "*"
_BARS = ("10001", "01001", "11000", "00101", "10100", "01100", "00011", "10010", "01010", "00110")
_GROUPS = {
    "1234567890": "0100",
    "ABCDEFGHIJ": "0010",
    "KLMNOPQRST": "0001",
    "UVWXYZ-. *": "1000",
}
# For each sign, the five bars and the four spaces between them; 1 is wide.
CODE_39: dict[str, tuple[str, str]] = {
    sign: (bars, spaces)
    for signs, spaces in _GROUPS.items()
    for sign, bars in zip(signs, _BARS, strict=True)
} | {
    sign: ("00000", spaces)
    for sign, spaces in {"$": "1110", "/": "1101", "+": "1011", "%": "0111"}.items()
}

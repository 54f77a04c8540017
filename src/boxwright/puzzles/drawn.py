"""The drawn pictures that are counted: the published table that makers and solvers share.

Drawn for this project, in `paper/pictures.typ`, under these names. Those of one family
look alike at a glance and differ in shape. `tilt` says how far, in degrees to either side,
one may be turned; 180 means any way round, for it is itself from every side. A name with a
dot in it is a file of the teacher's, which is never turned.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import PurePosixPath
from typing import Literal, get_args

from boxwright.frozen import frozen_value
from boxwright.problems import Message, say

Family = Literal["balloons", "beetles", "flowers"]
FAMILIES: tuple[Family, ...] = get_args(Family)


@frozen_value
class Drawn:
    """What holds for one drawn picture."""

    family: Family
    tilt: int


_BALLOON, _BEETLE, _FLOWER = Drawn("balloons", 8), Drawn("beetles", 180), Drawn("flowers", 180)

DRAWN: Mapping[str, Drawn] = {
    "balloon-balls": _BALLOON,
    "balloon-bar": _BALLOON,
    "balloon-box": _BALLOON,
    "balloon-cone": _BALLOON,
    "balloon-cross": _BALLOON,
    "balloon-ring": _BALLOON,
    "beetle-bar": _BEETLE,
    "beetle-bars": _BEETLE,
    "beetle-chevron": _BEETLE,
    "beetle-plain": _BEETLE,
    "beetle-spot": _BEETLE,
    "beetle-spots": _BEETLE,
    "flower-five": _FLOWER,
    "flower-five-sharp": _FLOWER,
    "flower-four": _FLOWER,
    "flower-four-sharp": _FLOWER,
    "flower-six": _FLOWER,
    "flower-three": _FLOWER,
}


def family_of(name: str) -> str:
    """Return the family of a picture; the teacher's own are one family of their own."""
    return DRAWN[name].family if name in DRAWN else "own"


def tilt_of(name: str) -> int:
    """Return how far a picture may be turned to either side, in degrees."""
    return DRAWN[name].tilt if name in DRAWN else 0


def is_own(name: str) -> bool:
    """Tell whether a picture is a file of the teacher's."""
    return "." in name


def picture_said(name: str) -> Message:
    """Say a picture: `the flower with five round petals`, or a file's name without its ending."""
    if name in DRAWN:
        return say(f"drawn.{name}")
    stem = PurePosixPath(name).stem
    return say("drawn.own", name=" ".join(stem.replace("_", " ").replace("-", " ").split()))

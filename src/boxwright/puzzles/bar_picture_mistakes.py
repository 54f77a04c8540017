"""What is written down in place of what a reader shows."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from boxwright.problems import Message, say
from boxwright.puzzles.bar_picture_tables import Sort

LOOK_ALIKES = ("O0", "I1", "S5", "Z2", "B8")  # on the small display of a reader


class Miscopy(NamedTuple):
    """A text written in place of the right one, why, and whether pupils could notice it."""

    text: str
    means: Message
    noticed: bool


def miscopies(text: str, sort: Sort) -> Iterator[Miscopy]:
    """Yield what `text` is miscopied as, the likeliest first; some may be alike."""
    if sort == "text":
        yield from _look_alikes(text)
    if sort == "digits" and text.startswith("0") and len(text) > 1:
        yield Miscopy(text.lstrip("0") or "0", say("bar-picture.mistake-nought"), True)
    for at in range(len(text) - 1):
        swapped = text[:at] + text[at + 1] + text[at] + text[at + 2 :]
        yield Miscopy(swapped, say("bar-picture.mistake-swapped", number=at + 1), False)
    if len(text) > 1:
        yield Miscopy(text[::-1], say("bar-picture.mistake-backwards"), False)
        yield Miscopy(text[1:], say("bar-picture.mistake-first"), True)
        yield Miscopy(text[:-1], say("bar-picture.mistake-last"), True)


def _look_alikes(text: str) -> Iterator[Miscopy]:
    for at, sign in enumerate(text):
        for pair in LOOK_ALIKES:
            if sign in pair:
                other = pair.replace(sign, "")
                means = say("bar-picture.mistake-look-alike", right=sign, other=other)
                yield Miscopy(text[:at] + other + text[at + 1 :], means, False)

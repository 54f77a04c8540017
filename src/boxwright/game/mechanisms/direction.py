"""A knob or shackle that is pushed a number of ways in turn: `up left up`."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from boxwright.game.mechanisms import reading, weakness
from boxwright.game.mechanisms.base import Mechanism
from boxwright.game.mechanisms.device import Code, Device
from boxwright.game.mechanisms.shape import Draft, Positions, length_of
from boxwright.problems import Message, Problem, Where, say

FOUR = ("up", "down", "left", "right")
EIGHT = (*FOUR, "up-left", "up-right", "down-left", "down-right")
ANY_LENGTH = (1, 12)
_ARROWS = dict(zip("↑↓←→↖↗↙↘⬆⬇⬅➡⇑⇓⇐⇒", (*EIGHT, *FOUR, *FOUR), strict=True))
_SPELLINGS = {move: move for move in EIGHT} | {
    "".join(part[0] for part in order): move
    for move in EIGHT
    for order in (move.split("-"), move.split("-")[::-1])
}
_COMPACT = re.compile(r"[udlr]+")
_CUTS = re.compile(rf"[\s,;.{re.escape(reading.DASHES)}/|·•>]+")


class Direction(Mechanism):
    """Four ways, or eight with the diagonals; it takes up to twelve moves unless told."""

    name = "direction"
    fields = frozenset({"moves", "length"})
    try_s = Fraction(2)
    """Assumption, no source: clearing it, and a tug."""
    symbol_s = Fraction(1, 2)
    """Assumption, no source: one move."""
    usual_length = 5
    weaknesses = (("same", weakness.all_same), ("twice", weakness.twice))

    def positions(self, draft: Draft) -> tuple[Positions, int]:
        """Return the moves, as often as the longest code has them."""
        low, high = length_of(draft, ANY_LENGTH)
        return ((EIGHT if draft.lock.moves == 8 else FOUR),) * high, low

    def part(self, text: str) -> dict[str, object] | None:
        """Read `4` or `3-6`: how many moves a code has."""
        return length_part(text)

    def read(self, device: Device, text: str, where: Where) -> Code | Problem:
        """Read words, first letters or arrows; `U L U R` and `ulur` alike on a four-way lock."""
        eight = len(device.faces) == len(EIGHT)
        code: list[str] = []
        for piece in self._pieces(text, eight):
            found = self._moves(piece, eight)
            if found is None:
                example = self.example(device)
                return reading.unreadable(
                    where, "moves", piece, len(code) + 1, example, choices=device.faces
                )
            code.extend(found)
        return tuple(code) or Problem.of("mechanism.empty", where)

    def _pieces(self, text: str, eight: bool) -> list[str]:
        plain = text.lower().replace("\ufe0f", "")
        for arrow, move in _ARROWS.items():
            plain = plain.replace(arrow, f" {move.replace('-', '+')} ")
        if eight:
            plain = re.sub(r"(up|down|left|right)[-‐‑](up|down|left|right)", r"\1+\2", plain)
        return [piece for piece in _CUTS.split(plain) if piece]

    def _moves(self, piece: str, eight: bool) -> tuple[str, ...] | None:
        joined = piece.replace("+", "-")
        if joined in EIGHT or (eight and joined in _SPELLINGS):
            return (_SPELLINGS[joined],)
        turned = "-".join(reversed(joined.split("-")))
        if turned in EIGHT:
            return (turned,)
        if _COMPACT.fullmatch(piece) and not (eight and len(piece) > 1):
            return tuple(_SPELLINGS[letter] for letter in piece)
        return None

    def write(self, device: Device, code: Code) -> str:
        """Return the moves with spaces between them."""
        return " ".join(code)

    def alphabet(self, device: Device) -> str:
        """Return `moves`."""
        return "moves"

    def slips(self, device: Device, meant: Code) -> Iterator[tuple[str, Code]]:
        """One move another, one missing, one too many, two neighbours swapped."""
        for at, move in enumerate(meant):
            others = (way for way in device.faces if way != move)
            yield from (("one-off", (*meant[:at], way, *meant[at + 1 :])) for way in others)
        yield from (("missing", (*meant[:at], *meant[at + 1 :])) for at in range(len(meant)))
        for at in range(len(meant) + 1):
            yield from (("extra", (*meant[:at], way, *meant[at:])) for way in device.faces)
        yield from (("swapped", code) for code in swapped(meant))

    def opening(self, device: Device, line: str | None = None) -> tuple[Message, ...]:
        """Say to clear it first, which way is up, and to let it spring back after each move."""
        ways = "mechanism.open-eight-ways" if len(device.faces) > 4 else "mechanism.open-four-ways"
        return (
            say("mechanism.open-upright"),
            say("mechanism.open-clear"),
            say(ways),
            say("mechanism.open-back"),
            say("mechanism.open-pull"),
        )

    def scrambling(self, device: Device) -> Message:
        """Say that clearing hides the code."""
        return say("mechanism.scramble-direction")

    def failures(self, device: Device) -> tuple[Message, ...]:
        """Say that moves before the first are remembered, and that a half move does not count."""
        return (say("mechanism.fail-forgotten"), say("mechanism.fail-half-move"))


def swapped(code: Code) -> Iterator[Code]:
    """Yield `code` with two neighbours in each other's places."""
    for at in range(len(code) - 1):
        yield (*code[:at], code[at + 1], code[at], *code[at + 2 :])


def length_part(text: str) -> dict[str, object] | None:
    """Read `4` or `3-6` as a length."""
    ends = text.split("-")
    if len(ends) > 2 or not all(end.isdecimal() for end in ends):
        return None
    return {"length": (int(ends[0]), int(ends[-1]))}


ENTRY = Direction()

"""What all locks with wheels have in common: a face at each wheel, read in one line."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations, permutations, product
from typing import ClassVar

from boxwright.game.mechanisms import weakness
from boxwright.game.mechanisms.base import Mechanism, Weakness
from boxwright.game.mechanisms.device import Code, Device
from boxwright.problems import Message, say


class Wheels(Mechanism):
    """A lock whose wheels are turned until a line of faces is the code."""

    fields = frozenset({"wheels", "faces"})
    try_s = Fraction(6, 5)
    """Assumption, no source: one wheel on by one face, and a tug."""
    can_be_felt = True
    weaknesses: ClassVar[tuple[Weakness, ...]] = (
        ("same", weakness.all_same),
        ("twice", weakness.twice),
        ("run", weakness.run),
    )

    def neighbours(self, device: Device, code: Code) -> Iterator[Code]:
        """Yield the codes one step of one wheel off, where the lock is cheap."""
        if device.cheap:
            yield from one_step_off(device, code)

    def slips(self, device: Device, meant: Code) -> Iterator[tuple[str, Code]]:
        """One wheel slipped, one wheel off, a wrong line, another order, two wheels slipped."""
        yield from (("slipped", code) for code in one_step_off(device, meant))
        yield from (("one-off", code) for code in one_other(device, meant))
        yield from (("wrong-line", moved(device, meant, by)) for by in (1, -1))
        yield from (("order", code) for code in permutations(meant))
        for first, second in combinations(range(len(meant)), 2):
            for steps in product((1, -1), repeat=2):
                off = dict(zip((first, second), steps, strict=True))
                yield "two-slipped", turned(device, meant, off)

    def opening(self, device: Device, line: str | None = None) -> tuple[Message, ...]:
        """Say which way to hold it, how the wheels are read, and how it comes open."""
        read = say("mechanism.open-line-at", line=line) if line else say("mechanism.open-line")
        return (
            say("mechanism.open-hold"),
            say(f"mechanism.open-{self.name}", n=device.longest),
            read,
            say("mechanism.open-pull"),
        )

    def scrambling(self, device: Device) -> Message:
        """Say to turn every wheel."""
        return say("mechanism.scramble-wheels")

    def failures(self, device: Device) -> tuple[Message, ...]:
        """Say that wheels slip while being set, and that cheap ones can be felt."""
        slips = (say("mechanism.fail-slip"), say("mechanism.fail-line"))
        return (*slips, say("mechanism.fail-cheap")) if device.cheap else slips


def turned(device: Device, code: Code, steps: dict[int, int]) -> Code:
    """Return `code` with wheels (from 0) turned on by so many faces."""
    return tuple(
        faces[(faces.index(face) + steps.get(at, 0)) % len(faces)]
        for at, (face, faces) in enumerate(zip(code, device.positions, strict=False))
    )


def moved(device: Device, code: Code, by: int) -> Code:
    """Return `code` as it reads one line further up or down: every wheel turned by `by`."""
    return turned(device, code, dict.fromkeys(range(len(code)), by))


def one_step_off(device: Device, code: Code) -> Iterator[Code]:
    """Yield `code` with one wheel one step on or back; a wheel of two faces has one way only."""
    for at in range(len(code)):
        ways = (1, -1) if len(device.positions[at]) > 2 else (1,)
        yield from (turned(device, code, {at: by}) for by in ways)


def one_other(device: Device, code: Code) -> Iterator[Code]:
    """Yield `code` with one wheel at each of its other faces."""
    for at, faces in enumerate(device.positions[: len(code)]):
        yield from ((*code[:at], face, *code[at + 1 :]) for face in faces if face != code[at])

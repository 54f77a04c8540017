"""What every mechanism's entry offers, with all that follows from the faces alone.

A mechanism is one file of this folder, named as the mechanism, with its entry as `ENTRY`;
it says how its codes are written and read, and overrides here what is special about it.
Only codes that `shows` finds nothing against may be passed where a code is wanted.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import islice, product
from math import prod
from typing import ClassVar

from boxwright.dice import Dice
from boxwright.game.mechanisms.device import Code, Device
from boxwright.game.mechanisms.orders import count_orders
from boxwright.game.mechanisms.shape import Draft
from boxwright.game.model import LockMake, MechanismName
from boxwright.game.spelling import WordIndex
from boxwright.game.wordlists import unsuitable_inside
from boxwright.problems import Message, Problem, Where, say

NEAR = 3
RANDOM_DRAWS = 2_000
SMALL_SPACE = 20_000

Weakness = tuple[str, Callable[[Device, Code], bool]]


class Mechanism(ABC):
    """One kind of lock: how its codes are written, shown, counted, set and guessed."""

    name: ClassVar[MechanismName]
    fields: ClassVar[frozenset[str]]
    """Fields of a `LockShape` that say something about it."""
    try_s: ClassVar[Fraction]
    """Seconds for one try, without its symbols."""
    symbol_s: ClassVar[Fraction] = Fraction(0)
    """Seconds more for each symbol of a try."""
    usual_length: ClassVar[int] = 1
    """Symbols of a drawn code, where the lock leaves a choice."""
    can_be_felt: ClassVar[bool] = False
    """Whether cheap ones give each position away by itself."""
    weaknesses: ClassVar[tuple[Weakness, ...]] = ()

    # Shape and short form

    @abstractmethod
    def positions(self, draft: Draft) -> tuple[tuple[tuple[str, ...], ...], int]:
        """Return the faces of each position and the shortest length; problems go to `draft`."""

    @abstractmethod
    def part(self, text: str) -> dict[str, object] | None:
        """Return the fields that a plain part of a short form gives, such as `3` or `40`."""

    # 1. Codes in writing

    @abstractmethod
    def read(self, device: Device, text: str, where: Where) -> Code | Problem:
        """Read a code as people type it; `shows` then tells whether the lock can show it."""

    @abstractmethod
    def write(self, device: Device, code: Code) -> str:
        """Return the one written form of `code`."""

    @abstractmethod
    def alphabet(self, device: Device) -> str | None:
        """Return the alphabet of the codes' symbols on a sheet; None for a lock without a code."""

    def symbols(self, code: Code) -> Code:
        """Return what a sheet must lead to for `code`."""
        return code

    # 2. What it can show: `read` and `shows` part, so that a wish can be read for any lock

    def shows(
        self, device: Device, code: Code, where: Where, words: WordIndex | None = None
    ) -> Problem | None:
        """Return why `device` cannot show `code`, naming the first position that fails.

        `words`: what letter wheels look in for words that come near and can be shown.
        """
        if len(code) not in device.lengths:
            return self.wrong_length(device, code, where, words)
        if device.fixed is not None and not self.same(device, device.fixed, code):
            return Problem.of(
                "mechanism.fixed",
                where,
                code=self.write(device, code),
                fixed=self.write(device, device.fixed),
            )
        missing = self.lacking(device, code)
        if missing:
            return self.missing(device, code, missing, where, words)
        return None

    def lacking(self, device: Device, code: Code) -> tuple[int, ...]:
        """Return the positions (from 0) whose symbol the lock does not have there."""
        pairs = zip(code, device.positions, strict=False)
        return tuple(at for at, (symbol, faces) in enumerate(pairs) if symbol not in faces)

    def wrong_length(
        self, device: Device, code: Code, where: Where, words: WordIndex | None
    ) -> Problem:
        """Return the problem that `code` is too long or too short."""
        return Problem.of(
            "mechanism.wrong-length",
            where,
            code=self.write(device, code),
            n=len(code),
            expected=self.lengths(device),
            near=self.near_said(device, code, words),
        )

    def missing(
        self,
        device: Device,
        code: Code,
        at: tuple[int, ...],
        where: Where,
        words: WordIndex | None,
    ) -> Problem:
        """Return the problem that the positions `at` lack their symbols."""
        return Problem.of(
            "mechanism.cannot-show",
            where,
            code=self.write(device, code),
            n=len(at),
            position=at[0] + 1,
            positions=tuple(str(index + 1) for index in at),
            face=code[at[0]],
            has=device.positions[at[0]],
            near=self.near_said(device, code, words),
        )

    def lengths(self, device: Device) -> Message:
        """Say how many symbols a code has."""
        if device.shortest == device.longest:
            return say("mechanism.length", n=device.longest)
        return say("mechanism.lengths", shortest=device.shortest, longest=device.longest)

    def near(self, device: Device, code: Code, words: WordIndex | None = None) -> tuple[Code, ...]:
        """Return the nearest codes that it can show: cut to length, then the nearest faces."""
        if len(code) < device.shortest:
            return ()
        code = code[: device.longest]
        choices = [
            (symbol,) if symbol in faces else tuple(nearest_faces(symbol, faces))
            for symbol, faces in zip(code, device.positions, strict=False)
        ]
        found = (c for c in product(*choices) if self.possible(device, c))
        return tuple(islice(found, NEAR))

    def near_said(self, device: Device, code: Code, words: WordIndex | None = None) -> Message:
        """Say what is near and can be shown, or that nothing is."""
        codes = tuple(self.write(device, near) for near in self.near(device, code, words))
        return say("mechanism.near", codes=codes) if codes else say("mechanism.none-near")

    def possible(self, device: Device, code: Code) -> bool:
        """Tell whether `code` is one of the lock's codes, ignoring that it may be fixed."""
        return len(code) in device.lengths and not self.lacking(device, code)

    # 3. Counting

    def codes(self, device: Device, length: int | None = None) -> Iterator[Code]:
        """Yield every code that can be written, of one `length` or of all, in order."""
        for size in self.sizes(device, length):
            yield from product(*device.positions[:size])

    def sizes(self, device: Device, length: int | None) -> range:
        """Return the lengths to go through: all, or `length` alone."""
        return device.lengths if length is None else range(length, length + 1)

    def nominal(self, device: Device, length: int | None = None) -> int:
        """Count the codes that can be written."""
        sizes = self.sizes(device, length)
        return sum(prod(map(len, device.positions[:size])) for size in sizes)

    def told_apart(self, device: Device, length: int | None = None) -> int:
        """Count the codes that the lock tells apart, whatever may be dialled."""
        return self.nominal(device, length)

    def same(self, device: Device, a: Code, b: Code) -> bool:
        """Tell whether a lock set to `a` opens with `b`, as it is meant to work."""
        return a == b

    def key(self, device: Device, code: Code) -> Code:
        """Return one code for all that are tried by the same try."""
        return code

    def search(self, device: Device, length: int | None = None) -> Iterator[Code]:
        """Yield tries, in order, that open the lock whatever it is set to; none is idle."""
        return self.codes(device, length)

    def runs(self, device: Device, length: int | None = None) -> tuple[tuple[int, int, int], ...]:
        """Count that search: stretches of (tries, codes each one opens first, symbols)."""
        return tuple((self.nominal(device, n), 1, n) for n in self.sizes(device, length))

    # 4. Neighbours

    def neighbours(self, device: Device, code: Code) -> Iterator[Code]:
        """Yield other codes that may open a lock set to `code`, by design or by wear."""
        yield from ()

    # 5. Trying

    def one_try_s(self, symbols: int) -> Fraction:
        """Seconds that one try of `symbols` symbols takes."""
        return self.try_s + self.symbol_s * symbols

    def one_missing(
        self, device: Device, length: int, position: int | None
    ) -> tuple[tuple[int, int, int], ...]:
        """Count the search for one symbol, at `position` or where most faces are."""
        known = device.positions[:length]
        faces = max(known, key=len) if position is None else known[position]
        alone = replace(device, positions=(faces,), shortest=1)
        return tuple((tries, opens, length) for tries, opens, _ in self.runs(alone))

    def orders(self, device: Device, code: Code) -> tuple[tuple[int, int, int], ...]:
        """Count the search through the orders of the symbols of `code`."""
        return ((count_orders(device, code), 1, len(code)),)

    # 6. In the hand

    @abstractmethod
    def opening(self, device: Device, line: str | None = None) -> tuple[Message, ...]:
        """Say what pupils must be told to open it: steps, never a code.

        `line`: where its faces are read, as the kit tells it.
        """

    def setting(
        self, device: Device, code: Code, make: LockMake | None = None
    ) -> tuple[Message, ...]:
        """Say how to set it to `code`, one act a step, as the kit tells it of its `make`."""
        if device.fixed is not None:
            return (say("mechanism.set-fixed", code=self.write(device, device.fixed)),)
        make = make or LockMake()
        tools = tuple(say(f"mechanism.tool-{tool}") for tool in make.set_needs)
        how = (make.set_by or "").rstrip(" .")  # the sentence that it stands in has its own stop
        return (
            *((say("mechanism.set-tools", tools=tools),) if tools else ()),
            say("mechanism.set-open"),
            say("mechanism.set-by", how=how) if how else say("mechanism.set-by-leaflet"),
            self.dialling(device, code),
            *((say("mechanism.set-line", line=make.reading_line),) if make.reading_line else ()),
            say("mechanism.set-leave"),
        )

    def dialling(self, device: Device, code: Code) -> Message:
        """Say how its code is dialled."""
        return say(f"mechanism.set-{self.name}", code=self.write(device, code))

    def testing(self, device: Device, code: Code) -> tuple[Message, ...]:
        """Say how to make sure of it before it closes a box, one act a step."""
        return (
            say("mechanism.test-close"),
            self.scrambling(device),
            say("mechanism.test-refuses"),
            say("mechanism.test-opens", code=self.write(device, code)),
            say("mechanism.test-twice"),
        )

    @abstractmethod
    def scrambling(self, device: Device) -> Message:
        """Say how to hide the code after closing."""

    @abstractmethod
    def failures(self, device: Device) -> tuple[Message, ...]:
        """Say how this mechanism lets a class down, and what to do then."""

    # 8. Drawing

    def weak(self, device: Device, code: Code) -> tuple[Message, ...]:
        """Say why `code` is too easily guessed or mistaken; nothing where it is sound."""
        reasons = [reason for reason, holds in self.weaknesses if holds(device, code)]
        if code == device.shelf:
            reasons.append("shelf")
        return tuple(say(f"mechanism.weak-{reason}") for reason in reasons)

    def draw(
        self,
        dice: Dice,
        device: Device,
        accept: Callable[[Code], bool] | None = None,
        words: WordIndex | None = None,
    ) -> Code | None:
        """Return a random code that is not weak and that `accept` takes; None if none is found.

        A fixed lock gives its only code, if `accept` takes it. Small spaces are searched to
        the end; in larger ones None means that `RANDOM_DRAWS` draws found nothing. Letter
        wheels take one of the commonest of `words` that they can show, if there is one.
        """
        if device.fixed is not None:
            return device.fixed if accept is None or accept(device.fixed) else None
        length = min(max(self.usual_length, device.shortest), device.longest)
        for _ in range(RANDOM_DRAWS):
            code = self.random_code(dice, device, length)
            if self._sound(device, code, accept):
                return code
        if self.nominal(device) > SMALL_SPACE:
            return None
        left = [c for c in self.codes(device) if self._sound(device, c, accept)]
        return dice.pick(left) if left else None

    def _sound(self, device: Device, code: Code, accept: Callable[[Code], bool] | None) -> bool:
        """Tell whether `code` may be drawn: not weak, no unsuitable letters, and accepted."""
        if self.weak(device, code):
            return False
        if self.alphabet(device) == "letters" and unsuitable_inside("".join(code)):
            return False
        return accept is None or accept(code)

    def example(self, device: Device) -> str:
        """Return a code for messages to show: one that it can have, the same each time.

        Not a weak one, where it has any other.
        """
        code = self.draw(Dice(self.name), device)
        return self.write(device, code or tuple(faces[0] for faces in device.positions))

    def random_code(self, dice: Dice, device: Device, length: int) -> Code:
        """Return any code of `length` symbols, each as likely."""
        return tuple(dice.pick(faces) for faces in device.positions[:length])

    # The list to search for a lost code

    @abstractmethod
    def slips(self, device: Device, meant: Code) -> Iterator[tuple[str, Code]]:
        """Yield what a lock meant for `meant` may have been set to, the likeliest first.

        Each with the id of its stage; repeats and codes it cannot show are left out later.
        """

    def in_search(self, device: Device, code: Code) -> bool:
        """Tell whether `search` yields `code`."""
        return self.possible(device, code)


def nearest_faces(symbol: str, faces: tuple[str, ...]) -> list[str]:
    """Return `faces` by their distance from `symbol`: of numbers as numbers, else by letter."""
    if symbol.isdecimal() and all(face.isdecimal() for face in faces):
        return sorted(faces, key=lambda face: abs(int(face) - int(symbol)))
    return sorted(faces, key=lambda face: abs(ord(face[0]) - ord(symbol[0])))

"""Keys that are pressed: `4271`. Some mechanical ones heed neither order nor repeats."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations, permutations
from math import comb, factorial, perm

from boxwright.dice import Dice
from boxwright.game.mechanisms import reading, weakness
from boxwright.game.mechanisms.base import Mechanism
from boxwright.game.mechanisms.device import Code, Device
from boxwright.game.mechanisms.direction import length_part, swapped
from boxwright.game.mechanisms.shape import Draft, Positions, distinct, length_of
from boxwright.game.spelling import WordIndex
from boxwright.problems import Message, Problem, Where, say
from boxwright.text import nearest

USUAL_KEYS = "1234567890"
USUAL_LENGTH = (4, 4)


class Keypad(Mechanism):
    """Ten digits and codes of four unless its file says otherwise.

    Where order does not matter each key is pressed at most once, so a code is a set of keys;
    it is still written in the order in which its author wrote it.
    """

    name = "keypad"
    fields = frozenset({"keys", "length", "order_matters"})
    try_s = Fraction(3, 2)
    """Assumption, no source: clearing it, and the handle."""
    symbol_s = Fraction(1, 2)
    """Assumption, no source: one key."""
    usual_length = USUAL_LENGTH[0]
    weaknesses = (
        ("same", weakness.all_same),
        ("twice", weakness.twice),
        ("run", weakness.run),
        ("run", weakness.sorted_run),
        ("line", weakness.straight),
        ("year", weakness.year),
        ("nought", weakness.leading_nought),
    )

    def positions(self, draft: Draft) -> tuple[Positions, int]:
        """Return the keys, as often as the longest code has them."""
        keys_said = USUAL_KEYS if draft.lock.keys is None else draft.lock.keys
        given = reading.signs(keys_said) if isinstance(keys_said, str) else keys_said
        keys = distinct(draft, [_key(raw) for raw in given], ("keys",), len(given))
        low, high = length_of(draft, USUAL_LENGTH)
        if draft.lock.order_matters is False and high > len(keys):
            draft.wrong("length-keys", "length", high=high, n=len(keys))
        return (keys,) * high, low

    def part(self, text: str) -> dict[str, object] | None:
        """Read `4` or `4-6`, how many keys a code has; `any-order` where order is not heeded."""
        return {"order_matters": False} if text == "any-order" else length_part(text)

    def read(self, device: Device, text: str, where: Where) -> Code | Problem:
        """Read keys by their signs, in either case; keys with longer names between spaces."""
        named = self._named(device)
        pieces = reading.tokens(text) if named else reading.characters(text, device.faces)
        known = {key.lower(): key for key in device.faces}
        code: list[str] = []
        for piece in pieces:
            key = known.get(piece.lower()) or known.get(reading.plain(piece).lower())
            if key is None:
                return self._unknown(device, piece, len(code) + 1, where)
            code.append(key)
        return tuple(code) or Problem.of("mechanism.empty", where)

    def _named(self, device: Device) -> bool:
        return any(len(key) > 1 for key in device.faces)

    def _unknown(self, device: Device, piece: str, position: int, where: Where) -> Problem:
        return reading.unreadable(
            where,
            "keys",
            piece,
            position,
            self.example(device),
            choices=device.faces,
            nearest=nearest(piece, device.faces) or device.faces[0],
        )

    def write(self, device: Device, code: Code) -> str:
        """Return the signs without anything between them; longer names with spaces."""
        return (" " if self._named(device) else "").join(code)

    def alphabet(self, device: Device) -> str:
        """Return `digits` or `letters` if all keys are that, `text` if mixed, `faces` if named."""
        keys = device.faces
        if self._named(device):
            return "faces"
        if all(key.isdecimal() for key in keys):
            return "digits"
        return "letters" if all(key.isalpha() for key in keys) else "text"

    def shows(
        self, device: Device, code: Code, where: Where, words: WordIndex | None = None
    ) -> Problem | None:
        """Say too that a key is pressed twice where the lock heeds each once."""
        twice = next((key for key in code if code.count(key) > 1), None)
        if twice is not None and not device.order_matters:
            return Problem.of(
                "mechanism.key-twice", where, code=self.write(device, code), key=twice
            )
        return super().shows(device, code, where, words)

    def possible(self, device: Device, code: Code) -> bool:
        """Tell too whether no key is pressed twice where the lock heeds each once."""
        return super().possible(device, code) and (
            device.order_matters or len(set(code)) == len(code)
        )

    def codes(self, device: Device, length: int | None = None) -> Iterator[Code]:
        """Yield every code that can be pressed."""
        if device.order_matters:
            yield from super().codes(device, length)
        else:
            for size in self.sizes(device, length):
                yield from permutations(device.faces, size)

    def nominal(self, device: Device, length: int | None = None) -> int:
        """Count the codes that can be pressed: 5,040 of four different keys out of ten."""
        if device.order_matters:
            return super().nominal(device, length)
        return sum(perm(len(device.faces), size) for size in self.sizes(device, length))

    def told_apart(self, device: Device, length: int | None = None) -> int:
        """Count sets of keys where order does not matter: 210 of four out of ten."""
        return sum(tries for tries, _, _ in self.runs(device, length))

    def same(self, device: Device, a: Code, b: Code) -> bool:
        """Tell whether the keys are the same, in any order where that does not matter."""
        return self.key(device, a) == self.key(device, b)

    def key(self, device: Device, code: Code) -> Code:
        """Return the keys in the order of the pad where order does not matter."""
        return code if device.order_matters else tuple(sorted(code, key=device.faces.index))

    def search(self, device: Device, length: int | None = None) -> Iterator[Code]:
        """Yield each set of keys once where order does not matter."""
        if device.order_matters:
            yield from super().search(device, length)
        else:
            for size in self.sizes(device, length):
                yield from combinations(device.faces, size)

    def runs(self, device: Device, length: int | None = None) -> tuple[tuple[int, int, int], ...]:
        """Count that search: each set of keys stands for all its orders."""
        if device.order_matters:
            return super().runs(device, length)
        keys = len(device.faces)
        sizes = self.sizes(device, length)
        return tuple((comb(keys, size), factorial(size), size) for size in sizes)

    def one_missing(
        self, device: Device, length: int, position: int | None
    ) -> tuple[tuple[int, int, int], ...]:
        """Leave out the known keys where each is pressed at most once."""
        if device.order_matters:
            return super().one_missing(device, length, position)
        return ((len(device.faces) - (length - 1), 1, length),)

    def orders(self, device: Device, code: Code) -> tuple[tuple[int, int, int], ...]:
        """Count a single try where order does not matter."""
        return super().orders(device, code) if device.order_matters else ((1, 1, len(code)),)

    def neighbours(self, device: Device, code: Code) -> Iterator[Code]:
        """Yield the other orders, where order does not matter."""
        if not device.order_matters:
            yield from (other for other in permutations(code) if other != code)

    def slips(self, device: Device, meant: Code) -> Iterator[tuple[str, Code]]:
        """Neighbours swapped, one key another (near ones first), one missing, one pressed twice."""
        yield from (("swapped", code) for code in swapped(meant))
        for at, key in enumerate(meant):
            for other in _nearest_keys(device, key):
                yield "one-off", (*meant[:at], other, *meant[at + 1 :])
        yield from (("missing", (*meant[:at], *meant[at + 1 :])) for at in range(len(meant)))
        yield from (("extra", (*meant[: at + 1], *meant[at:])) for at in range(len(meant)))
        yield from (("order", code) for code in permutations(meant))

    def random_code(self, dice: Dice, device: Device, length: int) -> Code:
        """Return any code; of different keys where each is heeded once."""
        if device.order_matters:
            return super().random_code(dice, device, length)
        return tuple(dice.sample(device.faces, length))

    def opening(self, device: Device, line: str | None = None) -> tuple[Message, ...]:
        """Say how to clear it, to press each key fully, and when it makes one wait."""
        steps = (
            say("mechanism.open-keypad-clear"),
            say("mechanism.open-press"),
            say("mechanism.open-handle"),
        )
        if not device.rests:
            return steps
        rest = say("mechanism.open-rest", n=device.wrong_tries, seconds=device.rest_s)
        return (*steps, rest)

    def scrambling(self, device: Device) -> Message:
        """Say to clear it."""
        return say("mechanism.scramble-keypad")

    def failures(self, device: Device) -> tuple[Message, ...]:
        """Say that worn keys show the code, and that batteries run down."""
        return (say("mechanism.fail-worn"), say("mechanism.fail-battery"))


def _key(raw: str) -> str:
    return reading.capital(raw) if len(raw) == 1 else reading.name(raw)


def _nearest_keys(device: Device, key: str) -> list[str]:
    """Return the other keys by their distance on rows of three, as most pads have them."""
    spots = {face: divmod(index, 3) for index, face in enumerate(device.faces)}
    spots |= {"0": (3, 1)} if "".join(device.faces) == USUAL_KEYS else {}
    row, column = spots[key]
    others = [face for face in device.faces if face != key]
    return sorted(others, key=lambda f: (spots[f][0] - row) ** 2 + (spots[f][1] - column) ** 2)


ENTRY = Keypad()

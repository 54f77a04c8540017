"""A lock with a key: no code, only the question which key fits."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from boxwright.game.mechanisms import reading
from boxwright.game.mechanisms.base import Mechanism
from boxwright.game.mechanisms.device import Code, Device
from boxwright.game.mechanisms.shape import Draft, Positions, distinct
from boxwright.game.model import LockMake
from boxwright.problems import Message, Problem, Where, say
from boxwright.text import nearest, nfc


class KeyLock(Mechanism):
    """Without `keys` it has one code, the empty one; with them, the name of a key is a code."""

    name = "key"
    fields = frozenset({"keys"})
    try_s = Fraction(5)
    """Assumption, no source: one key in, turned, out again."""

    def positions(self, draft: Draft) -> tuple[Positions, int]:
        """Return the keys that may be tried, if they are named."""
        keys = draft.lock.keys
        if keys is None:
            return (), 0
        names = (keys,) if isinstance(keys, str) else keys
        return (distinct(draft, [_one_form(raw) for raw in names], ("keys",), 2),), 1

    def part(self, text: str) -> dict[str, object] | None:
        """Read `Y1,Y2`: the keys that may be tried."""
        return {"keys": tuple(text.split(","))}

    def read(self, device: Device, text: str, where: Where) -> Code | Problem:
        """Read the name of a key; nothing where no keys are named."""
        wanted = _one_form(text)
        if not wanted and not device.shortest:
            return ()
        known = {key.lower(): key for key in device.faces}
        if wanted.lower() in known:
            return (known[wanted.lower()],)
        if not known:
            return Problem.of("mechanism.key-has-no-code", where, found=text)
        near = nearest(wanted, device.faces) or device.faces[0]
        example = device.faces[0]
        return reading.unreadable(
            where, "names", text, 1, example, choices=device.faces, nearest=near
        )

    def write(self, device: Device, code: Code) -> str:
        """Return the key's name, or nothing."""
        return "".join(code)

    def alphabet(self, device: Device) -> None:
        """Return None: no sheet leads to a code of a key's lock."""

    def symbols(self, code: Code) -> Code:
        """Return nothing: there is no code."""
        return ()

    def slips(self, device: Device, meant: Code) -> Iterator[tuple[str, Code]]:
        """Yield nothing: there is only every other key to try."""
        yield from ()

    def opening(self, device: Device, line: str | None = None) -> tuple[Message, ...]:
        """Say to turn the key gently."""
        return (say("mechanism.open-key"), say("mechanism.open-gently"))

    def setting(
        self, device: Device, code: Code, make: LockMake | None = None
    ) -> tuple[Message, ...]:
        """Say to try the key; there is nothing to set."""
        stays = (say("mechanism.set-keeps-key"),) if make and make.keeps_key_open else ()
        return (say("mechanism.set-key"), say("mechanism.set-key-spare"), *stays)

    def testing(self, device: Device, code: Code) -> tuple[Message, ...]:
        """Say to try the key, twice."""
        return (
            say("mechanism.test-close"),
            self.scrambling(device),
            say("mechanism.test-refuses"),
            say("mechanism.test-key"),
            say("mechanism.test-key-twice"),
        )

    def scrambling(self, device: Device) -> Message:
        """Say to lock it and take the key out."""
        return say("mechanism.scramble-key")

    def failures(self, device: Device) -> tuple[Message, ...]:
        """Say that a key may be locked in, lost or broken."""
        return (say("mechanism.fail-key"), say("mechanism.fail-key-inside"))


def _one_form(raw: str) -> str:
    return "-".join(nfc(raw).split())


ENTRY = KeyLock()

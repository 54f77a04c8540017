"""Wheels whose faces go by names: what colour and symbol wheels have in common."""

from __future__ import annotations

from boxwright.game.mechanisms import reading
from boxwright.game.mechanisms.device import Code, Device
from boxwright.game.mechanisms.shape import Draft, Positions, wheel_faces
from boxwright.game.mechanisms.wheels import Wheels
from boxwright.problems import Problem, Where
from boxwright.text import nearest


class NamedWheels(Wheels):
    """Faces are names in lower case; a gap in a name is written as a hyphen."""

    def positions(self, draft: Draft) -> tuple[Positions, int]:
        """Return the names on each wheel; the file must give both faces and wheels."""
        found = wheel_faces(draft, _name, lettered=False, default=None, wheels=None)
        return found, len(found)

    def part(self, text: str) -> dict[str, object] | None:
        """Read `3` (wheels), or the names on every wheel: `red,blue,green`."""
        if text.isdecimal():
            return {"wheels": int(text)}
        return {"faces": tuple(text.split(",")) if "," in text else text}

    def read(self, device: Device, text: str, where: Where) -> Code | Problem:
        """Read names, or their first letters where these differ."""
        pieces = reading.tokens(text)
        if not pieces:
            return Problem.of("mechanism.empty", where)
        if all(piece in device.faces for piece in pieces):
            return tuple(pieces)
        found = reading.by_names(pieces, reading.initials(device.faces))
        if isinstance(found, reading.Unread):
            return self._unknown(device, found.piece, found.position, where)
        return found

    def _unknown(self, device: Device, piece: str, position: int, where: Where) -> Problem:
        return reading.unreadable(
            where,
            "names",
            piece,
            position,
            self.example(device),
            choices=device.faces,
            nearest=nearest(piece, device.faces) or device.faces[0],
        )

    def write(self, device: Device, code: Code) -> str:
        """Return the names with spaces between them."""
        return " ".join(code)

    def alphabet(self, device: Device) -> str:
        """Return `faces`."""
        return "faces"


def _name(raw: str) -> str | None:
    return reading.name(raw) or None

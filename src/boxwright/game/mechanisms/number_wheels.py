"""Wheels with figures: `427`."""

from __future__ import annotations

from boxwright.game.mechanisms import reading, weakness
from boxwright.game.mechanisms.device import Code, Device
from boxwright.game.mechanisms.shape import Draft, Positions, wheel_faces
from boxwright.game.mechanisms.wheels import Wheels
from boxwright.problems import Problem, Where

FIGURES = tuple("0123456789")
USUAL_WHEELS = 3


class NumberWheels(Wheels):
    """0 to 9 on each wheel and three wheels, unless its file says otherwise."""

    name = "number-wheels"
    usual_length = USUAL_WHEELS
    weaknesses = (
        *Wheels.weaknesses,
        ("year", weakness.year),
        ("nought", weakness.leading_nought),
    )

    def positions(self, draft: Draft) -> tuple[Positions, int]:
        """Return ten figures for each wheel, or those that the faces give."""
        found = wheel_faces(draft, _figure, lettered=True, default=FIGURES, wheels=USUAL_WHEELS)
        return found, len(found)

    def part(self, text: str) -> dict[str, object] | None:
        """Read `3` (wheels), or the figures: `012345`, or one list for each wheel."""
        return wheels_part(text) if text.replace(",", "").isdecimal() else None

    def read(self, device: Device, text: str, where: Where) -> Code | Problem:
        """Read figures of any script; spaces, dashes and dots between them do not count."""
        code: list[str] = []
        for typed in reading.characters(text, ()):
            figure = reading.digit(typed)
            if figure is None:
                example = self.example(device)
                return reading.unreadable(where, "digits", typed, len(code) + 1, example)
            code.append(figure)
        return tuple(code) or Problem.of("mechanism.empty", where)

    def write(self, device: Device, code: Code) -> str:
        """Return the figures without anything between them."""
        return "".join(code)

    def alphabet(self, device: Device) -> str:
        """Return `digits`."""
        return "digits"


def _figure(raw: str) -> str | None:
    return reading.digit(raw) if len(raw) == 1 else None


def wheels_part(text: str) -> dict[str, object]:
    """Read a plain part of a lettered wheel lock's short form: a count, or faces.

    One or two figures are a count, unless they are `01` and the like.
    """
    if text.isdecimal() and len(text) <= 2 and text == str(int(text)):
        return {"wheels": int(text)}
    return {"faces": tuple(text.split(",")) if "," in text else text}


ENTRY = NumberWheels()

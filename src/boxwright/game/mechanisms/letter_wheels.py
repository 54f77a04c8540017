"""Wheels with letters, a blank among them where there is one: `FROST`, `FOG__`."""

from __future__ import annotations

import string
from collections.abc import Callable
from functools import cache

from boxwright.dice import Dice
from boxwright.game.mechanisms import reading, weakness
from boxwright.game.mechanisms.base import NEAR
from boxwright.game.mechanisms.device import BLANK, Code, Device
from boxwright.game.mechanisms.number_wheels import wheels_part
from boxwright.game.mechanisms.shape import Draft, Positions, wheel_faces
from boxwright.game.mechanisms.wheels import Wheels
from boxwright.game.spelling import WordIndex
from boxwright.problems import Message, Problem, Where, say

EXAMPLES_AMONG = 3_000
LETTERS = tuple(string.ascii_uppercase)


class LetterWheels(Wheels):
    """A to Z on each wheel, unless its file gives the faces."""

    name = "letter-wheels"
    weaknesses = (
        *Wheels.weaknesses,
        ("gap", weakness.gap),
        ("unsuitable", weakness.unsuitable_word),
    )

    def positions(self, draft: Draft) -> tuple[Positions, int]:
        """Return the letters of each wheel; how many wheels must be told by wheels or faces."""
        found = wheel_faces(draft, _face, lettered=True, default=LETTERS, wheels=None)
        return found, len(found)

    def part(self, text: str) -> dict[str, object] | None:
        """Read `5` (wheels with A to Z), or the letters of each wheel: `BCDF,AEIO,LMNR`."""
        return wheels_part(text)

    def read(self, device: Device, text: str, where: Where) -> Code | Problem:
        """Read letters of any script in either case; a shorter word is filled with blanks."""
        typed = reading.characters(self._spelled(device, text), device.faces)
        code: list[str] = []
        for character in typed:
            face = character if character in device.faces else reading.letter(character)
            if face is None:
                example = self.example(device)
                return reading.unreadable(where, "letters", character, len(code) + 1, example)
            code.append(face)
        if not any(face != BLANK for face in code):
            return Problem.of("mechanism.empty", where)
        word = "".join(code).rstrip(BLANK)
        # Blanks behind the word are the wheels' own: as many as there are wheels left.
        return (*code[: len(word)], *(BLANK,) * (device.longest - len(word)))

    def _spelled(self, device: Device, text: str) -> str:
        capitals = reading.capital(text)
        sharp = reading.capital("ß")
        return capitals if sharp in device.faces else capitals.replace(sharp, "SS")

    def write(self, device: Device, code: Code) -> str:
        """Return the letters without anything between them, blanks as `_`."""
        return "".join(code)

    def alphabet(self, device: Device) -> str:
        """Return `letters`."""
        return "letters"

    def symbols(self, code: Code) -> Code:
        """Return the word's letters: blanks round it are the wheels', not the sheet's."""
        return tuple("".join(code).strip(BLANK))

    def missing(
        self,
        device: Device,
        code: Code,
        at: tuple[int, ...],
        where: Where,
        words: WordIndex | None,
    ) -> Problem:
        """Say of a word that is too short that it is; of others which letter is lacking."""
        word = "".join(code).rstrip(BLANK)
        if all(index >= len(word) for index in at):
            return Problem.of(
                "mechanism.no-blank",
                where,
                code=word,
                found=len(word),
                expected=device.longest,
                position=at[0] + 1,
                has=device.positions[at[0]],
                near=self.near_said(device, code, words),
            )
        return super().missing(device, code, at, where, words)

    def near(self, device: Device, code: Code, words: WordIndex | None = None) -> tuple[Code, ...]:
        """Return the words of `words` that it can show and that differ least; else nothing."""
        near = words.near(device, "".join(code).rstrip(BLANK), NEAR) if words else ()
        return tuple(tuple(word.ljust(device.longest, BLANK)) for word in near)

    def draw(
        self,
        dice: Dice,
        device: Device,
        accept: Callable[[Code], bool] | None = None,
        words: WordIndex | None = None,
    ) -> Code | None:
        """Return a word if `words` holds one that will do, else letters."""
        if words is not None and device.fixed is None:
            drawn = words.draw(dice, device, lambda code: self._fits(device, code, accept))
            if drawn is not None:
                return drawn
        return super().draw(dice, device, accept)

    def example(self, device: Device) -> str:
        """Return a word that it can show, where it can show any."""
        code = self.draw(Dice(self.name), device, words=_common(device.longest))
        return super().example(device) if code is None else self.write(device, code)

    def _fits(self, device: Device, word: Code, accept: Callable[[Code], bool] | None) -> bool:
        """Tell whether a whole word may be drawn: letters inside it are no matter."""
        return not self.weak(device, word) and (accept is None or accept(word))

    def random_code(self, dice: Dice, device: Device, length: int) -> Code:
        """Return any letters, blanks only where a wheel has nothing else."""
        letters = ([f for f in faces if f != BLANK] or [BLANK] for faces in device.positions)
        return tuple(dice.pick(faces) for faces in letters)

    def dialling(self, device: Device, code: Code) -> Message:
        """Say too what stands for a blank, where the code has one."""
        blank = "-blank" if BLANK in code else ""
        return say(f"mechanism.set-letter-wheels{blank}", code=self.write(device, code))

    def opening(self, device: Device, line: str | None = None) -> tuple[Message, ...]:
        """Say too that a short word leaves its last wheels on the blank."""
        steps = super().opening(device, line)
        return (*steps, say("mechanism.open-blank")) if BLANK in device.faces else steps


@cache
def _common(wheels: int) -> WordIndex:
    from boxwright.game.wordlists import common_words

    return WordIndex(common_words(limit=EXAMPLES_AMONG), wheels)


def _face(raw: str) -> str | None:
    face = reading.letter(raw) if len(raw) == 1 else None
    return face or (reading.digit(raw) if len(raw) == 1 else None)


ENTRY = LetterWheels()

"""What pupils could do to come by a code: every kind, and whether it can carry such codes."""

from __future__ import annotations

from collections.abc import Callable

from boxwright.choose.answers import answer_of, answer_of_word
from boxwright.choose.chance import Chance
from boxwright.choose.codes import code_problems, named_codes, of_wished_length, words_for
from boxwright.frozen import frozen_value
from boxwright.game.draft import GAME
from boxwright.game.folder import Folder
from boxwright.game.mechanisms import Code, Device, device_of, entry
from boxwright.game.model import LockWish
from boxwright.problems import Refused
from boxwright.puzzles.contract import Answer, Kind
from boxwright.puzzles.shelf import all_kinds

Carried = Callable[[Kind], Answer | None]


@frozen_value
class Offer:
    """A kind, and one answer of those asked for that it can carry; None where it can carry none."""

    name: str
    kind: Kind
    answer: Answer | None

    @property
    def carries(self) -> bool:
        """Whether it can carry what is asked for."""
        return self.answer is not None


def offers(folder: Folder, gives: str, code: str | None, chance: Chance) -> list[Offer]:
    """Return every kind for a clue that gives `gives`, those that can carry it first.

    `code` is what the lock is to say of its code; None for what the game says. Raises Refused
    where it cannot be read.
    """
    lock = folder.game.locks.get(gives)
    if lock is None:
        carried = _carried_words(_words(folder, gives))
    else:
        carried = _carried_codes(folder, gives, lock, lock.code if code is None else code, chance)
    found = [Offer(name, kind, carried(kind)) for name, kind in all_kinds()]
    return sorted(found, key=lambda one: (not one.carries, one.kind.FACTS.own))


def _words(folder: Folder, gives: str) -> tuple[str, ...]:
    """Return what may have to be spelled: the word of a place, or of any place of an item."""
    places = folder.room.places if folder.room is not None else {}
    item = folder.game.items.get(gives)
    wishes = gives if item is None else item.place
    named = (wishes,) if isinstance(wishes, str) else wishes
    known = [places[one].say for one in named if one in places]
    return tuple(word for word in known if word) or tuple(
        one.say for one in places.values() if one.say
    )


def _carried_words(words: tuple[str, ...]) -> Carried:
    answers = [answer_of_word(word) for word in words]
    return lambda kind: next(filter(kind.FACTS.carries, answers), None)


def _carried_codes(folder: Folder, id: str, lock: LockWish, wish: str, chance: Chance) -> Carried:
    where = folder.where(GAME, ("locks", id, "code"))
    device = device_of(lock, where)
    problems = tuple(code_problems(device, wish, where))
    if problems:
        raise Refused(problems)
    named = named_codes(device, wish, where)
    if named:
        return lambda kind: _one_of(kind, device, named)
    return lambda kind: None if kind.FACTS.own else _drawn(kind, folder, lock, device, chance)


def _one_of(kind: Kind, device: Device, codes: tuple[Code, ...]) -> Answer | None:
    """Return the first of the codes that a kind carries; one written by hand wants a single one."""
    if kind.FACTS.own and len(codes) != 1:
        return None
    answers = (answer for code in codes if (answer := answer_of(device, code)) is not None)
    return next(filter(kind.FACTS.carries, answers), None)


def _drawn(
    kind: Kind, folder: Folder, lock: LockWish, device: Device, chance: Chance
) -> Answer | None:
    """Return a code that the kind carries, if one comes up when it is drawn for the lock."""

    def accepted(code: Code) -> bool:
        answer = answer_of(device, code)
        return answer is not None and kind.FACTS.carries(answer)

    mechanism = entry(device)
    if mechanism.alphabet(device) is None:
        return None
    wished = of_wished_length(lock, device)
    words = words_for(device, folder.game.game.language)
    code = mechanism.draw(chance.dice, wished, accepted, words)
    return None if code is None else answer_of(device, code)

"""One set of codes for all groups: each showable on every group's lock and fit for its sheets."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from boxwright.choose.answers import answer_of
from boxwright.choose.asking import Asking, Contents
from boxwright.choose.chance import Chance
from boxwright.choose.codes import choose_code, near, of_wished_length, written_codes
from boxwright.choose.fitting import Fitted
from boxwright.content.tables import Content
from boxwright.game.arranged import Arranged, ArrangedLock
from boxwright.game.folder import Folder
from boxwright.game.mechanisms import Code, Device, entry
from boxwright.problems import Problem, Refused, say

CARRYING = frozenset({"kind.cannot-carry", "kind.none-carries"})


@dataclass(frozen=True)
class _Wanted:
    """A lock as all groups have it, and the clues that lead to it."""

    lock: ArrangedLock
    devices: Sequence[Device]
    clues: Sequence[Asking]


def draw_codes(
    folder: Folder,
    arranged: Arranged,
    fitted: Fitted,
    contents: Contents,
    chance: Chance,
    *,
    only: Collection[str] | None = None,
) -> dict[str, Code]:
    """Return a code for each lock that has one; raises Refused with all that could get none.

    `only`: locks whose codes are wanted alone, with those that they must differ from.
    """
    drawn: dict[str, Code] = {}
    mechanisms: dict[str, str] = {}
    problems: list[Problem] = []
    language = folder.game.game.language
    on_view = folder.room.room.figures if folder.room is not None else ()
    for id, wanted in _needed(_wanted(folder, arranged, fitted, contents), only):
        like = [code for other, code in drawn.items() if mechanisms[other] == wanted.lock.mechanism]
        test = _Test(wanted, like, on_view)
        where = folder.where("game.toml", ("locks", id, "code"))
        again = (chance.redraws[id],) if id in chance.redraws else ()
        dice = chance.dice.child("code", id, chance.set, *again)
        try:
            code = choose_code(wanted.lock, wanted.devices, dice, where, test, language)
        except Refused as refused:
            problems += (
                [_of_lock(test.objection, id, wanted)] if test.objection else refused.problems
            )
            continue
        if code is not None:
            drawn[id], mechanisms[id] = code, wanted.lock.mechanism
    if problems:
        raise Refused(problems)
    return drawn


def _needed(
    wanted: Mapping[str, _Wanted], only: Collection[str] | None
) -> Iterator[tuple[str, _Wanted]]:
    """Yield the locks of `only`, each after those like it: a code keeps clear of theirs alone.

    Codes that the game gives come first, so that those drawn keep clear of them.
    """
    left = set(wanted if only is None else only)
    like = {wanted[id].lock.mechanism for id in left if id in wanted}
    for id, one in sorted(wanted.items(), key=lambda item: _freedom(item[1].lock)):
        if left and one.lock.mechanism in like:
            yield id, one
        left.discard(id)


def _freedom(lock: ArrangedLock) -> int:
    """Return how freely a code is chosen: given, one of several, or any."""
    given = len(written_codes(lock.code))
    return 2 if not given else int(given > 1)


def _of_lock(objection: Problem, id: str, wanted: _Wanted) -> Problem:
    """Return an objection to a code that was drawn as one to the lock that the teacher chose.

    Nobody has seen the code; its sort and its length are what the game says.
    """
    if objection.code not in CARRYING or written_codes(wanted.lock.code):
        return objection
    device = of_wished_length(wanted.lock, wanted.devices[0])
    args: dict[str, Any] = dict(objection.what.args) | {
        "lock": id,
        "mechanism": say(f"mechanism.name-{device.mechanism}"),
        "length": entry(device).lengths(device),
    }
    return Problem.of(f"{objection.code}-lock", objection.where, edit=objection.edit, **args)


def _wanted(
    folder: Folder, arranged: Arranged, fitted: Fitted, contents: Contents
) -> Mapping[str, _Wanted]:
    """Return every lock of every group, in the order of the first game that has it."""
    found: dict[str, _Wanted] = {}
    for share in arranged.games:
        game = share.game
        for id, lock in game.locks.items():
            devices = [fitted.devices[group][id] for group in share.groups]
            clues = [
                Asking(folder, game, clue, contents.get((clue, one.way), Content()))
                for clue, one in game.clues.items()
                if one.gives == id
            ]
            had = found.get(id, _Wanted(lock, (), ()))
            found[id] = _Wanted(lock, (*had.devices, *devices), (*had.clues, *clues))
    return found


class _Test:
    """May this code be drawn? Carried by its sheets, not near a like lock's, not on view.

    `objection` is why no sheet could carry the codes that were tried, until one could.
    """

    def __init__(self, wanted: _Wanted, like: Sequence[Code], on_view: Sequence[str]) -> None:
        self.wanted, self.like, self.on_view = wanted, like, on_view
        self.objection: Problem | None = None
        self._carried = False

    def __call__(self, code: Code) -> bool:
        device = self.wanted.devices[0]
        if any(near(code, other) for other in self.like):
            return False
        return entry(device).write(device, code) not in self.on_view and self._carries(code)

    def _carries(self, code: Code) -> bool:
        answer = answer_of(self.wanted.devices[0], code)
        objections = (clue.objection(answer) for clue in self.wanted.clues if answer is not None)
        objection = next((one for one in objections if one is not None), None)
        self._carried = self._carried or objection is None
        self.objection = None if self._carried else objection
        return objection is None

"""Setting up as a list of steps: whatever leads from a scene to the class coming in.

The set-up card starts from the shelf, the reset card from what a class leaves behind:
both are the difference between two scenes, so one planner makes both. Its order is that
of the hands: paper, locks one by one, inner boxes before outer ones, keys that a lock
holds fast as soon as it lets them go, then the room, then the door.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.choose.gear import Gear
from boxwright.choose.piles import pieces, piles
from boxwright.choose.scene import NOWHERE, SHELF, TRAY, Scene, played, resting
from boxwright.choose.steps import Act, Block, Step
from boxwright.game.hinting import hints_allowed
from boxwright.game.model import START, TABLE


def set_up(gear: Gear) -> tuple[Step, ...]:
    """Return every step from the shelf to the class coming in."""
    return plan(resting(gear))


def reset(gear: Gear) -> tuple[Step, ...]:
    """Return every step from what one class left behind to the next coming in."""
    return plan(played(gear))


def plan(scene: Scene) -> tuple[Step, ...]:
    """Return the steps from `scene` to ready; the scene stays as it is."""
    return tuple(step for step in _Planner(scene).all() if step.groups)


class _Planner:
    """Plans for all groups at once: one step, the groups that need it."""

    def __init__(self, scene: Scene) -> None:
        self.scene, self.gear = scene, scene.gear
        self.edition, self.game = scene.gear.edition, scene.gear.edition.game
        self.groups = self.edition.groups

    def all(self) -> Iterator[Step]:
        """Yield the steps of all blocks."""
        yield from self.paper()
        yield from self.count()
        yield from self.shelf()
        yield from self.fresh()
        for lock in self.game.locks:
            yield from self.lock(lock)
        for box in self.gear.closing:
            yield from self.box(box)
        yield from self.room()
        yield from self.arrival()

    def at(self, thing: str, where: str) -> tuple[str, ...]:
        """Return the groups whose thing is somewhere."""
        return tuple(group for group in self.groups if self.scene.at[group, thing] == where)

    # paper

    def paper(self) -> Iterator[Step]:
        """Yield what is printed once for all groups."""
        once = self.groups[:1]
        for pile in piles(self.edition):
            if pile.name not in self.scene.printed:
                yield Step("paper", "print", pile.name, self.groups, pile.place or "")
        for name, groups in (("print-tables", self.groups), ("print-own", once)):
            if name not in self.scene.printed:
                yield Step("paper", _act(name), "", groups)
        if self.slips() or self.labels():
            yield from self.unless_done("cut")
        if self.slips():
            yield from self.unless_done("fold")
        for guide in pieces(self.edition, "teacher"):
            if guide.name not in self.scene.printed and self.printed(guide.clue):
                yield Step("paper", "trace", guide.name, self.groups)

    def printed(self, clue: str) -> bool:
        """Tell whether a clue's sheets come fresh from the printer, not one by one."""
        own = (piece.name for piece in pieces(self.edition) if piece.clue == clue)
        return any(pile.name not in self.scene.printed for pile in piles(self.edition)) or not any(
            self.at(name, NOWHERE) for name in own
        )

    def unless_done(self, name: Act) -> Iterator[Step]:
        """Yield a step of paper work, unless it is done."""
        if name not in self.scene.printed:
            yield Step("paper", name, "", self.groups)

    def slips(self) -> bool:
        """Tell whether there are hint slips."""
        return bool(self.edition.sheets) and hints_allowed(self.game) > 0

    def labels(self) -> bool:
        """Tell whether envelopes need labels."""
        return any(
            self.gear.envelope(group, lock) for group in self.groups for lock in self.game.locks
        )

    # what is fetched or counted in

    def count(self) -> Iterator[Step]:
        """Yield the counting of each group's tray."""
        trays = (group for group in self.groups if TRAY in self._places(group))
        yield Step("count", "count", "", tuple(trays))

    def _places(self, group: str) -> set[str]:
        return {where for (owner, _), where in self.scene.at.items() if owner == group}

    def shelf(self) -> Iterator[Step]:
        """Yield what is taken from the shelf, envelopes labelled, tools tried."""
        for id in (*self.game.boxes, *self.game.locks, *self.game.items):
            groups = self.at(id, SHELF)
            groups = tuple(one for one in groups if not self.apart(one, id))
            yield Step("shelf", "fetch", id, groups)
        for lock in self.game.locks:
            labelled = (*self.at(lock, SHELF), *self.at(lock, NOWHERE))
            envelopes = tuple(one for one in labelled if self.gear.envelope(one, lock))
            yield Step("shelf", "label", lock, envelopes)
        for id, item in self.game.items.items():
            untried = (one for one in self.groups if not self.scene.says(one, id, "tried"))
            yield Step("shelf", "try-tool", id, tuple(untried) if item.tool else ())

    def apart(self, group: str, id: str) -> bool:
        """Tell whether a thing is not fetched by itself: an envelope, or part of its box."""
        if id in self.game.boxes:
            return self.gear.paper_box(group, id)
        if id not in self.game.locks:
            return False
        return self.gear.envelope(group, id) or self.gear.built_in(group, id)

    def fresh(self) -> Iterator[Step]:
        """Yield fresh copies for sheets that are used up, and a look at the others."""
        for pile in piles(self.edition):
            for piece in pile.pieces if pile.name in self.scene.printed else ():
                yield Step("fresh", "renew", piece.name, self.at(piece.name, NOWHERE))
        for guide in pieces(self.edition, "teacher"):
            if guide.name not in self.scene.printed and not self.printed(guide.clue):
                yield Step("fresh", "trace", guide.name, self.groups)
        for piece in pieces(self.edition):
            yield Step("fresh", "look-over", piece.name, self.doubtful(piece.name))

    def doubtful(self, sheet: str) -> tuple[str, ...]:
        """Return the groups whose sheet may have been written on."""
        return tuple(g for g in self.groups if self.scene.says(g, sheet, "perhaps-written-on"))

    # locks and boxes

    def lock(self, lock: str) -> Iterator[Step]:
        """Yield setting and testing."""
        real = tuple(one for one in self.groups if not self.gear.envelope(one, lock))
        unset = tuple(one for one in real if (one, lock) not in self.scene.set_to)
        yield Step("locks", "set", lock, unset)
        untested = (one for one in real if not self.scene.says(one, lock, "tested"))
        yield Step("locks", "test", lock, tuple(untested))
        spare = tuple(one for one in unset if self.gear.spare(one, lock))
        yield Step("locks", "spare", lock, spare)

    def box(self, box: str) -> Iterator[Step]:
        """Yield filling and closing one box."""
        yield from (Step("boxes", "put", thing, self.groups, box) for thing in self.lying(box))
        for lock in self.gear.on(box):
            envelopes = tuple(one for one in self.groups if self.gear.envelope(one, lock))
            real = tuple(one for one in self.groups if one not in envelopes)
            with_key = self.game.locks[lock].mechanism == "key"
            yield Step("boxes", "hang", lock, real, box)
            yield Step("boxes", "take-key" if with_key else "scramble", lock, real, box)
            yield Step("boxes", "pull", lock, real, box)
            yield Step("boxes", "seal", lock, envelopes, box)

    def lying(self, place: str) -> Iterator[str]:
        """Yield the boxes, items and sheets that belong to a place."""
        boxes = self.gear.closing
        yield from (id for id in boxes if self.game.boxes[id].place == place)
        yield from (id for id, item in self.game.items.items() if item.place == place)
        yield from (piece.name for piece in pieces(self.edition) if piece.place == place)

    # the room

    def room(self) -> Iterator[Step]:
        """Yield what is put into the room's places, then what lies on the tables."""
        for place in self.gear.hiding:
            yield from (Step("room", "hide", one, self.groups, place) for one in self.lying(place))
        for thing in self.lying(TABLE):
            yield Step("room", "lay", thing, self.groups, TABLE)
        yield Step("room", "lay-cards", "", self.groups, TABLE)
        yield Step("room", "keep", "", self.groups)

    def arrival(self) -> Iterator[Step]:
        """Yield what is handed out, and the story."""
        yield Step("arrival", "read", "", self.groups[:1])
        for thing in self.lying(START):
            yield Step("arrival", "give", thing, self.groups, START)


def _act(name: str) -> Act:
    return "print-tables" if name == "print-tables" else "print-own"


def minutes(steps: tuple[Step, ...], block: Block) -> int:
    """Return the whole minutes that a block takes, at least one."""
    return max(1, round(sum(step.seconds for step in steps if step.block == block) / 60))

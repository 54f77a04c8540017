"""Where everything is while a game is set up, and what each step of the card does to it.

A simulation that is as strict as the things themselves: nothing comes out of a closed
box, a lock closes only what is hung on it, a key that its lock holds fast is nowhere
else. `follow` refuses a step that a hand could not do, or should not; `unready` says
what is still missing for the class to come in. It looks at the edition, never at how
the steps were planned.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

from boxwright.choose.gear import Gear
from boxwright.choose.piles import pieces, piles
from boxwright.choose.steps import Step
from boxwright.game.hinting import hints_allowed
from boxwright.game.mechanisms import Code, entry
from boxwright.puzzles.shelf import kind

SHELF, HAND, TRAY = "(shelf)", "(hand)", "(tray)"
NOWHERE = "(nowhere)"
"""Not printed yet, or used up."""

Key = tuple[str, str]
"""A group, and the id of one of its things."""


class CannotDoError(Exception):
    """A step that cannot be done as things stand: our own mistake in planning."""

    def __init__(self, step: Step, group: str, why: str) -> None:
        """Keep the step, the group that it fails for, and a word for why."""
        super().__init__(f"{step.act} {step.thing} ({group}): {why}")
        self.step, self.group, self.why = step, group, why


class Lack(NamedTuple):
    """What is not ready: a group's thing, and a word for what is wrong with it."""

    group: str
    thing: str
    what: str


MARKED = frozenset({"pencil", "colour", "scissors"})
"""What leaves traces on a sheet."""


def leaves_traces(name: str) -> bool:
    """Tell whether sheets of a kind may be written on or cut."""
    return bool(kind(name).FACTS.uses & MARKED)


@dataclass
class Scene:
    """All things of all groups. `at` tells where each is; sets hold what is true of which."""

    gear: Gear
    at: dict[Key, str] = field(default_factory=dict)
    open: set[Key] = field(default_factory=set)
    set_to: dict[Key, Code] = field(default_factory=dict)
    true: set[tuple[str, str, str]] = field(default_factory=set)
    printed: set[str] = field(default_factory=set)

    def says(self, group: str, thing: str, what: str) -> bool:
        """Tell whether something (tested, scrambled, pulled, ...) holds of a thing."""
        return (group, thing, what) in self.true

    def holder(self, group: str, key: str) -> str | None:
        """Return the open lock that holds a key fast."""
        at = self.at.get((group, key), "")
        return at if at in self.gear.edition.game.locks else None


def things(gear: Gear, group: str) -> Iterator[str]:
    """Yield the ids of all things of one group, sheets last."""
    game = gear.edition.game
    yield from (*game.boxes, *game.locks, *game.items)
    yield from (piece.name for piece in pieces(gear.edition))


def resting(gear: Gear) -> Scene:
    """Return how things rest: on the shelf, open, unset; nothing printed."""
    scene = Scene(gear)
    sheets = {piece.name for piece in pieces(gear.edition)}
    for group in gear.edition.groups:
        for thing in things(gear, group):
            scene.at[group, thing] = NOWHERE if thing in sheets else SHELF
    _opened(scene)
    return scene


def played(gear: Gear) -> Scene:
    """Return how a class leaves things: all in the tray, open; what was used up is gone."""
    scene = Scene(gear)
    edition = gear.edition
    used = {piece.name for piece in pieces(edition) if edition.game.clues[piece.clue].written_on}
    for group in edition.groups:
        for thing in things(gear, group):
            torn = thing in edition.game.locks and gear.envelope(group, thing)
            scene.at[group, thing] = NOWHERE if thing in used or torn else TRAY
        for lock in edition.game.locks:
            if not gear.envelope(group, lock):
                scene.set_to[group, lock] = edition.codes.get(lock, ())
    scene.printed = {
        *(pile.name for pile in piles(edition)),
        "print-tables",
        "print-own",
        "cut",
        "fold",
    }
    for group in edition.groups:
        for piece in pieces(edition):
            if piece.name not in used and leaves_traces(edition.sheets[piece.clue].kind):
                scene.true.add((group, piece.name, "perhaps-written-on"))
        kept = {(group, lock, "spare-kept") for lock in edition.game.locks}
        scene.true |= kept
    guides = pieces(edition, "teacher")
    scene.printed |= {one.name for one in guides if not edition.game.clues[one.clue].written_on}
    _opened(scene)
    return scene


def _opened(scene: Scene) -> None:
    """Open everything; locks that hold their key fast have it in them."""
    game = scene.gear.edition.game
    for group in scene.gear.edition.groups:
        scene.open |= {(group, id) for id in (*game.boxes, *game.locks)}
        for lock in game.locks:
            key = scene.gear.key(lock)
            if key is not None and scene.gear.keeps_key(group, lock):
                scene.at[group, key] = lock


def follow(scene: Scene, step: Step) -> None:
    """Do `step` for each of its groups; raises CannotDoError where that is impossible."""
    for group in step.groups:
        why = _Hand(scene, step, group).do()
        if why:
            raise CannotDoError(step, group, why)


class _Hand:
    """Does one step for one group; each act returns why it cannot be done, or nothing."""

    def __init__(self, scene: Scene, step: Step, group: str) -> None:
        self.scene, self.step, self.group = scene, step, group
        self.gear, self.game = scene.gear, scene.gear.edition.game
        self.key = (group, step.thing)

    def do(self) -> str:
        """Do the act."""
        method = getattr(self, "_" + self.step.act.replace("-", "_"))
        why: str = method()
        return why

    # what the acts share

    def _where(self, thing: str) -> str:
        return self.scene.at[self.group, thing]

    def _move(self, thing: str, to: str) -> None:
        self.scene.at[self.group, thing] = to

    def _is(self, what: str) -> bool:
        return self.scene.says(self.group, self.step.thing, what)

    def _now(self, *what: str) -> str:
        self.scene.true |= {(self.group, self.step.thing, one) for one in what}
        return ""

    def _no_longer(self, *what: str) -> None:
        self.scene.true -= {(self.group, self.step.thing, one) for one in what}

    def _is_open(self, thing: str) -> bool:
        return (self.group, thing) in self.scene.open

    def _in_hand(self) -> bool:
        at = self._where(self.step.thing)
        inside = self.gear.built_in(self.group, self.step.thing) if self._is_lock() else False
        return at == HAND or (inside and self._where(self._box()) == HAND)

    def _is_lock(self) -> bool:
        return self.step.thing in self.game.locks

    def _box(self) -> str:
        return self.game.locks[self.step.thing].closes

    def _key_at_hand(self) -> bool:
        key = self.gear.key(self.step.thing)
        return key is None or self._where(key) in (HAND, self.step.thing)

    # paper

    def _print(self) -> str:
        pile = next(one for one in piles(self.gear.edition) if one.name == self.step.thing)
        self.scene.printed.add(pile.name)
        for piece in pile.pieces:
            self._move(piece.name, HAND)
        return ""

    def _paper_done(self, name: str) -> str:
        self.scene.printed.add(name)
        return ""

    def _print_tables(self) -> str:
        return self._paper_done(self.step.act)

    def _print_own(self) -> str:
        return self._paper_done(self.step.act)

    def _trace(self) -> str:
        if "print-own" not in self.scene.printed:
            return "no-guide"
        return self._paper_done(self.step.thing)

    def _cut(self) -> str:
        return self._paper_done("cut") if "print-own" in self.scene.printed else "not-printed"

    def _fold(self) -> str:
        return self._paper_done("fold") if "cut" in self.scene.printed else "not-cut"

    def _renew(self) -> str:
        if self._where(self.step.thing) != NOWHERE:
            return "not-used-up"
        self._move(self.step.thing, HAND)
        return ""

    def _look_over(self) -> str:
        self._no_longer("perhaps-written-on")
        return "" if self._in_hand() else "not-at-hand"

    # from shelf or tray

    def _count(self) -> str:
        for thing in things(self.gear, self.group):
            if self._where(thing) == TRAY:
                self._move(thing, HAND)
        return ""

    def _fetch(self) -> str:
        if self._where(self.step.thing) != SHELF:
            return "not-on-the-shelf"
        self._move(self.step.thing, HAND)
        return ""

    def _label(self) -> str:
        if self._where(self.step.thing) not in (SHELF, NOWHERE):
            return "labelled-already"
        if "cut" not in self.scene.printed:
            return "no-label"
        self._move(self.step.thing, HAND)
        if self.gear.paper_box(self.group, self._box()):
            self._move(self._box(), HAND)  # the envelope is the box
        return ""

    def _try_tool(self) -> str:
        return self._now("tried") if self._in_hand() else "not-at-hand"

    # locks

    def _set(self) -> str:
        if not (self._in_hand() and self._is_open(self.step.thing)):
            return "not-open-in-the-hand"
        self.scene.set_to[self.key] = self.gear.edition.codes.get(self.step.thing, ())
        self._no_longer("tested")
        return ""

    def _test(self) -> str:
        if not (self._in_hand() and self._is_open(self.step.thing)):
            return "not-open-in-the-hand"
        if self.key not in self.scene.set_to:
            return "not-set"
        return self._now("tested") if self._key_at_hand() else "no-key"

    def _spare(self) -> str:
        return self._now("spare-kept")

    # boxes

    def _put(self) -> str:
        thing, box = self.step.thing, self.step.at
        if not self._in_hand():
            return "not-at-hand"
        if thing in self.game.boxes and self._is_open(thing):
            return "still-open"
        if not self._is_open(box):
            return "closed-already"
        self._move(thing, box)
        return ""

    def _hang(self) -> str:
        box = self._box()
        if not (self._in_hand() and self._is_open(self.step.thing) and self._where(box) == HAND):
            return "not-at-hand"
        if not self._is("tested"):
            return "not-tested"
        self._move(self.step.thing, f"{box}/")
        self._shut(self.step.thing)
        return ""

    def _shut(self, thing: str) -> None:
        """Close a lock on its box; the lid is shut with the first of them."""
        self.scene.open -= {(self.group, thing), (self.group, self._box())}
        self._no_longer("scrambled", "pulled")

    def _take_key(self) -> str:
        key = self.gear.key(self.step.thing)
        if self._is_open(self.step.thing):
            return "still-open"
        if not self._key_at_hand():
            return "no-key"
        if key is not None:
            self._move(key, HAND)
        return self._now("scrambled")

    def _scramble(self) -> str:
        if self._is_open(self.step.thing) or self._where(self.step.thing) == HAND:
            return "not-closed-on-its-box"
        return self._now("scrambled")

    def _pull(self) -> str:
        if self._is_open(self.step.thing):
            return "still-open"
        return self._now("pulled") if self._is("scrambled") else "code-still-shows"

    def _seal(self) -> str:
        if not self._in_hand() or self._where(self._box()) != HAND:
            return "not-at-hand"
        self._move(self.step.thing, f"{self._box()}/")
        self._shut(self.step.thing)
        return self._now("sealed")

    # places

    def _set_down(self) -> str:
        thing = self.step.thing
        if not self._in_hand():
            return "not-at-hand"
        if thing in self.game.boxes and self._is_open(thing):
            return "still-open"
        self._move(thing, self.step.at)
        return ""

    def _hide(self) -> str:
        return self._set_down()

    def _lay(self) -> str:
        return self._set_down()

    def _give(self) -> str:
        return self._set_down()

    def _lay_cards(self) -> str:
        if "print-tables" not in self.scene.printed:
            return "not-printed"
        return self._now("cards-laid")

    def _keep(self) -> str:
        return self._now("kept") if "print-own" in self.scene.printed else "not-printed"

    def _read(self) -> str:
        return self._paper_done("read") if "print-own" in self.scene.printed else "not-printed"


def unready(scene: Scene) -> list[Lack]:
    """Return everything that is not yet as it must be when the class comes in."""
    return [
        Lack(group, thing, what)
        for group in scene.gear.edition.groups
        for look in (_boxes, _locks, _items, _sheets, _extras)
        for thing, what in look(scene, group)
    ]


_Lacks = Iterator[tuple[str, str]]


def _boxes(scene: Scene, group: str) -> _Lacks:
    for id, box in scene.gear.edition.game.boxes.items():
        if scene.at[group, id] != box.place:
            yield id, "not-in-its-place"
        if (group, id) in scene.open and any(scene.gear.on(id)):
            yield id, "open"


def _locks(scene: Scene, group: str) -> _Lacks:
    edition = scene.gear.edition
    for id, lock in edition.game.locks.items():
        if scene.at[group, id] != f"{lock.closes}/":
            yield id, "not-on-its-box"
        if (group, id) in scene.open:
            yield id, "open"
        envelope = scene.gear.envelope(group, id)
        for what in ("sealed",) if envelope else ("tested", "scrambled", "pulled"):
            if not scene.says(group, id, what):
                yield id, f"not-{what}"
        if scene.gear.spare(group, id) and not scene.says(group, id, "spare-kept"):
            yield id, "spare-not-kept"
        if not envelope and not _right(scene, group, id):
            yield id, "set-to-another-code"


def _right(scene: Scene, group: str, lock: str) -> bool:
    code, found = scene.gear.edition.codes.get(lock, ()), scene.set_to.get((group, lock))
    device = scene.gear.devices[group][lock]
    return found is not None and entry(device).same(device, found, code)


def _items(scene: Scene, group: str) -> _Lacks:
    for id, item in scene.gear.edition.game.items.items():
        if scene.at[group, id] != item.place:
            yield id, "not-in-its-place"
        if item.tool is not None and not scene.says(group, id, "tried"):
            yield id, "not-tried"


def _sheets(scene: Scene, group: str) -> _Lacks:
    for piece in pieces(scene.gear.edition):
        if scene.at[group, piece.name] != piece.place:
            yield piece.name, "not-in-its-place"
        if scene.says(group, piece.name, "perhaps-written-on"):
            yield piece.name, "perhaps-written-on"
    for guide in pieces(scene.gear.edition, "teacher"):
        if guide.name not in scene.printed:
            yield guide.name, "not-traced"


def _extras(scene: Scene, group: str) -> _Lacks:
    if "read" not in scene.printed:
        yield "", "story-not-read"
    slips = scene.gear.edition.sheets and hints_allowed(scene.gear.edition.game)
    if slips and "fold" not in scene.printed:
        yield "", "hint-slips-not-folded"
    if not scene.says(group, "", "cards-laid"):
        yield "", "no-cards-on-the-table"
    if not scene.says(group, "", "kept"):
        yield "", "nothing-with-the-teacher"

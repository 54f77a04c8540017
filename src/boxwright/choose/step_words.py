"""What a step says: the line on the card, and how it is done where that needs telling."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.choose.gear import Gear
from boxwright.choose.piles import pieces, piles
from boxwright.choose.steps import Step
from boxwright.choose.taking import taking
from boxwright.game.arranged import ArrangedGame
from boxwright.game.mechanisms import entry
from boxwright.game.model import START, TABLE
from boxwright.problems import Arg, Message, say


def said(gear: Gear, step: Step) -> Message:
    """Return the line that tells `step`, in the words that fit its lock."""
    return say(_special(gear, step) or f"step.{step.act}", **_blanks(gear, step))


def _blanks(gear: Gear, step: Step) -> dict[str, Arg]:
    blanks: dict[str, Arg] = {"n": len(step.groups)}
    if step.act == "print":
        pile = next(one for one in piles(gear.edition) if one.name == step.thing)
        where = say("step.to-several") if pile.place is None else going_to(gear, pile.place)
        blanks |= {"file": file_name(pile.name), "where": where, "pages": len(pile.pieces)}
    elif step.act == "print-own":
        blanks["files"] = tuple(_own_files(gear))
    elif step.thing:
        blanks["thing"] = named(gear, step.thing)
    if step.thing in gear.edition.game.locks:
        lock = gear.edition.game.locks[step.thing]
        blanks["lock"] = say(f"mechanism.name-{lock.mechanism}")
        blanks["box"] = gear.edition.game.name_of(lock.closes)
    if step.act == "scramble":
        device = gear.devices[step.groups[0]][step.thing]
        blanks["how"] = entry(device).scrambling(device)
    if step.at:
        blanks["at"] = place_named(gear, step.at)
    return blanks


def _special(gear: Gear, step: Step) -> str:
    """Return the message for locks that hang on nothing; empty where the common one fits."""
    game, group = gear.edition.game, step.groups[0]
    if step.act == "hang" and gear.built_in(group, step.thing):
        return "step.shut"
    if step.act == "seal" and gear.paper_box(group, game.locks[step.thing].closes):
        return "step.seal-paper"
    if step.act in ("set", "test") and game.locks[step.thing].mechanism == "key":
        return f"step.{step.act}-key"
    if step.act == "set" and gear.devices[group][step.thing].fixed is not None:
        return "step.set-fixed"
    if step.act == "put" and gear.paper_box(group, step.at):
        return "step.put-paper"
    return ""


def _own_files(gear: Gear) -> Iterator[Message]:
    """Yield the names of the files that are printed once, for the teacher's own hands."""
    edition = gear.edition
    there = {
        "key": bool(edition.sheets),
        "count-in": True,
        "labels": any(edition.stickers.values()),
        "story": bool(edition.game.story.opening),
        "closing": True,
        "debrief": True,
        "tracing": any(pieces(edition, "teacher")),
    }
    for name in (name for name, is_there in there.items() if is_there):
        yield say("step.own-file", name=say(f"printout.{name}"))


def file_name(pile: str) -> Message:
    """Return the name of a pile's file, as the print-outs call it."""
    return say("step.file", pile=pile)


def going_to(gear: Gear, place: str) -> Message:
    """Say where a pile goes."""
    if place in (START, TABLE):
        return say(f"step.to-{place}")
    to = "step.to-box" if place in gear.edition.game.boxes else "step.to-place"
    return say(to, place=place_named(gear, place))


def place_named(gear: Gear, place: str) -> Arg:
    """Return how a person calls a box, a place of the room, the table or the start."""
    room = gear.folder.room
    if room is not None and place in room.places:
        return room.places[place].name
    if place in (START, TABLE):
        return say(f"step.at-{place}")
    return gear.edition.game.name_of(place)


def named(gear: Gear, thing: str) -> Arg:
    """Return how a person calls a box, a lock, an item or a sheet."""
    game = gear.edition.game
    if thing in game.locks:
        return lock_named(game, thing)
    clue, _, part = thing.partition("/")
    if part:
        return say("step.sheet" if part == "sheet" else "step.part", clue=clue, part=part)
    return game.name_of(thing)


def lock_named(game: ArrangedGame, lock: str) -> Message:
    """Say which lock: its sort, and the box that it closes."""
    one = game.locks[lock]
    sort = say(f"mechanism.name-{one.mechanism}")
    return say("step.lock", lock=sort, box=game.boxes[one.closes].name)


def how(gear: Gear, step: Step) -> tuple[Message, ...]:
    """Return how an act is done where its line does not say all, one sentence a message.

    How a lock is set and tested, what to take where no kit tells, when a sheet is replaced.
    """
    if step.act == "fetch":
        return taking(gear, step.groups, step.thing)
    if step.act == "look-over":
        return (say("step.look-over-how"),)
    return tuple(_how(gear, step))


def _how(gear: Gear, step: Step) -> Iterator[Message]:
    if step.act not in ("set", "test"):
        return
    group = step.groups[0]
    device, code = gear.devices[group][step.thing], gear.edition.codes.get(step.thing, ())
    mechanism = entry(device)
    if step.act == "set":
        lines = mechanism.setting(device, code, gear.make(group, step.thing))
    else:
        lines = mechanism.testing(device, code)
    own = gear.built_in(group, step.thing)
    swapped = {"mechanism.set-open": "step.own-open", "mechanism.test-close": "step.own-close"}
    for one in lines:
        if one.id != "mechanism.set-key-spare":  # that is a step of its own
            yield say(swapped[one.id]) if own and one.id in swapped else one

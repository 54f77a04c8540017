"""What the clues' page shows of clues, ways and kinds: names, choices, addresses."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any
from urllib.parse import quote

from fastapi import HTTPException

from boxwright.build.current import current_editions
from boxwright.choose.offers import Offer
from boxwright.game.model import LEVELS, Level, Version
from boxwright.problems import Refused, plain, say
from boxwright.puzzles.shelf import carried, kind
from boxwright.web.game import Game
from boxwright.web.options_form import fields
from boxwright.web.render import told
from boxwright.web.scene import scene_of
from boxwright.web.tables import tables_of


@dataclass(frozen=True, slots=True)
class Way:
    """One way of a clue, as a card shows it."""

    name: str
    level: Level | None
    kind: str
    rooms: tuple[str, ...]
    address: str
    sheets: str


def version_of(game: Game, clue: str, way: str) -> Version:
    """Return one way of a clue as the game has it; 404 where there is none."""
    try:
        return game.folder.game.clues[clue].versions[way]
    except KeyError:
        raise HTTPException(404) from None


def bench_values(game: Game, clue: str, way: str) -> dict[str, Any]:
    """Return what the bench shows of one way of a clue."""
    version, one = version_of(game, clue, way), game.folder.game.clues[clue]
    lock, scene = game.folder.game.locks.get(one.gives), scene_of(game)
    saved = _saved(version) | ({} if lock is None else {"code": lock.code})
    return {
        "game": game,
        "bench": clue,
        "way": way,
        "gives": one.gives,
        "gives_said": scene.name(one.gives),
        "goals": [game.folder.game.goals[goal] for goal in one.goals],
        "lock": lock,
        "version": version,
        "ways": list(ways_of(game, clue)),
        "saved": json.dumps(saved),
        "tables": choices_of_tables(game),
        "levels": LEVELS,
        "throwable": _throwable(game, clue, way),
        "consequences": _consequences(game, version),
        **fields_of(game, clue, version.kind, version.options, version),
    }


def _consequences(game: Game, version: Version) -> dict[str, tuple[str, ...]]:
    """Return what a way needs, brings into play and takes out of it, by name."""
    names = ("needs", "adds", "drops")
    return {one: tuple(map(scene_of(game).name, getattr(version, one))) for one in names}


def fields_of(
    game: Game, clue: str, name: str, options: Mapping[str, Any], version: Version
) -> dict[str, Any]:
    """Return the fields of the kind `name`, and where its parts may lie."""
    facts = kind(name).FACTS
    return {
        "kind": name,
        "places": list(_places_for(game, clue, version)),
        "facts": facts,
        "fields": fields(name, options, game.folder.pictures),
        "apart": [part.name for part in facts.parts if part.apart],
        "parts": {part: json.dumps(plain(place)) for part, place in version.parts.items()},
    }


def _places_for(game: Game, clue: str, version: Version) -> Iterator[tuple[str, str]]:
    """Yield where a sheet may lie, as JSON, and in words; where it lies now is among them."""
    scene = scene_of(game)
    found = {json.dumps(one): scene.name(one) for one in scene.targets(clue)}
    for one in (version.place, *version.parts.values()):
        wishes = (one,) if isinstance(one, str) else one
        said = tuple(scene.name(wish) for wish in wishes)
        found.setdefault(json.dumps(plain(one)), told(say("page-clues.first-of", places=said)))
    yield from found.items()


def _saved(version: Version) -> dict[str, Any]:
    """Return a way's fields as they stand, for the script to tell what was changed."""
    named = ("kind", "level", "content", "options", "place", "parts", "hints", "rooms")
    return {name: plain(getattr(version, name)) for name in (*named, "facilities")}


def ways_of(game: Game, clue: str) -> Iterator[Way]:
    """Yield the ways of a clue."""
    for name, one in game.folder.game.clues[clue].versions.items():
        address, sheets = game.address("clues", clue, name), stamped(game, clue, name, "sheets")
        yield Way(name, one.level, one.kind, one.rooms, address, sheets)


def stamped(game: Game, *steps: str) -> str:
    """Return an address that another state of the game does not have, to be remembered by."""
    address = game.address("clues", *steps)
    stamp = "-".join((game.tag, *map(str, game.printed_at)))
    return f"{address}{'&' if '?' in address else '?'}of={quote(stamp, safe='')}"


def _throwable(game: Game, clue: str, way: str) -> bool:
    """Tell whether other dice can be kept for a way: it is printed, or nothing is yet."""
    try:
        editions = current_editions(game.path)
    except Refused:  # it cannot be read, so nothing can be made anew of it
        return False
    return not editions or any(one.chosen.get(clue) == way for one in editions)


def choices_of_tables(game: Game) -> list[tuple[str, str]]:
    """Return the files in content/, each with what sort of table it is, in words."""
    return [
        (file, told(say("page-clues.table-file", file=file, table=say(f"page-clues.table-{sort}"))))
        if sort
        else (file, file)
        for file, sort in tables_of(game).items()
    ]


def givable(game: Game) -> Iterator[tuple[str, str]]:
    """Yield what a clue can lead to: locks that have a code, and things in places with a word."""
    scene = scene_of(game)
    for id, lock in game.folder.game.locks.items():
        if lock.mechanism != "key":
            yield id, scene.name(id)
    for id in game.folder.game.items:
        yield id, scene.name(id)


def offer_of(game: Game, one: Offer) -> dict[str, Any]:
    """Return a kind as the page offers it: what it can lead to, what it takes and draws on."""
    facts = one.kind.FACTS
    needs = [need.table for need in facts.content]
    return {
        "name": one.name,
        "carries": one.carries,
        "facts": facts,
        "can": carried(one.kind),
        "uses": tuple(say(f"suggest.use-{use}") for use in sorted(facts.uses)),
        "needs": [(table, table in tables_of(game).values()) for table in needs],
    }

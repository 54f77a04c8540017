"""What the clues' page shows of clues, ways and kinds: names, choices, addresses."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any
from urllib.parse import quote

from boxwright.build.current import current_editions
from boxwright.choose.needs import files_for, tables_that_serve
from boxwright.choose.offers import Offer
from boxwright.choose.other_kind import MadeOver
from boxwright.game.model import LEVELS, Level, Version
from boxwright.problems import Refused, plain, say
from boxwright.puzzles.shelf import carried, kind
from boxwright.web.bench import version_of
from boxwright.web.game import Game
from boxwright.web.options_form import fields
from boxwright.web.render import told
from boxwright.web.scene import scene_of
from boxwright.web.tables import choices_of_tables, contents_of


@dataclass(frozen=True, slots=True)
class Way:
    """One way of a clue, as a card shows it."""

    name: str
    level: Level | None
    kind: str
    rooms: tuple[str, ...]
    address: str
    sheets: str


def bench_values(game: Game, clue: str, way: str) -> dict[str, Any]:
    """Return what the bench shows of one way of a clue."""
    version, one = version_of(game, clue, way), game.folder.game.clues[clue]
    lock, scene = game.folder.game.locks.get(one.gives), scene_of(game)
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
        "levels": LEVELS,
        "throwable": _throwable(game, clue, way),
        **_elsewhere(game, clue, version),
        **fields_of(game, clue, version, version.kind, MadeOver(version.content, version.options)),
    }


def _elsewhere(game: Game, clue: str, version: Version) -> dict[str, Any]:
    """Return what a way may need, bring into play, take out of it and put elsewhere, by name."""
    scene, raw = scene_of(game), game.folder.game
    all_of_them: dict[str, Any] = {**raw.boxes, **raw.locks, **raw.items, **raw.clues}
    waiting = {id for id, one in all_of_them.items() if one.optional}
    ids = {
        "needs": [*raw.items],
        "adds": [id for id in all_of_them if id in waiting or id in version.adds],
        "drops": [id for id in all_of_them if id != clue and id not in waiting - {*version.drops}],
    }
    movable = [*raw.boxes, *raw.locks, *raw.items]
    to = dict.fromkeys((*raw.boxes, *(spot.id for spot in scene.nesting.spots if spot.id)))
    return {
        "elsewhere": {name: [(id, scene.name(id)) for id in some] for name, some in ids.items()},
        "moved": [(id, scene.name(id), target) for id, target in version.moves.items()],
        "movable": [(id, scene.name(id)) for id in movable if id not in version.moves],
        "move_to": [(id, scene.name(id)) for id in {**to, **dict.fromkeys(version.moves.values())}],
    }


def fields_of(game: Game, clue: str, version: Version, name: str, says: MadeOver) -> dict[str, Any]:
    """Return the fields of the kind `name` as a way fills them, and where its parts may lie."""
    facts = kind(name).FACTS
    return {
        "kind": name,
        "places": list(_places_for(game, clue, version)),
        "facts": facts,
        "fields": fields(name, says.options, game.folder.pictures),
        "content": says.content,
        "tables": choices_of_tables(game),
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


def ways_of(game: Game, clue: str) -> Iterator[Way]:
    """Yield the ways of a clue."""
    for name, one in game.folder.game.clues[clue].versions.items():
        address, sheets = game.address("clues", clue, name), stamped(game, clue, name, "sheets")
        yield Way(name, one.level, one.kind, one.rooms, address, sheets)


def stamped(game: Game, *steps: str) -> str:
    """Return an address that another state of the game does not have, to be remembered by."""
    address = game.address("clues", *steps)
    stamp = f"{game.tag}-{game.printed_at}"
    return f"{address}{'&' if '?' in address else '?'}of={quote(stamp, safe='')}"


def _throwable(game: Game, clue: str, way: str) -> bool:
    """Tell whether other dice can be kept for a way: it is printed, or nothing is yet."""
    try:
        editions = current_editions(game.path)
    except Refused:  # it cannot be read, so nothing can be made anew of it
        return False
    return not editions or any(one.chosen.get(clue) == way for one in editions)


def offer_of(game: Game, one: Offer) -> dict[str, Any]:
    """Return a kind as the page offers it: what it can lead to, what it takes and draws on."""
    facts = one.kind.FACTS
    wanted = tuple(say(f"page-clues.table-{one}") for one in tables_that_serve(facts))
    return {
        "name": one.name,
        "carries": one.carries,
        "facts": facts,
        "can": carried(one.kind),
        "uses": tuple(say(f"suggest.use-{use}") for use in sorted(facts.uses)),
        "wanted": wanted,
        "serving": files_for(facts, contents_of(game)),
    }

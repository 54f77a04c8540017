"""What can be chosen on the shelf of boxes: wishes, tools, what a clue may lead to, new things."""

from __future__ import annotations

from typing import Any, Literal, get_args

from boxwright.choose.chance import Chance
from boxwright.choose.needs import files_for
from boxwright.choose.offers import Offer, offers
from boxwright.game.folder import Folder
from boxwright.game.model import LEVELS, MechanismName
from boxwright.problems import Refused, say
from boxwright.web.game import SEED, Game
from boxwright.web.render import told
from boxwright.web.scene import scene_of
from boxwright.web.tables import choices_of_tables, contents_of

Sort = Literal["any", "box", "lock", "item", "clue"]
SORTS: tuple[Sort, ...] = ("box", "lock", "item", "clue")
SIZES = {"box": "box", "item": "small", "clue": "sheet"}


def tools(folder: Folder) -> tuple[str, ...]:
    """Return the tools that a thing can be: those of the kit, and those that the game wants."""
    kit = folder.kit.tools.values() if folder.kit is not None else ()
    wanted = (item.tool for item in folder.game.items.values())
    return tuple(dict.fromkeys([*(tool.is_ for tool in kit), *(one for one in wanted if one)]))


def givable(folder: Folder) -> tuple[str, ...]:
    """Return what a clue can lead to: locks with a code and things, those without a clue first."""
    game = folder.game
    led = {clue.gives for clue in game.clues.values()}
    locks = (id for id, lock in game.locks.items() if lock.mechanism != "key")
    places = folder.room.places if folder.room is not None else ()
    return tuple(sorted((*locks, *game.items, *places), key=lambda id: id in led))


def wishes(folder: Folder) -> dict[str, Any]:
    """Return what can be wished: levels, and what a place may be and have that ways ask for."""
    head = folder.room.room if folder.room is not None else None
    versions = [one for clue in folder.game.clues.values() for one in clue.versions.values()]
    wanted = [name for one in versions for name in one.facilities]
    rooms = [name for one in versions for name in one.rooms]
    has = head.facilities if head is not None else ()
    here = (head.setting,) if head is not None else ()
    return {
        "levels": LEVELS,
        "facilities": tuple(dict.fromkeys((*has, *wanted))),
        "settings": tuple(dict.fromkeys((*here, *rooms))),
    }


def choices(game: Game, sort: Sort, gives: str | None) -> dict[str, Any]:
    """Return what can be chosen for a new thing of a sort."""
    scene, folder = scene_of(game), game.folder
    if sort == "any":
        return {}
    sought = "lock" if sort == "lock" else SIZES[sort]
    boxes = tuple(folder.game.boxes)
    spots = tuple(spot.id for spot in scene.nesting.spots if spot.id)
    places = boxes if sort == "lock" else (*spots, *boxes)
    able = [id for id in places if id in boxes or sought in scene.holds(id).split()]
    found: dict[str, Any] = {"places": [(id, scene.name(id)) for id in able], "lacks": ""}
    if sort == "lock":
        found["lacks"] = "" if boxes else "box-first"
        names = get_args(MechanismName)
        found["mechanisms"] = [(one, told(say(f"mechanism.name-{one}"))) for one in names]
        found["items"] = [(id, item.name) for id, item in folder.game.items.items()]
    return found | _clue_choices(game, gives) if sort == "clue" else found


def _clue_choices(game: Game, gives: str | None) -> dict[str, Any]:
    scene, folder = scene_of(game), game.folder
    able = givable(folder)
    chosen = gives if gives in able else next(iter(able), None)
    return {
        "lacks": "" if able else "lock-first",
        "givable": [(id, scene.name(id)) for id in able],
        "gives": chosen,
        "kinds": [] if chosen is None else _kinds(game, chosen),
        "tables": choices_of_tables(game),
    }


def _kinds(game: Game, gives: str) -> list[tuple[str, str, str]]:
    """Return the kinds that can lead to `gives`, in words what each needs, and a table for it."""
    try:
        able = [one for one in offers(game.folder, gives, None, Chance(SEED)) if one.carries]
    except Refused:
        able = []
    contents = contents_of(game)
    first = {one.name: next(iter(files_for(one.kind.FACTS, contents)), "") for one in able}
    return [(one.name, _kind_said(one), first[one.name]) for one in able]


def _kind_said(one: Offer) -> str:
    code = "page-boxes.kind-table" if one.kind.FACTS.content else "page-boxes.kind-plain"
    return told(say(code, title=say(f"{one.name}.title")))

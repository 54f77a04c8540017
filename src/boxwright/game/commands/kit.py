"""What stands on the shelf: real locks, boxes, tools and keys by their stickers."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import Field

from boxwright.game.commands.asked import Asked, Code, Mechanism, ShapeAsked, Size, given, held
from boxwright.game.commands.command import Command
from boxwright.game.commands.desk import Desk
from boxwright.game.commands.things import put
from boxwright.game.draft import KIT
from boxwright.game.model import Count, Id, Millimetres, Name, Tag, Text
from boxwright.problems import Message, Problem, Where, refuse, say

STICKERS: Mapping[str, str] = {
    "number-wheels": "N", "letter-wheels": "W", "colour-wheels": "C", "symbol-wheels": "S",
    "direction": "D", "dial": "R", "keypad": "P", "key": "K",
    "locks": "L", "boxes": "B", "tools": "T", "keys": "Y",
}  # fmt: skip
"""The letter on a new sticker: a lock's by its mechanism."""


class MakeAsked(ShapeAsked):
    """What locks of one make share, and what a real lock may say of itself."""

    mechanism: Mechanism | None = None
    set_by: Text | None = None
    set_needs: (
        Annotated[tuple[Literal["pin", "key", "screwdriver"], ...], Field(max_length=3)] | None
    ) = None
    shackle_mm: tuple[Millimetres, Millimetres] | None = None
    cheap: bool | None = None
    reading_line: Text | None = None
    wrong_tries: Annotated[int, Field(ge=0, le=99)] | None = None
    rest_s: Annotated[int, Field(ge=0, le=86_400)] | None = None
    keeps_key_open: bool | None = None


class LockAsked(MakeAsked):
    """What a real lock says of itself."""

    model: Id | None = None
    shelf_code: Code | None = None
    fixed: bool | None = None
    code: Code | None = None
    faults: Text | None = None


class BoxAsked(Asked):
    """What a real box says of itself, but for its name."""

    inside_mm: Size | None = None
    hasp_holes: Annotated[int, Field(ge=0, le=20)] | None = None
    hasp_hole_mm: Millimetres | None = None
    own_lock: Tag | None = None


class KitDescribe(Asked):
    """The name of the shelf; a game without a kit gets one so."""

    name: Name


class KitClear(Asked):
    """Everything off the shelf, for whoever has another; its name and the envelopes stay."""


class LockAdd(LockAsked):
    """A lock; without a `tag` it gets the next free one."""

    tag: Tag | None = None


class LockChange(LockAsked):
    """Fields of a lock; None takes one away."""

    tag: Tag


class BoxAdd(BoxAsked):
    """A box; without a `tag` it gets the next free one."""

    name: Name
    tag: Tag | None = None


class BoxChange(BoxAsked):
    """Fields of a box; None takes one away."""

    tag: Tag
    name: Name | None = None


class ToolAdd(Asked):
    """A tool; without a `tag` it gets the next free one."""

    is_: Annotated[Id, Field(alias="is")]
    batteries: Text | None = None
    tag: Tag | None = None


class ToolChange(Asked):
    """Fields of a tool; None takes one away."""

    tag: Tag
    is_: Annotated[Id | None, Field(alias="is")] = None
    batteries: Text | None = None


class KeyAdd(Asked):
    """A key; without a `tag` it gets the next free one."""

    opens: Annotated[tuple[Tag, ...], Field(max_length=100)]
    copies: Count | None = None
    tag: Tag | None = None


class KeyChange(Asked):
    """Fields of a key; None takes one away."""

    tag: Tag
    opens: Annotated[tuple[Tag, ...], Field(max_length=100)] | None = None
    copies: Count | None = None


class ModelAdd(MakeAsked):
    """What locks of one make share; the id is made from the name."""

    name: Name


class ModelChange(MakeAsked):
    """Fields of a make; None takes one away."""

    model: Id


class ModelRemove(Asked):
    """A make that no lock names any more."""

    model: Id


class TagRemove(Asked):
    """What is no longer on the shelf."""

    tag: Tag


class StandIns(Asked):
    """How many envelopes there are in place of locks."""

    envelopes: Annotated[int, Field(ge=0, le=999)]


def _describe(desk: Desk, asked: KitDescribe) -> Message:
    if desk.has(KIT):
        desk.table(KIT, "kit")["name"] = asked.name
    else:
        desk.begin(KIT, {"id": desk.fresh_id(asked.name, "kit", ()), "name": asked.name})
    return say("change.kit-described", name=asked.name)


def _clear(desk: Desk, asked: KitClear) -> Message:
    for section in ("locks", "boxes", "tools", "keys", "models"):
        _shelf(desk, section).clear()
    return say("change.kit-cleared")


def _shelf(desk: Desk, section: str) -> Any:
    if not desk.has(KIT):
        refuse(Problem.of("change.no-kit", Where(KIT)))
    return desk.table(KIT, section)


def _add(desk: Desk, section: str, letter: str, tag: str | None, table: dict[str, Any]) -> Message:
    things, taken = _shelf(desk, section), desk.tags()
    free = (f"{letter}{number}" for number in range(1, 1000))
    tag = tag or next((one for one in free if one not in taken), f"{letter}999")
    if tag in taken:
        refuse(Problem.of("change.tag-taken", Where(KIT, ("tag",)), tag=tag))
    things[tag] = table
    return say("change.tag-added", id=tag)


def _change(desk: Desk, section: str, asked: Any) -> Message:
    put(_known(desk, section, asked.tag), given(asked, "tag"))
    return say("change.tag-changed", id=asked.tag)


def _known(desk: Desk, section: str, tag: str) -> Any:
    things = _shelf(desk, section)
    if tag not in things:
        choices = tuple(things) or (say("game.none-yet"),)
        refuse(Problem.of("change.no-tag", Where(KIT), tag=tag, choices=choices))
    return things[tag]


def _remove(desk: Desk, section: str, asked: TagRemove) -> Message:
    _known(desk, section, asked.tag)
    del _shelf(desk, section)[asked.tag]
    return say("change.tag-removed", id=asked.tag)


# Locks, which keys and boxes name.


def _add_lock(desk: Desk, asked: LockAdd) -> Message:
    make = _shelf(desk, "models").get(asked.model, {})
    letter = STICKERS[asked.mechanism or make.get("mechanism", "locks")]
    return _add(desk, "locks", letter, asked.tag, held(asked, "tag"))


def _remove_lock(desk: Desk, asked: TagRemove) -> Message:
    message = _remove(desk, "locks", asked)
    for key in _shelf(desk, "keys").values():
        key["opens"] = [one for one in key.get("opens", []) if one != asked.tag]
    for box in _shelf(desk, "boxes").values():
        if box.get("own_lock") == asked.tag:
            del box["own_lock"]
    return message


def _add_box(desk: Desk, asked: BoxAdd) -> Message:
    return _add(
        desk, "boxes", STICKERS["boxes"], asked.tag, {"name": asked.name, **held(asked, "tag")}
    )


def _add_tool(desk: Desk, asked: ToolAdd) -> Message:
    return _add(desk, "tools", STICKERS["tools"], asked.tag, held(asked, "tag"))


def _add_key(desk: Desk, asked: KeyAdd) -> Message:
    return _add(desk, "keys", STICKERS["keys"], asked.tag, held(asked, "tag"))


# Makes and stand-ins.


def _add_model(desk: Desk, asked: ModelAdd) -> Message:
    models = _shelf(desk, "models")
    id = desk.fresh_id(asked.name, "model", models)
    models[id] = held(asked, "name")
    return say("change.model-added", id=id)


def _model(desk: Desk, id: str) -> Any:
    models = _shelf(desk, "models")
    if id not in models:
        choices = tuple(models) or (say("game.none-yet"),)
        refuse(Problem.of("change.no-model", Where(KIT), id=id, choices=choices))
    return models[id]


def _change_model(desk: Desk, asked: ModelChange) -> Message:
    put(_model(desk, asked.model), given(asked, "model"))
    return say("change.model-changed", id=asked.model)


def _remove_model(desk: Desk, asked: ModelRemove) -> Message:
    _model(desk, asked.model)
    del _shelf(desk, "models")[asked.model]
    return say("change.model-removed", id=asked.model)


def _stand_ins(desk: Desk, asked: StandIns) -> Message:
    _shelf(desk, "stand_ins")["envelopes"] = asked.envelopes
    return say("change.stand-ins", n=asked.envelopes)


COMMANDS = (
    Command("kit.describe", KitDescribe, _describe),
    Command("kit.clear", KitClear, _clear),
    Command("kit.lock.add", LockAdd, _add_lock),
    Command("kit.lock.change", LockChange, lambda desk, asked: _change(desk, "locks", asked)),
    Command("kit.lock.remove", TagRemove, _remove_lock),
    Command("kit.box.add", BoxAdd, _add_box),
    Command("kit.box.change", BoxChange, lambda desk, asked: _change(desk, "boxes", asked)),
    Command("kit.box.remove", TagRemove, lambda desk, asked: _remove(desk, "boxes", asked)),
    Command("kit.tool.add", ToolAdd, _add_tool),
    Command("kit.tool.change", ToolChange, lambda desk, asked: _change(desk, "tools", asked)),
    Command("kit.tool.remove", TagRemove, lambda desk, asked: _remove(desk, "tools", asked)),
    Command("kit.key.add", KeyAdd, _add_key),
    Command("kit.key.change", KeyChange, lambda desk, asked: _change(desk, "keys", asked)),
    Command("kit.key.remove", TagRemove, lambda desk, asked: _remove(desk, "keys", asked)),
    Command("kit.model.add", ModelAdd, _add_model),
    Command("kit.model.change", ModelChange, _change_model),
    Command("kit.model.remove", ModelRemove, _remove_model),
    Command("kit.stand-ins", StandIns, _stand_ins),
)

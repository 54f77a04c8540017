"""A clue's way made over to another kind: what it keeps, and what the new kind wants instead."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import Any

from pydantic import ValidationError

from boxwright.choose.chance import Chance
from boxwright.choose.needs import files_for, options_for
from boxwright.choose.offers import Offer
from boxwright.content.tables import Content
from boxwright.frozen import frozen_value
from boxwright.game.folder import Folder
from boxwright.game.model import Level
from boxwright.game.union_faults import frozen
from boxwright.puzzles.contract import Given, Kind

Files = str | Mapping[str, str] | None


@frozen_value
class MadeOver:
    """What a way says of its content and options once it is of another kind."""

    content: Files = None
    options: Mapping[str, Any] = field(default_factory=dict)


def made_over(
    folder: Folder,
    offer: Offer,
    like: MadeOver,
    contents: Mapping[str, Content],
    level: Level,
    chance: Chance,
) -> MadeOver:
    """Return what a way of another kind becomes as one of the kind that is offered.

    Options that both kinds have stay, as far as the new one takes their values. A table that
    serves stays, else the first that does is taken; one that nothing draws on goes.

    Args:
        folder: the game.
        offer: the kind, with an answer that it is to lead to.
        like: what the way says until now.
        contents: the game's tables by their files, as sheets draw on them.
        level: how hard the sheet is to be.
        chance: the dice, for a choice that the kind wants made.
    """
    content = _content(offer.kind, like.content, contents)
    options = _kept(offer.kind, like.options)
    if offer.answer is None:
        return MadeOver(content, options)
    head = folder.game.game
    given = Given(
        head.ages,
        head.language,
        level,
        contents[content] if isinstance(content, str) else Content(),
        folder.room,
        pictures={name: one.size() for name, one in folder.pictures.items()},
    )
    found = options_for(offer.name, offer.kind, offer.answer, given, chance.dice, options)
    return MadeOver(content, found[0])


def _content(kind: Kind, now: Files, contents: Mapping[str, Content]) -> str | None:
    named = (now,) if isinstance(now, str) else tuple((now or {}).values())
    serving = files_for(kind.FACTS, contents)
    return next((one for one in (*named, *serving) if one in serving), None)


def _kept(kind: Kind, options: Mapping[str, Any]) -> dict[str, Any]:
    """Return the options that the kind has too, with values that it takes."""
    known = {name: one for name, one in options.items() if _takes(kind, {name: one})}
    return known if _takes(kind, known) else {}


def _takes(kind: Kind, options: Mapping[str, Any]) -> bool:
    try:
        kind.Options.model_validate(frozen(options))
    except ValidationError:
        return False
    return True

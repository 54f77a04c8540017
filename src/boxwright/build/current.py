"""The current editions of a game folder: are they there, and are they still made of it?"""

from __future__ import annotations

import os.path
import secrets
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Literal

from boxwright.build import Asked, Built, judged, read
from boxwright.choose import store
from boxwright.choose.chance import Chance
from boxwright.choose.edition import Edition, no_sheet
from boxwright.game.choosing import Wishes
from boxwright.paper.frame import TEACHERS_SIZE, Look, size_for
from boxwright.problems import Where, refuse

SEEDS = 1_000_000


@dataclass(frozen=True, slots=True)
class Stale:
    """There are no current editions, or not of the game as it is: what to build, as last wished."""

    asked: Asked
    why: Literal["none", "gone", "changed"]


def kept(game: Path, kit: Path | None = None, room: Path | None = None) -> Built | Stale:
    """Return the current editions, checked, or why they are not to be taken.

    Args:
        game: a game folder.
        kit: a kit file instead of the one that they were made for; likewise `room`.
        room: a room file instead of theirs.
    """
    current = store.current(game)
    if current is None:
        return Stale(Asked(game, Wishes(), new_chance(), kit, room), "none")
    kit = kit or remembered(game, current.kit)
    room = room or remembered(game, current.room)
    if not all(file.is_file() for file in current.files(game)):
        return Stale(Asked(game, current.wishes, new_chance(), kit, room), "gone")
    editions = current_editions(game)
    folder = read(game, kit, room)
    if store.made_of(folder) != current.made_of:
        return Stale(Asked(game, current.wishes, chance_of(editions), kit, room), "changed")
    return judged(folder, editions, None)


def current_editions(game: Path) -> tuple[Edition, ...]:
    """Return the current editions of a game folder; none where none were made, or they are gone."""
    current = store.current(game)
    files = () if current is None else current.files(game)
    return tuple(store.load(file) for file in files if file.is_file())


def new_chance() -> Chance:
    """Return a seed that nobody chose."""
    return Chance(secrets.randbelow(SEEDS))


def chance_of(current: tuple[Edition, ...]) -> Chance:
    """Return the seed of editions, with all the throws of their sheets."""
    throws = {id: one.throw for edition in current for id, one in edition.sheets.items()}
    return Chance(current[0].seed, throws={id: throw for id, throw in throws.items() if throw})


def thrown_again(asked: Asked, clues: tuple[str, ...]) -> Asked:
    """Return `asked` as the current editions were made, but with new sheets for `clues`."""
    current, editions = store.current(asked.game), current_editions(asked.game)
    known = tuple(dict.fromkeys(id for edition in editions for id in edition.sheets))
    for clue in clues:
        if clue not in known:
            refuse(no_sheet(clue, known, Where("--again")))
    assert current is not None, "there are sheets, so there are current editions"
    throws = dict(asked.chance.throws)
    throws |= {clue: throws.get(clue, 0) + 1 for clue in clues}
    return replace(
        asked,
        wishes=current.wishes,
        chance=replace(asked.chance, throws=throws),
        kit=asked.kit or remembered(asked.game, current.kit),
        room=asked.room or remembered(asked.game, current.room),
    )


def remembered(game: Path, path: str | None) -> Path | None:
    """Return the file that editions were made with, from their game folder."""
    return None if path is None else Path(os.path.normpath(game / path))


def keep(built: Built, asked: Asked) -> tuple[Path, ...]:
    """Save what was built as the game's current editions, and return their files."""
    named = {"kit": asked.kit, "room": asked.room}
    return store.save(built.folder, built.editions, asked.wishes, named)


def looks_for(built: Built, paper: Any, size: int | None) -> tuple[Look, Look]:
    """Return how the print-outs of what was built are to look: the pupils', the teacher's."""
    game = built.edition.game
    look = Look(paper, size or size_for(game.ages), game.language)  # type: ignore[arg-type]
    return look, look if size else replace(look, size=TEACHERS_SIZE)

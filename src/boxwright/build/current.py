"""The current editions of a game folder: are they there, and are they still made of it?"""

from __future__ import annotations

import os.path
import secrets
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any, Literal

from boxwright.build import Asked, Built, judged, read
from boxwright.build.judgement import keep_judgement
from boxwright.choose import store
from boxwright.choose.chance import Chance
from boxwright.choose.edition import Edition, no_sheet
from boxwright.frozen import frozen_value
from boxwright.game.choosing import Wishes
from boxwright.game.folder import Folder
from boxwright.paper.frame import TEACHERS_SIZE, Look, size_for
from boxwright.problems import Refused, Where, refuse

SEEDS = 1_000_000


@frozen_value
class Stale:
    """There are no current editions, or not of the game as it is: what to build, as last wished.

    `changed` names the files that are not as they were; nothing where that was not kept.
    """

    asked: Asked
    why: Literal["none", "gone", "changed"]
    changed: tuple[str, ...] = ()


@frozen_value
class Standing:
    """The current editions of a game folder as it is: what they were asked with, and them.

    `made_of` is the digest of all that they were made of.
    """

    asked: Asked
    folder: Folder
    editions: tuple[Edition, ...]
    made_of: str

    @property
    def edition(self) -> Edition:
        """The first group's edition."""
        return self.editions[0]


def kept(game: Path, kit: Path | None = None, room: Path | None = None) -> Built | Stale:
    """Return the current editions, checked, or why they are not to be taken.

    Takes what `standing` does.
    """
    found = standing(game, kit, room)
    return found if isinstance(found, Stale) else judged(found.folder, found.editions)


def standing(game: Path, kit: Path | None = None, room: Path | None = None) -> Standing | Stale:
    """Return the current editions, or why they are not to be taken.

    Args:
        game: a game folder.
        kit: a kit file instead of the one that they were made for; likewise `room`.
        room: a room file instead of theirs.
    """
    current = store.current(game)
    asked, editions = _last(game, current, kit, room)
    if current is None or not editions:
        return Stale(asked, "none" if current is None else "gone")
    folder = read(game, asked.kit, asked.room)
    if store.made_of(folder) != current.made_of:
        return Stale(asked, "changed", _changed(current.parts, store.parts_of(folder)))
    return Standing(asked, folder, editions, current.made_of)


def last_asked(game: Path, *, new: bool = False) -> Asked:
    """Return what to build to have the current editions again, of the game as it is.

    `new` draws all codes anew; then nothing of the current ones need be readable.
    """
    try:
        asked, _ = _last(game, store.current(game), None, None)
    except Refused:
        if not new:
            raise
        asked = Asked(game)
    return replace(asked, chance=new_chance()) if new else asked


def _last(
    game: Path, current: store.Current | None, kit: Path | None, room: Path | None
) -> tuple[Asked, tuple[Edition, ...]]:
    """Return what the current editions were asked with, and them; none unless all are there."""
    if current is None:
        return Asked(game, Wishes(), store.chance_to_come(game) or new_chance(), kit, room), ()
    kit = kit or remembered(game, current.kit)
    room = room or remembered(game, current.room)
    there = all(file.is_file() for file in current.files(game))
    editions = current_editions(game) if there else ()
    chance = chance_of(editions) if editions else new_chance()
    return Asked(game, current.wishes, chance, kit, room), editions


def _changed(before: Mapping[str, str], now: Mapping[str, str]) -> tuple[str, ...]:
    names = sorted({**before, **now}) if before else ()
    return tuple(name for name in names if before.get(name) != now.get(name))


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
    current = store.save(built.folder, built.editions, asked.wishes, named)
    keep_judgement(built, current.made_of)
    return current.files(built.folder.path)


def looks_for(built: Built | Standing, paper: Any, size: int | None) -> tuple[Look, Look]:
    """Return how the print-outs of what was built are to look: the pupils', the teacher's."""
    game = built.editions[0].game
    look = Look(paper, size or size_for(game.ages), game.language)  # type: ignore[arg-type]
    return look, look if size else replace(look, size=TEACHERS_SIZE)

"""Which edition a command works on: a file, a folder's current one, or a new one."""

from __future__ import annotations

import secrets
from dataclasses import replace
from pathlib import Path
from typing import Any

from boxwright.build import Asked, Built, build, reopen
from boxwright.choose import store
from boxwright.choose.chance import Chance
from boxwright.choose.edition import Edition
from boxwright.cli.options import size_for
from boxwright.cli.report import tell
from boxwright.game.choosing import Wishes
from boxwright.paper.frame import Look
from boxwright.problems import Problem, Where, refuse, say

SEEDS = 1_000_000
SUFFIX = ".json"


def current_editions(game: Path) -> tuple[Edition, ...]:
    """Return the current editions of a game folder; none where none were made, or they are gone."""
    current = store.current(game)
    files = () if current is None else current.files(game)
    return tuple(store.load(file) for file in files if file.is_file())


def chance_for(game: Path, seed: int | None, *, new: bool) -> Chance:
    """Return the seed given or a new one, else the current editions' with all their throws."""
    current = () if new else current_editions(game)
    if seed is not None or not current:
        return Chance(secrets.randbelow(SEEDS) if seed is None else seed)
    throws = {id: one.throw for edition in current for id, one in edition.sheets.items()}
    return Chance(current[0].seed, throws={id: throw for id, throw in throws.items() if throw})


def thrown_again(asked: Asked, clues: tuple[str, ...]) -> Asked:
    """Return `asked` as the current editions were made, but with new sheets for `clues`."""
    current, editions = store.current(asked.game), current_editions(asked.game)
    known = tuple(dict.fromkeys(id for edition in editions for id in edition.sheets))
    for clue in clues:
        if clue not in known:
            where = Where("--again")
            refuse(Problem.of("edition.no-sheet", where, clue=clue, choices=known))
    assert current is not None, "there are sheets, so there are current editions"
    throws = dict(asked.chance.throws)
    throws |= {clue: throws.get(clue, 0) + 1 for clue in clues}
    return replace(
        asked,
        wishes=current.wishes,
        chance=replace(asked.chance, throws=throws),
        kit=asked.kit or _remembered(asked.game, current.kit),
        room=asked.room or _remembered(asked.game, current.room),
    )


def opened(game: Path, kit: Path | None, room: Path | None) -> Built:
    """Return what a command works on, checked: an edition's file, or a folder's current ones.

    A folder without editions gets its first. Says on stderr what was built, and whether
    anything has changed since.
    """
    if game.suffix == SUFFIX and game.is_file():
        return reopen([game], kit, room)
    if not game.exists():
        refuse(Problem.of("edition.no-game", Where(str(game)), game=str(game)))
    current = store.current(game)
    if current is None or not all(file.is_file() for file in current.files(game)):
        return _first(game, kit, room)
    kit = kit or _remembered(game, current.kit)
    room = room or _remembered(game, current.room)
    built = reopen(current.files(game), kit, room)
    if store.made_of(built.folder) != current.made_of:
        tell(say("edition.stale", game=str(game)))
    return built


def _first(game: Path, kit: Path | None, room: Path | None) -> Built:
    built = build(Asked(game, chance=chance_for(game, None, new=True), kit=kit, room=room))
    files = store.save(built.folder, built.editions, Wishes(), {"kit": kit, "room": room})
    tell(say("edition.built", files=tuple(map(str, files))))
    return built


def _remembered(game: Path, path: str | None) -> Path | None:
    return None if path is None else game / path


def look_for(built: Built, paper: Any, size: str | None) -> Look:
    """Return how the print-outs of what was built are to look."""
    game = built.edition.game
    return Look(paper, size_for(size, game.ages), game.language)


def about_json(built: Built) -> dict[str, Any]:
    """Return what every command says of the editions that it worked on."""
    counts = dict.fromkeys(("stop", "fix", "note"), 0)
    for finding in built.findings:
        counts[finding.severity] += 1
    return {
        "of": {
            "game": built.edition.game.id,
            "editions": [edition.id for edition in built.editions],
            "seed": built.edition.seed,
        },
        "counts": counts,
    }

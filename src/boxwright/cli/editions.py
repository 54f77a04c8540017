"""Which edition a command works on: a file, a folder's current one, or a new one."""

from __future__ import annotations

import secrets
from pathlib import Path
from typing import Any

from boxwright.build import Asked, Built, build, judged, reopen
from boxwright.choose import store
from boxwright.choose.making import Chance
from boxwright.cli.options import size_for
from boxwright.cli.report import tell
from boxwright.paper.frame import Look
from boxwright.problems import Problem, Where, refuse, say

SEEDS = 1_000_000
SUFFIX = ".json"


def seed_for(game: Path, seed: int | None, *, new: bool) -> int:
    """Return the seed to build from: the one given, a new one, or the current edition's."""
    if seed is not None:
        return seed
    current = None if new else store.current(game)
    file = None if current is None else game / store.EDITIONS / f"{current.edition}{SUFFIX}"
    if file is None or not file.is_file():
        return secrets.randbelow(SEEDS)
    return store.load(file).seed


def opened(
    game: Path, kit: Path | None, room: Path | None, printing: tuple[str, str | None] | None
) -> Built:
    """Return the edition that a command works on, checked, and printed if `printing` says how.

    `game` is an edition's file, or a game folder: then its current edition, which is built
    first where there is none. Says on stderr what was built, and what changed since.
    """
    if game.suffix == SUFFIX and game.is_file():
        return _looked(reopen(game, kit, room), printing)
    if not game.exists():
        refuse(Problem.of("edition.no-game", Where(str(game)), game=str(game)))
    current = store.current(game)
    if current is None:
        built = build(Asked(game, chance=Chance(secrets.randbelow(SEEDS)), kit=kit, room=room))
        file = store.save(built.folder, built.edition, {"kit": kit, "room": room})
        tell(say("edition.built", file=str(file)))
        return _looked(built, printing)
    kit = kit or _remembered(game, current.kit)
    room = room or _remembered(game, current.room)
    built = reopen(game / store.EDITIONS / f"{current.edition}{SUFFIX}", kit, room)
    if store.made_of(built.folder) != current.made_of:
        tell(say("edition.stale", game=str(game)))
    return _looked(built, printing)


def _remembered(game: Path, path: str | None) -> Path | None:
    return None if path is None else game / path


def _looked(built: Built, printing: tuple[str, str | None] | None) -> Built:
    if printing is None:
        return built
    paper, size = printing
    game = built.edition.game
    look = Look(paper, size_for(size, game.ages), game.language)  # type: ignore[arg-type]
    return judged(built.folder, built.edition, look)


def about_json(built: Built) -> dict[str, Any]:
    """Return what every command says of the edition that it worked on."""
    edition = built.edition
    counts = dict.fromkeys(("stop", "fix", "note"), 0)
    for finding in built.findings:
        counts[finding.severity] += 1
    return {
        "of": {
            "game": edition.game.id,
            "editions": [edition.id],
            "seed": edition.seed,
        },
        "counts": counts,
    }

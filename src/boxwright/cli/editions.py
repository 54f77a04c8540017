"""Which edition a command works on: a file, a folder's current one, or a new one."""

from __future__ import annotations

import os.path
import secrets
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from boxwright.build import Asked, Built, build, judged, read, reopen
from boxwright.choose import store
from boxwright.choose.chance import Chance
from boxwright.choose.edition import Edition, no_sheet
from boxwright.cli.options import size_for
from boxwright.cli.report import tell
from boxwright.cli.which_game import edition_file, refuse_unless_game
from boxwright.game.choosing import Wishes
from boxwright.messages import typed
from boxwright.paper.frame import TEACHERS_SIZE, Look
from boxwright.problems import Problem, Refused, Where, refuse, say

SEEDS = 1_000_000


def current_editions(game: Path) -> tuple[Edition, ...]:
    """Return the current editions of a game folder; none where none were made, or they are gone."""
    current = store.current(game)
    files = () if current is None else current.files(game)
    return tuple(store.load(file) for file in files if file.is_file())


def chance_for(game: Path, seed: int | None) -> Chance:
    """Return the seed given, else the current editions' with all their throws, else a new one.

    Where the current ones cannot be read, it says so, and that the seed is new.
    """
    if seed is not None:
        return Chance(seed)
    try:
        current = current_editions(game)
    except Refused as refused:
        tell(say("edition.lost", why=refused.problems[0].what))
        current = ()
    return _chance_of(current) if current else new_chance()


def new_chance() -> Chance:
    """Return a seed that nobody chose."""
    return Chance(secrets.randbelow(SEEDS))


def _chance_of(current: tuple[Edition, ...]) -> Chance:
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
        kit=asked.kit or _remembered(asked.game, current.kit),
        room=asked.room or _remembered(asked.game, current.room),
    )


@dataclass(frozen=True, slots=True)
class _Stale:
    """Current editions that are not made of the game, kit, room and content as they are."""

    asked: Asked

    @property
    def command(self) -> str:
        """What to type to have them made anew, as they were wished."""
        wishes = self.asked.wishes
        named = {
            "--arrangement": wishes.arrangement,
            "--level": wishes.level,
            "--groups": wishes.groups,
            "--kit": self.asked.kit,
            "--room": self.asked.room,
        }
        words = [word for name, value in named.items() if value for word in (name, value)]
        for clue, version in wishes.versions.items():
            words += ["--clue", f"{clue}={version}"]
        return typed("build", self.asked.game, *words)


def to_check(game: Path, kit: Path | None, room: Path | None) -> tuple[Built, bool]:
    """Return what is to be checked, and whether it is a printed set as it was kept.

    Where a folder has changed since its current printed set was made, the one that would be
    made now is judged, and it says so on stderr; nothing is written.
    """
    found = _opened(game, kit, room)
    if isinstance(found, Built):
        return found, True
    tell(say("edition.judged-anew", command=found.command))
    return build(found.asked), False


def to_print(game: Path, kit: Path | None, room: Path | None) -> Built:
    """Return what is to be printed; Refused where the folder has changed since it was made."""
    found = _opened(game, kit, room)
    if not isinstance(found, Built):
        refuse(Problem.of("edition.stale", Where(str(game)), command=found.command))
    return found


def _opened(game: Path, kit: Path | None, room: Path | None) -> Built | _Stale:
    """Return an edition's file or a folder's current editions, checked.

    A folder without editions gets its first, and it says so on stderr.
    """
    if game.is_file():
        return reopen([edition_file(game)], kit, room)
    refuse_unless_game(game)
    current = store.current(game)
    if current is None:
        return _made(Asked(game, Wishes(), new_chance(), kit, room), "edition.built")
    kit = kit or _remembered(game, current.kit)
    room = room or _remembered(game, current.room)
    if not all(file.is_file() for file in current.files(game)):
        return _made(Asked(game, current.wishes, new_chance(), kit, room), "edition.gone")
    editions = current_editions(game)
    folder = read(game, kit, room)
    if store.made_of(folder) != current.made_of:
        return _Stale(Asked(game, current.wishes, _chance_of(editions), kit, room))
    return judged(folder, editions, None)


def _made(asked: Asked, message: str) -> Built:
    built = build(asked)
    named = {"kit": asked.kit, "room": asked.room}
    files = store.save(built.folder, built.editions, asked.wishes, named)
    tell(say(message, files=tuple(map(str, files))))
    return built


def tell_findings(built: Built, game: Path) -> None:
    """Say on stderr how many things the checks found, and whether any stops the game."""
    stops = sum(finding.severity == "stop" for finding in built.findings)
    command = typed("check", game)
    if stops:
        tell(say("build.stops", n=stops, command=command))
    elif built.findings:
        tell(say("build.findings", n=len(built.findings), command=command))


def _remembered(game: Path, path: str | None) -> Path | None:
    return None if path is None else Path(os.path.normpath(game / path))


def looks_for(built: Built, paper: Any, size: str | None) -> tuple[Look, Look]:
    """Return how the print-outs of what was built are to look: the pupils', the teacher's."""
    game = built.edition.game
    look = Look(paper, size_for(size, game.ages), game.language)
    return look, look if size else replace(look, size=TEACHERS_SIZE)


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

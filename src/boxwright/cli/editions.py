"""Which edition a command works on: a file, a folder's current one, or a new one."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from boxwright.build import Built, build, judged, reopen
from boxwright.build.current import (
    Stale,
    Standing,
    chance_of,
    current_editions,
    keep,
    new_chance,
    standing,
)
from boxwright.choose.chance import Chance
from boxwright.choose.store import chance_to_come
from boxwright.cli.report import tell
from boxwright.cli.which_game import edition_file, refuse_unless_game
from boxwright.game.dismissed import parted
from boxwright.messages import typed
from boxwright.problems import Problem, Refused, Weighed, Where, refuse, say
from boxwright.second_process import ALONE, SecondProcess

BUILT = {"none": "edition.built", "gone": "edition.gone"}


def chance_for(game: Path, seed: int | None) -> Chance:
    """Return the seed given, else the current editions' with all their throws, else a new one.

    The first printed set takes what was kept for it.

    Where the current ones cannot be read, it says so, and that the seed is new.
    """
    if seed is not None:
        return Chance(seed)
    try:
        current = current_editions(game)
    except Refused as refused:
        tell(say("edition.lost", why=refused.problems[0].what))
        current = ()
    return chance_of(current) if current else chance_to_come(game) or new_chance()


def _command(stale: Stale) -> str:
    """Return what to type to have editions made anew, as they were wished."""
    asked, wishes = stale.asked, stale.asked.wishes
    named = {
        "--arrangement": wishes.arrangement,
        "--level": wishes.level,
        "--groups": wishes.groups,
        "--kit": asked.kit,
        "--room": asked.room,
    }
    words = [word for name, value in named.items() if value for word in (name, value)]
    for name, by_id in (("--level-of", wishes.levels), ("--clue", wishes.versions)):
        for id, wish in by_id.items():
            words += [name, f"{id}={wish}"]
    return typed("build", asked.game, *words)


def to_check(
    game: Path, kit: Path | None, room: Path | None, second: SecondProcess = ALONE
) -> tuple[Built, bool]:
    """Return what is to be checked, and whether it is a printed set as it was kept.

    Where a folder has changed since its current printed set was made, the one that would be
    made now is judged, and it says so on stderr; nothing is written.
    """
    found = _opened(game, kit, room, second)
    if isinstance(found, Standing):
        return judged(found.folder, found.editions, second), True
    if isinstance(found, Built):
        return found, True
    tell(say("edition.judged-anew", command=_command(found)))
    return build(found.asked, second), False


def to_print(
    game: Path, kit: Path | None, room: Path | None, second: SecondProcess = ALONE
) -> Built | Standing:
    """Return what is to be printed; Refused where the folder has changed since it was made."""
    found = _opened(game, kit, room, second)
    if isinstance(found, Stale):
        refuse(Problem.of("edition.stale", Where(str(game)), command=_command(found)))
    return found


def _opened(
    game: Path, kit: Path | None, room: Path | None, second: SecondProcess
) -> Built | Standing | Stale:
    """Return an edition's file, checked, or a folder's current editions.

    A folder without editions gets its first, checked, and it says so on stderr.
    """
    if game.is_file():
        return reopen([edition_file(game)], kit, room, second)
    refuse_unless_game(game)
    found = standing(game, kit, room)
    if isinstance(found, Standing) or found.why == "changed":
        return found
    built = build(found.asked, second)
    tell(say(BUILT[found.why], files=tuple(map(str, keep(built, found.asked)))))
    return built


def tell_findings(built: Built | Standing, findings: Sequence[Weighed], game: Path) -> None:
    """Say on stderr how many things `check` would show, and whether any stops the game."""
    told, _ = parted(built.folder.path, findings)
    stops = sum(finding.severity == "stop" for finding in told)
    command = typed("check", game)
    if stops:
        tell(say("build.stops", n=stops, command=command))
    elif told:
        tell(say("build.findings", n=len(told), command=command))


def about_json(built: Built | Standing, findings: Sequence[Weighed]) -> dict[str, Any]:
    """Return what every command says of the editions that it worked on.

    What was dismissed is not counted.
    """
    counts = dict.fromkeys(("stop", "fix", "note"), 0)
    for finding in parted(built.folder.path, findings)[0]:
        counts[finding.severity] += 1
    return {
        "of": {
            "game": built.edition.game.id,
            "editions": [edition.id for edition in built.editions],
            "seed": built.edition.seed,
        },
        "counts": counts,
    }

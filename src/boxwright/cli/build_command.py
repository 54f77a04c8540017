"""`boxwright build GAME`: draw the codes, make the sheets, keep them as the current edition."""

from __future__ import annotations

from pathlib import Path

import click

from boxwright.cli.options import LEVELS, clue_versions, json_option, option, shelf_options
from boxwright.cli.report import envelope, tell
from boxwright.messages import words
from boxwright.problems import say


@click.command("build", help=words(say("build.help")))
@click.argument("game", type=click.Path(path_type=Path))
@option("--arrangement")
@option("--level", type=click.Choice(LEVELS))
@option("--clue", "clues", multiple=True, metavar="CLUE=VERSION")
@option("--groups", type=click.IntRange(1, 99))
@option("--seed", type=click.IntRange(0, 2**63 - 1))
@option("--new", is_flag=True)
@shelf_options()
@json_option()
def command(
    *,
    game: Path,
    arrangement: str | None,
    level: str | None,
    clues: tuple[str, ...],
    groups: int | None,
    seed: int | None,
    new: bool,
    kit: Path | None,
    room: Path | None,
    as_json: bool,
) -> int:
    """Build and save an edition; 1 where a check stops it."""
    from boxwright.build import Asked, build
    from boxwright.choose import store
    from boxwright.choose.making import Chance
    from boxwright.cli.editions import about_json, seed_for
    from boxwright.game.arrange import Wishes

    wishes = Wishes(
        arrangement=arrangement,
        level=level,  # type: ignore[arg-type]  # Click has checked it
        versions=clue_versions(clues),
        groups=groups,
    )
    chance = Chance(seed_for(game, seed, new=new))
    built = build(Asked(game, wishes, chance, kit, room))
    file = store.save(built.folder, built.edition, {"kit": kit, "room": room})
    if as_json:
        click.echo(envelope("build", not built.stops, about_json(built) | {"file": str(file)}))
    else:
        n = len(built.edition.sheets)
        tell(say("build.done", n=n, file=str(file), seed=built.edition.seed))
        if built.findings:
            tell(say("build.findings", n=len(built.findings)))
    return int(built.stops)

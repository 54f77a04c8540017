"""`boxwright build GAME`: draw the codes, make the sheets, keep them as the current edition."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from boxwright.cli.options import (
    LEVELS,
    OneOf,
    clue_versions,
    group_levels,
    json_option,
    option,
    shelf_options,
)
from boxwright.cli.report import envelope, tell
from boxwright.messages import words
from boxwright.problems import say
from boxwright.ready import to_forecast
from boxwright.second_process import SecondProcess


@click.command("build", help=words(say("build.help")))
@click.argument("game", type=click.Path(path_type=Path))
@option("--arrangement")
@option("--level", type=OneOf(LEVELS))
@option("--level-of", "levels", multiple=True, metavar="GROUP=LEVEL")
@option("--clue", "clues", multiple=True, metavar="CLUE=VERSION")
@option("--groups", type=click.IntRange(1, 99))
@option("--seed", type=click.IntRange(0, 2**63 - 1))
@option("--new", is_flag=True)
@option("--again", multiple=True, metavar="CLUE")
@shelf_options()
@json_option()
def command(
    *,
    game: Path,
    arrangement: str | None,
    level: Any,
    levels: tuple[str, ...],
    clues: tuple[str, ...],
    groups: int | None,
    seed: int | None,
    new: bool,
    again: tuple[str, ...],
    kit: Path | None,
    room: Path | None,
    as_json: bool,
) -> int:
    """Build and save the editions of one play; 1 where a check stops it."""
    # Before all else: it starts up while the game is read.
    with SecondProcess(to_forecast) as second:
        from boxwright.build import Asked, build
        from boxwright.build.current import current_editions, keep, new_chance, thrown_again
        from boxwright.cli.editions import about_json, chance_for, tell_findings
        from boxwright.cli.which_game import refuse_unless_game
        from boxwright.game.choosing import Wishes

        wishes = Wishes(
            arrangement=arrangement,
            level=level,
            levels=group_levels(levels),
            versions=clue_versions(clues),
            groups=groups,
        )
        refuse_unless_game(game)
        if again:
            current_editions(game)  # what cannot be read cannot be thrown again
        chance = new_chance() if new and seed is None else chance_for(game, seed)
        asked = Asked(game, wishes, chance, kit, room)
        if again:
            asked = thrown_again(asked, again)
        built = build(asked, second)
    files = keep(built, asked)
    if as_json:
        body = about_json(built, built.findings) | {"files": [str(file) for file in files]}
        click.echo(envelope("build", not built.stops, body))
        return int(built.stops)
    n = sum(len(edition.sheets) for edition in built.editions)
    tell(say("build.done", n=n, files=tuple(map(str, files)), seed=built.edition.seed))
    tell_findings(built, built.findings, game)
    return int(built.stops)

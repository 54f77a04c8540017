"""`boxwright forecast GAME`: will they finish, when, and what holds them up?"""

from __future__ import annotations

from pathlib import Path

import click

from boxwright.cli.options import json_option, option, shelf_options
from boxwright.forecast.parameters import TARGET
from boxwright.messages import words
from boxwright.problems import say

MOST_PUPILS = 30
MOST_GROUPS = 60
SHARE = click.FloatRange(0, 1)
TRIALS = click.IntRange(100, 1_000_000)


@click.command("forecast", help=words(say("forecast.help")))
@click.argument("game", type=click.Path(path_type=Path))
@option("--pupils", about="forecast.option-pupils", type=click.IntRange(1, MOST_PUPILS))
@option("--groups", about="forecast.option-groups", type=click.IntRange(1, MOST_GROUPS))
@option("--trials", about="forecast.option-trials", type=TRIALS, default=10_000, show_default=True)
@option("--target", about="forecast.option-target", type=SHARE, default=TARGET, show_default=True)
@option("--changes", about="forecast.option-changes", is_flag=True)
@shelf_options()
@json_option()
def command(
    *,
    game: Path,
    pupils: int | None,
    groups: int | None,
    trials: int,
    target: float,
    changes: bool,
    kit: Path | None,
    room: Path | None,
    as_json: bool,
) -> None:
    """Forecast the game of each edition of the current printed set."""
    from boxwright.build.forecasting import Play, foresee
    from boxwright.cli.editions import about_json, to_check
    from boxwright.cli.forecast_report import body, show
    from boxwright.cli.report import envelope

    built, _ = to_check(game, kit, room)
    found = foresee(built, Play(pupils, groups, trials, changes, target))
    if as_json:
        click.echo(envelope("forecast", True, about_json(built) | body(found)))
    else:
        show(found, target)

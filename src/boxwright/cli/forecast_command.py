"""`boxwright forecast GAME`: will they finish, when, and what holds them up?"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from boxwright.cli.options import json_option, ledger_option, option, shelf_options
from boxwright.forecast.parameters import TARGET
from boxwright.messages import words
from boxwright.problems import Problem, Where, refuse, say

if TYPE_CHECKING:
    from boxwright.build import Built
    from boxwright.build.forecasting import Foreseen

MOST_PUPILS = 30
MOST_GROUPS = 60
SHARE = click.FloatRange(0, 1)
FORMS = (".pdf", ".svg")
TRIALS = click.IntRange(100, 1_000_000)


@click.command("forecast", help=words(say("forecast.help")))
@click.argument("game", type=click.Path(path_type=Path))
@option("--pupils", about="forecast.option-pupils", type=click.IntRange(1, MOST_PUPILS))
@option("--groups", about="forecast.option-groups", type=click.IntRange(1, MOST_GROUPS))
@option("--trials", about="forecast.option-trials", type=TRIALS, default=10_000, show_default=True)
@option("--target", about="forecast.option-target", type=SHARE, default=TARGET, show_default=True)
@option("--changes", about="forecast.option-changes", is_flag=True)
@option("--out", about="forecast.option-out", type=click.Path(path_type=Path))
@option("--learn", about="learn.option-learn", type=click.Path(path_type=Path))
@ledger_option()
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
    out: Path | None,
    learn: Path | None,
    ledger: str | None,
    kit: Path | None,
    room: Path | None,
    as_json: bool,
) -> None:
    """Forecast the game of each edition of the current printed set."""
    from boxwright.build.forecasting import Play, foresee
    from boxwright.cli.editions import about_json, to_check
    from boxwright.cli.forecast_lessons import learnt_for
    from boxwright.cli.forecast_report import body, show
    from boxwright.cli.report import envelope

    if out is not None:
        _refuse_other_files(out)
    built, _ = to_check(game, kit, room)
    learnt = learnt_for(built, learn, ledger)
    play = Play(pupils, groups, trials, changes or out is not None, target)
    found = foresee(built, play, learnt.seen)
    if out is not None:
        _draw(out, found, built, target)
    if as_json:
        about = about_json(built, built.findings)
        click.echo(envelope("forecast", True, about | body(built, found, learnt)))
    else:
        show(found, target, learnt)


def _refuse_other_files(out: Path) -> None:
    if out.suffix.lower() not in FORMS:
        refuse(Problem.of("make.form", Where("--out"), found=str(out), choices=FORMS))


def _draw(out: Path, found: Sequence[Foreseen], built: Built, target: float) -> None:
    """Write the plan into a file of the form that its name asks for, a picture a game."""
    from boxwright.build.plan_paper import plan_pdf, plan_svgs
    from boxwright.cli.report import tell
    from boxwright.paper.writing import write_numbered

    game = built.edition.game
    if out.suffix.lower() == ".pdf":
        made = [plan_pdf(found, game.title, target, game.language)]
    else:
        made = plan_svgs(found, game.title, target, game.language)
    for file in write_numbered(out, made):
        tell(say("make.written", file=str(file)))

"""`boxwright session GAME`: the hour of one game in a browser, ready to be started."""

from __future__ import annotations

from pathlib import Path
from urllib.parse import quote

import click

from boxwright.cli.options import ledger_option, option
from boxwright.cli.studio_command import serve
from boxwright.cli.which_game import refuse_unless_game
from boxwright.messages import words
from boxwright.problems import say


@click.command("session", help=words(say("live.help")))
@click.argument("game", type=click.Path(path_type=Path))
@option("--port", about="studio.option-port", type=click.IntRange(1, 65535))
@ledger_option()
@option("--no-browser", about="studio.option-no-browser", is_flag=True)
def command(*, game: Path, port: int | None, ledger: str | None, no_browser: bool) -> None:
    """Serve the studio, and begin with the game's hour."""
    refuse_unless_game(game)
    whole = game.resolve()
    path = f"/games/{quote(whole.name, safe='')}/hour"
    serve(whole.parent, path, port, ledger, browser=not no_browser)

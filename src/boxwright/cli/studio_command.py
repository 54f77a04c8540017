"""`boxwright studio [GAME]`: the whole job in a browser, on this machine alone."""

from __future__ import annotations

import gc
import os
import socket
import threading
import webbrowser
from pathlib import Path
from urllib.parse import quote

import click

from boxwright.cli.options import ledger_option, option
from boxwright.cli.report import tell
from boxwright.messages import words
from boxwright.problems import Problem, Where, refuse, say

HOST = "127.0.0.1"
PORT = 8737
MORE_PORTS = 20  # tried one after the other where the first is taken
OWN_FOLDER = "Boxwright"


@click.command("studio", help=words(say("studio.help")))
@click.argument("game", type=click.Path(path_type=Path), required=False)
@option("--port", about="studio.option-port", type=click.IntRange(1, 65535))
@ledger_option()
@option("--no-browser", about="studio.option-no-browser", is_flag=True)
def command(*, game: Path | None, port: int | None, ledger: str | None, no_browser: bool) -> None:
    """Serve the studio until it is closed."""
    games, path = opened(game)
    serve(games, path, port, ledger, browser=not no_browser)


def serve(games: Path, path: str, port: int | None, ledger: str | None, *, browser: bool) -> None:
    """Serve the studio over a folder of games until it is closed; `path` is its first page."""
    import uvicorn

    from boxwright.web.app import make_app
    from boxwright.web.studio import Studio

    listener = listening(port)
    address = f"http://{HOST}:{listener.getsockname()[1]}{path}"
    config = uvicorn.Config(
        make_app(Studio(games, ledger)),
        log_level="warning",
        access_log=False,
        ws="websockets-sansio",
        ws_per_message_deflate=False,  # nothing is saved on the way within one machine
        timeout_graceful_shutdown=2,
    )
    tell(say("studio.open", address=address))
    gc.enable()  # a command lives shortly and goes without; this one goes on for days
    if browser:
        threading.Timer(0.3, webbrowser.open, (address,)).start()
    uvicorn.Server(config).run(sockets=[listener])


def opened(game: Path | None) -> tuple[Path, str]:
    """Return the folder of games, and the address of the page to begin with."""
    from boxwright.game.draft import GAME

    if game is None:
        import platformdirs

        games = platformdirs.user_documents_path() / OWN_FOLDER
        games.mkdir(parents=True, exist_ok=True)
        return games, "/"
    if (game / GAME).is_file():
        whole = game.resolve()
        return whole.parent, f"/games/{quote(whole.name, safe='')}/boxes"
    if game.is_dir() and not any(game.iterdir()):
        return game.resolve(), "/"  # for games to come
    if not game.is_dir() or not any(game.glob(f"*/{GAME}")):
        refuse(Problem.of("studio.no-folder", Where(str(game)), folder=str(game)))
    return game.resolve(), "/games"


def listening(port: int | None) -> socket.socket:
    """Return a socket on the loopback address: on `port`, else on the first that is free."""
    first = PORT if port is None else port
    tries = (first,) if port is not None else range(first, first + MORE_PORTS)
    bound = next((one for one in map(_bound, tries) if one is not None), None)
    if bound is None:
        refuse(Problem.of("studio.port-taken", Where("--port"), port=first))
    return bound


def _bound(port: int) -> socket.socket | None:
    """Return a socket on `port`; None where another program has it."""
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    if os.name == "posix":  # elsewhere it would let two programs share one port
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((HOST, port))
    except OSError:
        listener.close()
        return None
    return listener

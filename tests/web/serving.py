"""A studio that really listens, for tests with a browser; and one that answers in memory."""

from __future__ import annotations

import shutil
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import uvicorn
from fastapi.testclient import TestClient

from boxwright.game.examples import examples
from boxwright.web.app import make_app
from boxwright.web.studio import Studio
from tests.games import MADE

HERE = "testserver"  # the name under which Starlette's client asks


def studio_in(folder: Path, *, example: str | None = "tide-mill") -> Studio:
    """Return a studio over `folder/games`, with a copy of an example in it if one is named."""
    games = folder / "games"
    games.mkdir(parents=True, exist_ok=True)
    if example is not None and not (games / example).exists():
        shutil.copytree(examples()[example], games / example, ignore=MADE)
    return Studio(games, str(folder / "ledger.sqlite"))


def client(studio: Studio) -> TestClient:
    """Return a client that asks a studio without a network."""
    return TestClient(make_app(studio, hosts=(HERE,)), raise_server_exceptions=False)


@contextmanager
def served(studio: Studio, port: int = 0) -> Iterator[str]:
    """Give the address at which `studio` listens, until the test is done; a free port, or `port`.

    One that was closed a moment ago can be opened again at its port.
    """
    listener = socket.socket()
    listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    listener.bind(("127.0.0.1", port))
    listener.listen()  # so that nobody who comes early is turned away
    config = uvicorn.Config(
        make_app(studio),
        log_level="error",
        access_log=False,
        ws="websockets-sansio",
        timeout_graceful_shutdown=1,
    )
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, args=([listener],), daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{listener.getsockname()[1]}"
    finally:
        server.should_exit = True
        thread.join(10)
        listener.close()

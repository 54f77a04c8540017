"""A studio that really listens, for tests with a browser; and one that answers in memory."""

from __future__ import annotations

import shutil
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from copy import copy
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import uvicorn
from anyio.from_thread import BlockingPortal
from fastapi import FastAPI
from fastapi.testclient import TestClient
from playwright.sync_api import Page, Route
from starlette.datastructures import State

from boxwright.game.examples import examples
from boxwright.web.app import make_app, serve
from boxwright.web.studio import Studio
from tests.games import MADE

PATIENCE_MS = 60_000
"""How long a test waits for what a page leads to, on a machine that has other work too."""
HERE = "testserver"  # the name under which Starlette's client asks
PAGE = {"Accept": "text/html"}
"""What a browser asks with for a page, and a script does not."""


@dataclass
class Loop:
    """The event loop in which all clients ask; without it, each request begins one of its own."""

    portal: BlockingPortal | None = None


LOOP = Loop()


def studio_in(folder: Path, *, example: str | None = "tide-mill") -> Studio:
    """Return a studio over `folder/games`, with a copy of an example in it if one is named."""
    games = folder / "games"
    games.mkdir(parents=True, exist_ok=True)
    if example is not None and not (games / example).exists():
        shutil.copytree(examples()[example], games / example, ignore=MADE)
    return Studio(games, str(folder / "ledger.sqlite"))


def app_of(studio: Studio, *hosts: str) -> FastAPI:
    """Return the application of a studio; its routes are worked out once for all studios.

    That takes half a second, more than most tests.
    """
    app = copy(_routes(hosts))
    app.state = State()
    serve(app, studio)
    return app


@cache
def _routes(hosts: tuple[str, ...]) -> FastAPI:
    app = make_app(Studio(Path()), hosts)
    app.middleware_stack = app.build_middleware_stack()
    return app


def client(studio: Studio) -> TestClient:
    """Return a client that asks a studio without a network."""
    asking = TestClient(app_of(studio, HERE), raise_server_exceptions=False)
    asking.portal = LOOP.portal
    return asking


def tagged(asking: TestClient, game: str = "tide-mill") -> dict[str, str]:
    """Return the header that says for which state of a game's files a change is meant: this one."""
    return {"If-Match": asking.get(f"/games/{game}/now").json()["tag"]}


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
        app_of(studio),
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


def holding(page: Page, address: str) -> list[Route]:
    """Hold what a page asks for at this address; each stands in the list, to be let go on."""
    held: list[Route] = []

    def hold(route: Route) -> None:
        held.append(route)

    page.route(address, hold)
    return held

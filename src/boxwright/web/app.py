"""The studio as one application: guard, pages, commands, static files, errors."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from fastapi import FastAPI
from fastapi.staticfiles import StaticFiles
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware

from boxwright import __version__
from boxwright.fonts import font_folders
from boxwright.web import doing, errors, live
from boxwright.web.contents import CONTENTS, GAME
from boxwright.web.desk import LateDesk
from boxwright.web.guard import Guard
from boxwright.web.relay import Relays
from boxwright.web.render import STATIC
from boxwright.web.studio import Studio

SMALLEST_ZIPPED = 1000


def make_app(studio: Studio, hosts: tuple[str, ...] = ()) -> FastAPI:
    """Return the application for one studio; `hosts` are more names to be asked under."""
    middleware = [
        Middleware(Guard, hosts=hosts),
        Middleware(GZipMiddleware, minimum_size=SMALLEST_ZIPPED),
    ]
    app = FastAPI(
        title="Boxwright",
        version=__version__,
        docs_url=None,  # those pages load from other machines
        redoc_url=None,
        middleware=middleware,
        lifespan=_closing,
    )
    serve(app, studio)
    for entry in CONTENTS:
        app.include_router(entry.router, prefix=entry.path, tags=[entry.stem])
    for router in (doing.router, live.router):
        app.include_router(router, prefix=GAME)
    app.mount("/static", StaticFiles(directory=STATIC))
    app.mount("/fonts", StaticFiles(directory=font_folders()[0]))
    errors.handle(app)
    return app


def serve(app: FastAPI, studio: Studio) -> None:
    """Let an application answer for a studio."""
    app.state.studio, app.state.desk, app.state.relays = studio, LateDesk(studio.ledger), Relays()


@asynccontextmanager
async def _closing(app: FastAPI) -> AsyncIterator[None]:
    """Let go of the ledger when the studio ends."""
    yield
    app.state.desk.close()

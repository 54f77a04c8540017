"""A game that is printed and in play, for tests of the pages around it."""

from __future__ import annotations

import atexit
import json
import shutil
from functools import cache
from pathlib import Path
from tempfile import mkdtemp
from typing import Any

from fastapi.testclient import TestClient

from boxwright.build import Asked, build
from boxwright.build.current import keep
from boxwright.choose.chance import Chance
from boxwright.choose.store import EDITIONS
from boxwright.game.choosing import Wishes
from boxwright.game.examples import examples
from boxwright.ledger.event import new_id
from boxwright.web.studio import Studio
from tests.games import MADE
from tests.web.serving import client

GAME = "/games/tide-mill"
HOUR, WALL, AFTER = f"{GAME}/hour", f"{GAME}/wall", f"{GAME}/after"
NAMES = {"1": "Window", "2": "Door"}


def printed(studio: Studio, groups: int = 2) -> Studio:
    """Give the example in `studio` its printed set."""
    shutil.copytree(_made(groups), studio.games / "tide-mill" / EDITIONS)
    return studio


@cache
def _made(groups: int) -> Path:
    """Return the printed set of the example, made once for all tests."""
    home = Path(mkdtemp(prefix="boxwright-"))
    atexit.register(shutil.rmtree, home, ignore_errors=True)
    shutil.copytree(examples()["tide-mill"], home / "tide-mill", ignore=MADE)
    asked = Asked(home / "tide-mill", Wishes(groups=groups), Chance(1))
    keep(build(asked), asked)
    return home / "tide-mill" / EDITIONS


def begun(asking: TestClient, **more: Any) -> str:
    """Begin to play, and return the session."""
    body = {"names": NAMES, "minutes": 40, "purpose": "class"} | more
    answer = asking.post(f"{HOUR}/begin", json=body)
    assert answer.status_code == 200, answer.text
    session: str = asking.get(f"{WALL}/now").json()["session"]
    return session


def in_play(studio: Studio) -> tuple[TestClient, str]:
    """Return a client of a studio in which two tables play, and their session."""
    asking = client(printed(studio))
    return asking, begun(asking)


def tap(kind: str, id: str = "", **data: Any) -> dict[str, Any]:
    """Return a tap as a page sends it."""
    return {"type": kind, "data": data, "id": id or new_id(0), "device": "tablet-abc"}


def taps(asking: TestClient, session: str, *sent: dict[str, Any]) -> list[dict[str, Any]]:
    """Send taps, and return what became of each."""
    answer = asking.post(f"{GAME}/taps/{session}", json={"taps": list(sent)})
    assert answer.status_code == 200, answer.text
    found: list[dict[str, Any]] = answer.json()["answers"]
    return found


def heard(socket: Any) -> dict[str, Any]:
    """Return the next message of a socket that is not the mere clock."""
    while True:
        message: dict[str, Any] = json.loads(socket.receive_text())
        if message["pieces"] or message["closed"]:
            return message

"""A session down to its pages by socket, and their taps up to the desk."""

from __future__ import annotations

import json
from collections.abc import Callable, MutableMapping
from typing import Any

import anyio
import pytest
from fastapi.testclient import TestClient
from starlette.websockets import WebSocketDisconnect

from boxwright.web.live import GONE
from boxwright.web.studio import Studio
from tests.web.playing import GAME, HOUR, heard, in_play, tap, taps
from tests.web.serving import HERE, LOOP, client

OPENED = {"group": "1", "lock": "sluice"}


@pytest.fixture
def playing(studio: Studio) -> tuple[TestClient, str]:
    return in_play(studio)


def events(asking: TestClient, session: str) -> int:
    """Return how many events a session has, by the number of the next."""
    seq: int = taps(asking, session, tap("note.made", text="count"))[0]["seq"]
    return seq


def test_a_page_gets_all_of_it_and_then_what_changes(playing: tuple[TestClient, str]) -> None:
    asking, session = playing
    with asking.websocket_connect(f"{GAME}/live/{session}") as socket:
        first = heard(socket)
        assert {"tile-1", "tile-2", "undo-line", "hands", "mishaps"} <= first["pieces"].keys()
        assert first["clock"]["status"] == "running"
        taps(asking, session, tap("lock.opened", **OPENED))
        news = heard(socket)
    assert news["seq"] > first["seq"]
    assert "tile-1" in news["pieces"]
    assert "tile-2" not in news["pieces"]


def test_a_page_that_is_gone_before_it_got_anything_is_no_fault(
    playing: tuple[TestClient, str],
) -> None:
    asking, session = playing
    asked: list[str] = []

    async def receive() -> dict[str, str]:
        if asked:
            await anyio.sleep_forever()
        asked.append("connect")
        return {"type": "websocket.connect"}

    async def send(message: MutableMapping[str, Any]) -> None:
        asked.append(message["type"])
        if message["type"] == "websocket.send":
            raise OSError

    path = f"{GAME}/live/{session}"
    scope = {"type": "websocket", "path": path, "headers": [(b"host", HERE.encode())]}
    assert LOOP.portal is not None
    LOOP.portal.call(asking.app, scope | {"query_string": b""}, receive, send)
    assert asked == ["connect", "websocket.accept", "websocket.send"]


def test_a_tap_that_is_sent_twice_counts_once(playing: tuple[TestClient, str]) -> None:
    asking, session = playing
    once = tap("hint.given", group="1", clue="flour-sacks", line=1)
    first, again = taps(asking, session, once, once)
    assert first["seq"] == again["seq"]
    assert events(asking, session) == first["seq"] + 1


def test_a_tap_that_is_refused_keeps_none_of_the_others_back(
    playing: tuple[TestClient, str],
) -> None:
    asking, session = playing
    wrong = tap("lock.opened", group="1", lock="no-such")
    refused, kept = taps(asking, session, wrong, tap("lock.opened", **OPENED))
    assert refused["problems"][0]["code"].startswith("live.no-lock")
    assert (refused["seq"], kept["problems"]) == (None, [])


def test_its_sender_is_told_who_was_first(playing: tuple[TestClient, str]) -> None:
    asking, session = playing
    _, second = taps(asking, session, tap("lock.opened", **OPENED), tap("lock.opened", **OPENED))
    assert "Noted before" in second["note"]


def test_the_wall_hears_nothing_that_pupils_must_not_see(
    playing: tuple[TestClient, str],
) -> None:
    asking, session = playing
    with asking.websocket_connect(f"{GAME}/live/{session}?page=wall") as socket:
        assert heard(socket)["pieces"].keys() == {"lids"}
        taps(asking, session, tap("note.made", text="private", group="1"))
        taps(asking, session, tap("lock.opened", **OPENED))
        news = heard(socket)
    assert news["pieces"].keys() == {"lids"}
    assert "private" not in str(news)
    assert "sluice" not in str(news)


def test_a_page_that_is_closed_is_noticed_though_nothing_happens(
    playing: tuple[TestClient, str], monkeypatch: pytest.MonkeyPatch
) -> None:
    asking, session = playing
    desk = asking.app.state.desk.open()  # type: ignore[attr-defined]
    listen, ended = desk.listen, []

    def watched(*args: Any) -> Callable[[], None]:
        end = listen(*args)
        return lambda: ended.append(end())

    monkeypatch.setattr(desk, "listen", watched)
    with asking.websocket_connect(f"{GAME}/live/{session}") as socket:
        heard(socket)
        assert ended == []
    assert ended == [None]


def test_undoing_reaches_a_page_that_came_when_nobody_was_there(
    playing: tuple[TestClient, str],
) -> None:
    asking, session = playing
    address = f"{GAME}/live/{session}"
    with asking.websocket_connect(address) as socket:
        heard(socket)
    opening = tap("lock.opened", **OPENED)
    taps(asking, session, opening)
    with asking.websocket_connect(address) as socket:
        assert "1 of 6 lids are up" in heard(socket)["pieces"]["tile-1"]
        taps(asking, session, tap("undone", event=opening["id"]))
        assert "0 of 6 lids are up" in heard(socket)["pieces"]["tile-1"]


def test_a_session_that_there_is_not_ends_the_socket(playing: tuple[TestClient, str]) -> None:
    asking, _ = playing
    with (
        asking.websocket_connect(f"{GAME}/live/s-none") as socket,
        pytest.raises(WebSocketDisconnect) as ended,
    ):
        socket.receive_text()
    assert ended.value.code == GONE


def test_a_page_of_another_site_hears_nothing(playing: tuple[TestClient, str]) -> None:
    asking, session = playing
    elsewhere = {"Origin": "https://elsewhere.example"}
    with (
        pytest.raises(WebSocketDisconnect),
        asking.websocket_connect(f"{GAME}/live/{session}", headers=elsewhere),
    ):
        pass


@pytest.mark.parametrize(
    "body",
    [
        {},
        {"taps": []},
        {"taps": [{"type": "lock.opened"}]},
        {"taps": [tap("lock.opened") | {"happened_ms": 5}]},
        {"taps": [tap("lock.opened") | {"more": 1}]},
        {"taps": [tap("LOCK")]},
        {"taps": [tap("note.made", text="\ud800")]},
        {"taps": [tap("note.made") | {"data": {"\ud800": "x"}}]},
    ],
)
def test_what_no_page_of_ours_sends_is_refused(
    playing: tuple[TestClient, str], body: dict[str, object]
) -> None:
    asking, session = playing
    before = events(asking, session)
    assert asking.post(f"{GAME}/taps/{session}", content=json.dumps(body)).status_code == 422
    assert events(asking, session) == before + 1


def test_taps_for_a_session_that_is_gone_are_refused_for_good(studio: Studio) -> None:
    asking, session = in_play(studio)
    asking.post(f"{GAME}/after/{session}/forget")
    answer = asking.post(f"{GAME}/taps/{session}", json={"taps": [tap("session.closed")]})
    assert answer.json()["problems"][0]["code"] == "live.no-session"


def test_a_studio_that_starts_anew_goes_on_where_it_was(studio: Studio) -> None:
    asking, session = in_play(studio)
    taps(asking, session, tap("lock.opened", **OPENED))
    other = client(studio)
    assert f'data-session="{session}"' in other.get(HOUR).text
    with other.websocket_connect(f"{GAME}/live/{session}") as socket:
        first = heard(socket)
    assert first["clock"]["status"] == "running"
    assert "1 of 6 lids are up" in first["pieces"]["tile-1"]

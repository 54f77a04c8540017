"""What every request passes first: who asks, from which page, and how much it sends."""

from __future__ import annotations

import asyncio
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor

import pytest
from fastapi import FastAPI, Request, WebSocket
from fastapi.testclient import TestClient
from starlette.middleware import Middleware
from starlette.types import Message, Receive, Scope, Send
from starlette.websockets import WebSocketDisconnect

from boxwright.web.guard import HEADERS, LARGEST_BODY, LARGEST_UPLOAD, Guard
from boxwright.web.studio import Studio
from tests.web.serving import client

HERE = "http://127.0.0.1:8737"


@pytest.fixture
def asking() -> Iterator[TestClient]:
    """A client of an application that answers everything, behind the guard."""
    app = FastAPI(middleware=[Middleware(Guard)])

    @app.api_route("/", methods=["GET", "HEAD", "POST", "PUT", "DELETE"])
    async def size(request: Request) -> int:
        return len(await request.body())

    @app.websocket("/live")
    async def live(socket: WebSocket) -> None:
        await socket.accept()
        await socket.send_text("here")
        await socket.close()

    with TestClient(app, base_url=HERE, raise_server_exceptions=False) as asking:
        yield asking


@pytest.mark.parametrize("host", ["127.0.0.1", "127.0.0.1:8737", "localhost:1", "[::1]:8737"])
def test_it_answers_under_its_own_names(asking: TestClient, host: str) -> None:
    assert asking.get("/", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize(
    "host", ["", "school.example", "127.0.0.1.school.example", "evil:127.0.0.1", "localhost.evil"]
)
def test_a_name_that_was_made_to_lead_here_gets_no_answer(asking: TestClient, host: str) -> None:
    for method in ("GET", "POST"):
        answer = asking.request(method, "/", headers={"Host": host})
        assert answer.status_code == 421
        assert answer.text == "421\n"


def test_a_further_name_can_be_allowed(studio: Studio) -> None:
    assert client(studio).get("/games", headers={"Host": "testserver"}).status_code == 200
    assert client(studio).get("/games", headers={"Host": "testserver.evil"}).status_code == 421


@pytest.mark.parametrize("site", ["cross-site", "same-site"])
@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE"])
def test_another_site_can_change_nothing(asking: TestClient, method: str, site: str) -> None:
    assert asking.request(method, "/", headers={"Sec-Fetch-Site": site}).status_code == 403


@pytest.mark.parametrize(
    "origin",
    ["null", "https://127.0.0.1.evil", "http://127.0.0.1:9", "http://evil", "file://", "http://["],
)
def test_a_page_of_another_origin_can_change_nothing(asking: TestClient, origin: str) -> None:
    assert asking.post("/", headers={"Origin": origin}).status_code == 403


@pytest.mark.parametrize(
    "headers", [{}, {"Origin": HERE}, {"Origin": HERE, "Sec-Fetch-Site": "same-origin"}]
)
def test_our_own_pages_and_programs_without_a_page_can(
    asking: TestClient, headers: dict[str, str]
) -> None:
    assert asking.post("/", headers=headers, content=b"abc").json() == 3


def test_a_link_on_another_site_can_be_followed(asking: TestClient) -> None:
    assert asking.get("/", headers={"Sec-Fetch-Site": "cross-site"}).status_code == 200


def test_what_is_too_large_is_refused_by_what_it_says_of_itself(asking: TestClient) -> None:
    for length, status in ((LARGEST_BODY, 200), (LARGEST_BODY + 1, 413)):
        assert asking.post("/", content=bytes(length)).status_code == status


@pytest.mark.parametrize(
    "length",
    ["-1", "many", "1e9", "9" * 5000],
    ids=["below nothing", "a word", "a formula", "far too long"],
)
def test_a_length_that_cannot_be_is_refused(asking: TestClient, length: str) -> None:
    assert asking.post("/", headers={"Content-Length": length}).status_code == 413


def test_a_file_may_be_larger_than_a_form(asking: TestClient) -> None:
    upload = {"Content-Type": "multipart/form-data; boundary=x"}
    more = LARGEST_BODY + 1
    assert asking.post("/", content=bytes(more), headers=upload).json() == more
    headers = upload | {"Content-Length": str(LARGEST_UPLOAD + 1)}
    assert asking.post("/", headers=headers).status_code == 413


def test_what_never_ends_is_cut_off() -> None:
    taken = []

    async def endless() -> Message:
        return {"type": "http.request", "body": bytes(100_000), "more_body": True}

    async def reading(scope: Scope, receive: Receive, send: Send) -> None:
        while (message := await receive())["type"] != "http.disconnect":
            taken.append(len(message["body"]))

    async def nobody(message: Message) -> None:
        raise AssertionError(message)

    scope = {"type": "http", "method": "POST", "headers": [(b"host", b"localhost")]}
    # In a thread of its own: a browser that an earlier test left open has a loop in this one.
    with ThreadPoolExecutor(1) as elsewhere:
        elsewhere.submit(lambda: asyncio.run(Guard(reading)(scope, endless, nobody))).result()
    assert LARGEST_BODY - 100_000 < sum(taken) <= LARGEST_BODY


def test_every_answer_carries_the_policy(asking: TestClient) -> None:
    for answer in (asking.get("/"), asking.get("/nothing"), asking.get("/", headers={"Host": "x"})):
        assert {name: answer.headers[name] for name in HEADERS} == dict(HEADERS)


def test_pages_may_load_nothing_but_what_we_serve() -> None:
    policy = HEADERS["Content-Security-Policy"]
    sources = dict(part.strip().split(" ", 1) for part in policy.split(";"))
    assert sources["default-src"] == "'none'"
    assert sources["script-src"] == sources["style-src"] == sources["connect-src"] == "'self'"
    assert "unsafe" not in policy
    assert "*" not in policy


def test_a_socket_opens_from_our_own_page_alone(asking: TestClient) -> None:
    with asking.websocket_connect(f"ws{HERE[4:]}/live", headers={"Origin": HERE}) as socket:
        assert socket.receive_text() == "here"


@pytest.mark.parametrize(
    "headers",
    [{"Origin": "http://evil"}, {"Sec-Fetch-Site": "cross-site"}, {"Host": "evil"}],
)
def test_a_socket_of_another_site_is_closed(asking: TestClient, headers: dict[str, str]) -> None:
    with pytest.raises(WebSocketDisconnect) as closed:
        asking.websocket_connect("/live", headers=headers).__enter__()
    assert closed.value.code == 1008

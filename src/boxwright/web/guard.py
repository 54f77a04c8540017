"""What every request passes first: who asks, from which page, how much it sends.

The studio listens on the loopback address alone. A page of another site can still make a
browser send requests there, hence the checks of Host (against names that were made to
lead here), of Origin and of Sec-Fetch-Site, and a policy that lets our pages load nothing
but what we serve.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

LOOPBACK = ("127.0.0.1", "localhost", "[::1]")
SAFE = ("GET", "HEAD", "OPTIONS")
LARGEST_BODY = 1_000_000
LARGEST_UPLOAD = 60_000_000
LONGEST_NUMBER = 12  # digits
UPLOADS = "multipart/form-data"

HEADERS: Mapping[str, str] = {  # not read by people
    "Content-Security-Policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; "
        "img-src 'self' blob: data:; connect-src 'self'; form-action 'self'; "
        "frame-src 'self'; frame-ancestors 'self'; base-uri 'none'; object-src 'none'"
    ),
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Referrer-Policy": "same-origin",
    "X-Content-Type-Options": "nosniff",
}


@dataclass(frozen=True, slots=True)
class Guard:
    """Lets a request through to `app`, or answers it itself in one plain line.

    `hosts` are more names under which the studio may be asked for, as tests do.
    """

    app: ASGIApp
    hosts: tuple[str, ...] = ()

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request or one socket."""
        if scope["type"] not in ("http", "websocket"):
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        status = self._refusal(scope, headers)
        if status is not None:
            await _refuse(status, scope, receive, send)
            return
        limit = _limit(headers)
        await self.app(scope, _counted(receive, limit), _with_headers(send))

    def _refusal(self, scope: Scope, headers: Headers) -> int | None:
        """Return the status with which a request is refused; None where it may pass."""
        host = headers.get("host", "")
        if _name(host) not in (*LOOPBACK, *self.hosts):
            return 421
        asks = scope["type"] == "http" and scope["method"] in SAFE
        if not asks and not _from_here(headers, host):
            return 403
        return None if _fits(headers) else 413


def _fits(headers: Headers) -> bool:
    """Tell whether a request is as small as it may be, by what it says of itself."""
    length = headers.get("content-length", "0")
    is_number = length.isdecimal() and len(length) <= LONGEST_NUMBER
    return is_number and int(length) <= _limit(headers)


def _name(host: str) -> str:
    """Return a Host header's name without its port."""
    head, colon, port = host.rpartition(":")
    return head if colon and port.isdecimal() else host


def _from_here(headers: Headers, host: str) -> bool:
    """Tell whether what changes things comes from one of our own pages, or from no page."""
    if headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
        return False
    origin = headers.get("origin")
    return origin is None or _netloc(origin) == host


def _netloc(origin: str) -> str | None:
    try:
        return urlsplit(origin).netloc
    except ValueError:  # no address at all
        return None


def _limit(headers: Headers) -> int:
    uploads = headers.get("content-type", "").startswith(UPLOADS)
    return LARGEST_UPLOAD if uploads else LARGEST_BODY


def _counted(receive: Receive, limit: int) -> Receive:
    """Return `receive` that ends a request which sends more than `limit` bytes."""
    left = limit

    async def counted() -> Message:
        nonlocal left
        message = await receive()
        left -= len(message.get("body", b""))
        if left < 0:
            return {"type": "http.disconnect"}
        return message

    return counted


def _with_headers(send: Send) -> Send:
    async def sent(message: Message) -> None:
        if message["type"] == "http.response.start":
            _add(MutableHeaders(scope=message), HEADERS.items())
        await send(message)

    return sent


def _add(headers: MutableHeaders, more: Iterable[tuple[str, str]]) -> None:
    for name, value in more:
        headers.setdefault(name, value)


async def _refuse(status: int, scope: Scope, receive: Receive, send: Send) -> None:
    if scope["type"] == "websocket":
        await send({"type": "websocket.close", "code": 1008})
        return
    await PlainTextResponse(f"{status}\n", status)(scope, receive, _with_headers(send))

"""From the desk to every page that shows a session: first all of it, then what changes.

A post is one page that listens. The desk tells from whichever thread brought an event; what goes
to a page is handed over to the event loop there, in order. Now and then every page hears what the
clock says, so that one that slept is right again, and what another program has put into the ledger.
"""

from __future__ import annotations

import asyncio
import json
import logging
import threading
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from boxwright.live.events import Event
from boxwright.live.noted import State
from boxwright.problems import Refused
from boxwright.web.pieces import PageName, Pieces
from boxwright.web.playing import Playing

if TYPE_CHECKING:
    from collections.abc import Callable

    from boxwright.live.desk import Desk

BEAT_S = 2.0
MOST_WAITING = 200
"""Messages that wait for one page; one that takes none for so long begins anew."""


@dataclass(eq=False)
class Post:
    """One page that listens; None in its queue ends it."""

    page: PageName
    queue: asyncio.Queue[str | None] = field(default_factory=asyncio.Queue)

    def put(self, text: str | None) -> None:
        """Hand a message over; called in the event loop."""
        if self.queue.qsize() < MOST_WAITING:
            self.queue.put_nowait(text)
        else:
            self.end()

    def end(self) -> None:
        """Let the page go; it comes back and begins anew."""
        while not self.queue.empty():
            self.queue.get_nowait()
        self.queue.put_nowait(None)


class Relay:
    """One session and the pages that show it."""

    def __init__(self, desk: Desk, session: str) -> None:
        """Begin to listen; raises Refused where there is no such session."""
        self.desk, self.session = desk, session
        self.posts: list[Post] = []
        self._loop = asyncio.get_running_loop()
        self._pieces = Pieces()
        self._last: dict[str, dict[str, str]] = {}
        self._lock = threading.Lock()
        self._end: Callable[[], None] | None = None
        self._beat: asyncio.Task[None] | None = None

    def add(self, post: Post) -> None:
        """Let a page hear what happens from now on; what was told before none was there is void."""
        with self._lock:
            if all(one.page != post.page for one in self.posts):
                self._last.pop(post.page, None)
            self.posts.append(post)

    def listen(self) -> None:
        """Listen to the desk; it may have to read the ledger."""
        self._end = self.desk.listen(self.session, self._heard)

    def begin(self) -> None:
        """Let the pages hear the clock from now on."""
        self._beat = asyncio.create_task(self._beats())

    def end(self) -> None:
        """Let go of the desk."""
        if self._end is not None:
            self._end()
        if self._beat is not None:
            self._beat.cancel()

    def snapshot(self, page: PageName) -> str:
        """Return all that a page shows."""
        playing = self._playing(self.desk.state(self.session))
        with self._lock:
            pieces = self._pieces.of(page, playing)
            self._last.setdefault(page, pieces)
        return self._message(playing, pieces)

    def _playing(self, state: State) -> Playing:
        return Playing(self.session, state, self.desk.editions(self.session))

    def _heard(self, event: Event, state: State) -> None:
        """Tell all pages what an event has changed."""
        playing = self._playing(state)
        for page in {post.page for post in tuple(self.posts)}:
            with self._lock:
                pieces, last = self._pieces.of(page, playing), self._last.get(page, {})
                self._last[page] = pieces
            news = {id: html for id, html in pieces.items() if last.get(id) != html}
            text = self._message(playing, news)
            self._loop.call_soon_threadsafe(self._hand_out, text, page)

    def _message(self, playing: Playing, pieces: dict[str, str]) -> str:
        message: dict[str, Any] = {
            "seq": playing.state.seq,
            "clock": playing.clock(self.desk.clock.now()),
            "closed": playing.state.closed,
            "pieces": pieces,
        }
        return json.dumps(message, ensure_ascii=False)

    def _hand_out(self, text: str | None, page: PageName | None = None) -> None:
        for post in tuple(self.posts):
            if page in (None, post.page):
                post.put(text)

    async def _beats(self) -> None:
        while True:
            await asyncio.sleep(BEAT_S)
            try:
                state = await asyncio.to_thread(self.desk.state, self.session)
            except Refused as refused:
                if any(one.code == "live.no-session" for one in refused.problems):
                    self._hand_out(None)  # it was forgotten
                    return
                continue
            except Exception:
                logging.getLogger(__name__).exception("%s", self.session)
                continue
            self._hand_out(self._message(self._playing(state), {}))


class Relays:
    """All sessions that pages show at the moment; for the event loop alone."""

    def __init__(self) -> None:
        """Begin with none."""
        self._relays: dict[str, Relay] = {}
        self._joining = asyncio.Lock()

    async def join(self, desk: Desk, session: str, page: PageName) -> tuple[Relay, Post, str]:
        """Add a page, and return its post with all that it shows; raises Refused as the desk does.

        What happens meanwhile waits at the post already.
        """
        async with self._joining:
            relay = self._relays.get(session)
            if relay is None:
                relay = Relay(desk, session)
                await asyncio.to_thread(relay.listen)
                relay.begin()
                self._relays[session] = relay
            post = Post(page)
            relay.add(post)
        try:
            first = await asyncio.to_thread(relay.snapshot, page)
        except BaseException:
            self.leave(relay, post)
            raise
        return relay, post, first

    def leave(self, relay: Relay, post: Post) -> None:
        """Take a page away; with its last one a session's relay ends."""
        if post in relay.posts:
            relay.posts.remove(post)
        if not relay.posts and self._relays.get(relay.session) is relay:
            del self._relays[relay.session]
            relay.end()

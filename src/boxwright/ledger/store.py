"""The ledger: what is appended is on the disk before the call returns, once, in order.

Several threads and several programs may use one ledger at the same time. A SQLite file
should lie on the machine's own disk, since shared folders do not lock reliably; a school that
shares a ledger gives the URL of a server.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from types import TracebackType
from typing import Any, Self, TypeVar

from sqlalchemy import Connection, delete, func, insert, select
from sqlalchemy.exc import IntegrityError

from boxwright.ledger.engine import WAIT_MS, ready, writing
from boxwright.ledger.event import Event
from boxwright.ledger.faults import told
from boxwright.ledger.place import place_of
from boxwright.ledger.tables import EDITIONS, EVENTS, SESSIONS
from boxwright.ledger.wiping import wipe
from boxwright.problems import Problem, refuse
from boxwright.text import canonical_json

T = TypeVar("T")

ATTEMPTS = 20
"""How often to write again where another program took the same number, on a server."""


@dataclass(frozen=True, slots=True)
class Session:
    """One session in a list of them: when it was opened, and the number of its last event."""

    id: str
    game: str
    opened: str
    events: int


class Ledger:
    """One database, by a file's name or a URL; the user's own where nothing is named."""

    def __init__(self, named: str | Path | None = None, *, wait_ms: int = WAIT_MS) -> None:
        """Open it, and make it if it is new; raises Refused where it cannot be used."""
        self.place = place_of(named)
        self._engine = ready(self.place, wait_ms)

    def close(self) -> None:
        """Let go of the database."""
        self._engine.dispose()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    # sessions

    def begin(
        self, session: str, game: str, editions: Mapping[str, Any], *events: Event
    ) -> tuple[Event, ...]:
        """Keep a new session with its editions' JSON by id and its first events, all or nothing."""

        def work(connection: Connection) -> tuple[Event, ...]:
            row = {"id": session, "game": game, "opened": events[0].wall}
            connection.execute(insert(SESSIONS).values(row))
            for id, content in editions.items():
                kept = {"session": session, "id": id, "content": canonical_json(content)}
                connection.execute(insert(EDITIONS).values(kept))
            return tuple(_put(connection, event) for event in events)

        return self.writing(work)

    def append(self, event: Event) -> Event:
        """Keep an event, numbered as the next of its session, and return it as it is kept.

        Where its id is known already nothing is written, and the first event of that id comes
        back. Raises Refused where there is no such session.
        """

        def work(connection: Connection) -> Event:
            known = select(SESSIONS.c.id).where(SESSIONS.c.id == event.session)
            if connection.execute(known).first() is None:
                refuse(Problem.of("ledger.no-session", self.place.where, session=event.session))
            return _put(connection, event)

        return self.writing(work)

    def events(self, session: str, after: int = 0) -> tuple[Event, ...]:
        """Return a session's events in order, those numbered above `after`."""
        wanted = select(EVENTS).where(EVENTS.c.session == session, EVENTS.c.seq > after)

        def work(connection: Connection) -> tuple[Event, ...]:
            return tuple(map(_event, connection.execute(wanted.order_by(EVENTS.c.seq)).mappings()))

        return self.reading(work)

    def editions(self, session: str) -> dict[str, Any]:
        """Return the JSON of the editions that a session plays, by id."""
        wanted = select(EDITIONS.c.id, EDITIONS.c.content).where(EDITIONS.c.session == session)

        def work(connection: Connection) -> dict[str, Any]:
            return {id: json.loads(content) for id, content in connection.execute(wanted)}

        return self.reading(work)

    def sessions(self, game: str | None = None, edition: str | None = None) -> tuple[Session, ...]:
        """Return the sessions of `game`, or of all games, the newest first.

        With `edition`, only those that play it.
        """
        last = select(func.max(EVENTS.c.seq)).where(EVENTS.c.session == SESSIONS.c.id)
        wanted = select(SESSIONS, last.scalar_subquery().label("events")).order_by(
            SESSIONS.c.opened.desc(), SESSIONS.c.id.desc()
        )
        if game is not None:
            wanted = wanted.where(SESSIONS.c.game == game)
        if edition is not None:
            playing = select(EDITIONS.c.session).where(EDITIONS.c.id == edition)
            wanted = wanted.where(SESSIONS.c.id.in_(playing))
        return self.reading(
            lambda connection: tuple(
                Session(**row) for row in connection.execute(wanted).mappings()
            )
        )

    def forget(self, session: str) -> None:
        """Remove a session for good; what it said is no longer in the ledger's files.

        Raises Refused where another program holds on to the old state: then the session is gone,
        but traces may be left until this is called again. A server's files are its keeper's.
        """

        def work(connection: Connection) -> None:
            for table in (EVENTS, EDITIONS):
                connection.execute(delete(table).where(table.c.session == session))
            connection.execute(delete(SESSIONS).where(SESSIONS.c.id == session))

        self.writing(work)
        if self.place.file is not None:
            with told(self.place):
                wipe(self._engine, self.place)

    # for whoever keeps tables of its own in the ledger

    def reading(self, work: Callable[[Connection], T]) -> T:
        """Return what `work` reads in one transaction."""
        with told(self.place), self._engine.connect() as connection, connection.begin():
            return work(connection)

    def writing(self, work: Callable[[Connection], T]) -> T:
        """Do `work` in one transaction, which is on the disk when this returns.

        Where another program wrote the same row in between, it is done again.
        """
        for left in reversed(range(ATTEMPTS)):
            try:
                with told(self.place), writing(self._engine) as connection:
                    return work(connection)
            except IntegrityError:
                if not left:
                    raise
        raise AssertionError("the last attempt returns or raises")


def _put(connection: Connection, event: Event) -> Event:
    first = connection.execute(select(EVENTS).where(EVENTS.c.id == event.id)).mappings().first()
    if first is not None:
        return _event(first)
    last = select(func.max(EVENTS.c.seq)).where(EVENTS.c.session == event.session)
    kept = replace(event, seq=(connection.execute(last).scalar() or 0) + 1)
    row = {column.name: getattr(kept, column.name) for column in EVENTS.columns}
    connection.execute(insert(EVENTS).values(row | {"data": canonical_json(dict(kept.data))}))
    return kept


def _event(row: Mapping[Any, Any]) -> Event:
    return Event(**{**row, "data": json.loads(row["data"])})

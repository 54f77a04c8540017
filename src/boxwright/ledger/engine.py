"""A database made ready: durable, patient with others, of a format that is understood."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event, insert, inspect, select
from sqlalchemy.exc import NoSuchModuleError

from boxwright.ledger.faults import told
from boxwright.ledger.place import OPTION, Place
from boxwright.ledger.tables import FORMAT, META, METADATA
from boxwright.problems import Problem, Refused, Where, refuse

WAIT_MS = 5_000
"""How long to wait for another program that is writing."""
_WRITES = "writes"
_KEY = "format"


def ready(place: Place, wait_ms: int = WAIT_MS) -> Engine:
    """Return the database at `place`, its tables made if it is new; raises Refused."""
    _make_folder(place)
    try:
        engine = create_engine(place.url)
    except (NoSuchModuleError, ImportError):
        name = place.url.drivername
        raise Refused([Problem.of("ledger.no-driver", Where(OPTION), name=name)]) from None
    if place.file is not None:
        _tune(engine, wait_ms)
    try:
        with told(place), writing(engine) as connection:
            _settle(connection, place)
    except BaseException:
        engine.dispose()
        raise
    return engine


@contextmanager
def writing(engine: Engine) -> Iterator[Connection]:
    """Open a transaction that is going to write, so that no other one comes between."""
    with engine.execution_options(**{_WRITES: True}).connect() as connection, connection.begin():
        yield connection


def _make_folder(place: Place) -> None:
    if place.file is None:
        return
    try:
        place.file.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    except OSError as error:
        why = error.strerror or os.fspath(place.file.parent)
        refuse(Problem.of("ledger.unusable", place.where, file=place.shown, why=why))


def _tune(engine: Engine, wait_ms: int) -> None:
    """Have each connection to a SQLite file wait for others, and write to the disk for good.

    `fullfsync` matters on macOS alone, where a plain sync stops at the disk's own memory.
    """
    settings = (
        f"busy_timeout = {wait_ms}",
        "journal_mode = WAL",
        "synchronous = FULL",
        "fullfsync = ON",
        "foreign_keys = ON",
        "secure_delete = ON",
    )

    def connected(connection: Any, _: Any) -> None:
        connection.isolation_level = None  # Python's own transactions start too late
        for setting in settings:
            connection.execute(f"PRAGMA {setting}")

    def begun(connection: Connection) -> None:
        writes = connection.get_execution_options().get(_WRITES, False)
        statement = "BEGIN IMMEDIATE" if writes else "BEGIN"  # not read by people
        connection.exec_driver_sql(statement)

    event.listen(engine, "connect", connected)
    event.listen(engine, "begin", begun)


def _settle(connection: Connection, place: Place) -> None:
    """Make the tables of a new ledger; hold an old one to the format."""
    names = set(inspect(connection).get_table_names())
    if not names & set(METADATA.tables):
        if names and place.file is not None:
            refuse(Problem.of("ledger.foreign", place.where, file=place.shown))
        METADATA.create_all(connection)
        connection.execute(insert(META).values(key=_KEY, value=str(FORMAT)))
        return
    found = None
    if META.name in names:
        found = connection.execute(select(META.c.value).where(META.c.key == _KEY)).scalar()
    if found is not None and found.isdecimal() and int(found) > FORMAT:
        newer = Problem.of("ledger.newer", place.where, file=place.shown, found=found, known=FORMAT)
        refuse(newer)
    if found != str(FORMAT) or not set(METADATA.tables) <= names:
        refuse(Problem.of("ledger.damaged", place.where, file=place.shown, why=_KEY))

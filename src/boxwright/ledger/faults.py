"""What a database objects to, as problems with a place and a remedy."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Mapping
from contextlib import contextmanager

from sqlalchemy.exc import DBAPIError, IntegrityError, SQLAlchemyError

from boxwright.ledger.place import Place
from boxwright.problems import Problem, refuse

_BUSY, _DAMAGED = "ledger.busy", "ledger.damaged"
CODES: Mapping[int, str] = {
    sqlite3.SQLITE_BUSY: _BUSY,
    sqlite3.SQLITE_LOCKED: _BUSY,
    sqlite3.SQLITE_CORRUPT: _DAMAGED,
    sqlite3.SQLITE_NOTADB: _DAMAGED,
    sqlite3.SQLITE_FORMAT: _DAMAGED,
}
"""The problem of each of SQLite's primary result codes; any other bars the use of the file."""


@contextmanager
def told(place: Place) -> Iterator[None]:
    """Raise Refused with a problem where the database at `place` objects.

    A row that is there already is left to whoever wanted to write it.
    """
    try:
        yield
    except IntegrityError:
        raise
    except (SQLAlchemyError, sqlite3.Error) as error:
        refuse(_problem(place, error))


def _problem(place: Place, error: Exception) -> Problem:
    cause = error.orig if isinstance(error, DBAPIError) else error
    why = " ".join(str(cause).split())
    if place.file is None:
        return Problem.of("ledger.unreachable", place.where, place=place.shown, why=why)
    primary = getattr(cause, "sqlite_errorcode", -1) & 0xFF
    code = CODES.get(primary, "ledger.unusable")
    # A table or column that is missing is damage too: the format was right.
    if primary == sqlite3.SQLITE_ERROR:
        code = _DAMAGED
    return Problem.of(code, place.where, file=place.shown, why=why)

"""What was deleted from a SQLite ledger is taken out of its files, too."""

from __future__ import annotations

from sqlalchemy import Engine

from boxwright.ledger.place import Place
from boxwright.problems import Problem, refuse


def wipe(engine: Engine, place: Place) -> None:
    """Write the file anew without what was deleted, and empty its journal.

    Raises Refused where another program still reads the old state, which keeps it alive.
    """
    connection = engine.raw_connection()
    try:
        cursor = connection.cursor()
        cursor.execute("VACUUM")
        cursor.execute("PRAGMA wal_checkpoint(TRUNCATE)")  # not read by people
        [(busy, _, _)] = cursor.fetchall()
    finally:
        connection.close()
    if busy:
        refuse(Problem.of("ledger.traces", place.where, file=place.shown))

"""Where a ledger lies: in the user's own data folder, in a file named, or on a server."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from boxwright.problems import Problem, Where, refuse

if TYPE_CHECKING:
    from sqlalchemy.engine import URL

PROGRAM, FILE = "boxwright", "ledger.db"
OPTION = "--ledger"
IN_MEMORY = (None, "", ":memory:")


@dataclass(frozen=True, slots=True)
class Place:
    """A database's URL, and how messages name it: never with a password."""

    url: URL

    @property
    def file(self) -> Path | None:
        """The file of a SQLite database; None for a server."""
        if self.url.get_backend_name() != "sqlite":
            return None
        return Path(self.url.database or "")

    @property
    def shown(self) -> str:
        """How messages name it."""
        return (
            self.url.render_as_string(hide_password=True) if self.file is None else str(self.file)
        )

    @property
    def where(self) -> Where:
        """Where its problems are."""
        return Where(self.shown)


def usual_file() -> Path:
    """Return the file of the ledger where nobody names another."""
    from platformdirs import user_data_path

    return user_data_path(PROGRAM, appauthor=False) / FILE


def place_of(named: str | Path | None = None) -> Place:
    """Return the place that a file's name or a URL says; raises Refused where it says none."""
    # Late: whoever asks where the usual file is need not have a database.
    from sqlalchemy.engine import URL, make_url
    from sqlalchemy.exc import ArgumentError

    if named is None or "://" not in str(named):
        file = usual_file() if named is None else Path(named)
        return Place(URL.create("sqlite", database=str(file.expanduser().absolute())))
    try:
        url = make_url(str(named))
    except (ArgumentError, ValueError):
        refuse(Problem.of("ledger.no-url", Where(OPTION)))
    if url.get_backend_name() == "sqlite" and url.database in IN_MEMORY:
        refuse(Problem.of("ledger.in-memory", Where(OPTION)))
    return Place(url)

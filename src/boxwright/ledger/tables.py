"""The tables of a ledger. Rows are added and forgotten, never changed."""

from __future__ import annotations

from sqlalchemy import (
    BigInteger,
    Column,
    ForeignKey,
    Integer,
    MetaData,
    String,
    Table,
    Text,
    UniqueConstraint,
)

FORMAT = 1
"""Of the tables; Boxwright refuses any other, a newer one with words of its own."""

METADATA = MetaData()

META = Table(
    "meta",
    METADATA,
    Column("key", String(40), primary_key=True),
    Column("value", String(200), nullable=False),
)

SESSIONS = Table(
    "sessions",
    METADATA,
    Column("id", String(40), primary_key=True),
    Column("game", String(40), nullable=False, index=True),
    Column("opened", String(30), nullable=False),
)

# A session keeps what it plays, so that it can be taken up again wherever its folder has gone.
EDITIONS = Table(
    "editions",
    METADATA,
    Column("session", ForeignKey("sessions.id"), primary_key=True),
    Column("id", String(40), primary_key=True),
    Column("content", Text, nullable=False),
)

EVENTS = Table(
    "events",
    METADATA,
    Column("session", ForeignKey("sessions.id"), primary_key=True),
    Column("seq", Integer, primary_key=True, autoincrement=False),
    Column("id", String(64), nullable=False),
    Column("type", String(40), nullable=False),
    Column("v", Integer, nullable=False),
    Column("wall", String(30), nullable=False),
    Column("since_boot_ms", BigInteger, nullable=False),
    Column("boot", String(64), nullable=False),
    Column("happened_ms", BigInteger, nullable=False),
    Column("device", String(64), nullable=False),
    Column("rights", String(40), nullable=False),
    Column("data", Text, nullable=False),
    UniqueConstraint("id"),
)

LOCK_EVENTS = Table(
    "lock_events",
    METADATA,
    Column("seq", Integer, primary_key=True),
    Column("id", String(64), nullable=False, unique=True),
    Column("kit", String(40), nullable=False),
    Column("tag", String(10), nullable=False),
    Column("type", String(40), nullable=False),
    Column("wall", String(30), nullable=False),
    Column("data", Text, nullable=False),
)

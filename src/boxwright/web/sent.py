"""What pages send and are answered, as far as it is the same for many."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict


class Sent(BaseModel):
    """What a page sends: nothing that it does not name."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class Next(BaseModel):
    """Where to go on."""

    next: str


class Said(BaseModel):
    """What is said when it is done."""

    said: str

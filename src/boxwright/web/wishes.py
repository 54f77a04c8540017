"""What is wished of a game while it is looked at: it stands in the address, in no file."""

from __future__ import annotations

from typing import Annotated
from urllib.parse import urlencode

from fastapi import Depends, Query

from boxwright.game.choosing import Wishes
from boxwright.game.model import Level

Name = Annotated[str | None, Query(max_length=40)]


def wishes(
    arrangement: Name = None,
    level: Annotated[Level | None, Query()] = None,
    groups: Annotated[int | None, Query(ge=1, le=99)] = None,
) -> Wishes:
    """Return the wishes in an address."""
    return Wishes(arrangement=arrangement or None, level=level, groups=groups)


Wished = Annotated[Wishes, Depends(wishes)]


def query_of(wishes: Wishes) -> str:
    """Return wishes as the end of an address, to be carried from page to page."""
    named = {"arrangement": wishes.arrangement, "level": wishes.level, "groups": wishes.groups}
    said = urlencode({name: value for name, value in named.items() if value is not None})
    return f"?{said}" if said else ""

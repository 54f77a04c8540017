"""A change to a game under a name: what it asks for, and what it does to the game's files."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from boxwright.frozen import frozen_value
from boxwright.game.commands.asked import Asked
from boxwright.game.commands.desk import Desk
from boxwright.problems import Message


@frozen_value
class Command:
    """One command.

    `perform` changes what lies on the desk and says what it did, so that it can be offered
    to be undone under that name; it raises Refused where what is asked makes no sense. The
    message's `id` argument is the id of the thing that it is about, also of one just made.
    """

    name: str
    asks: type[Asked]
    perform: Callable[[Desk, Any], Message]

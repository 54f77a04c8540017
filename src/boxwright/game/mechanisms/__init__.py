"""Mechanisms: what each kind of lock can show, and everything that follows from that.

`device_of` makes a lock's file values a `Device`; `entry(device)` is the mechanism that
answers for it; `read_code` reads what people type. docs/locks.md tells what an entry gives.
"""

from boxwright.game.mechanisms.base import Mechanism
from boxwright.game.mechanisms.device import BLANK, Code, Device, merged
from boxwright.game.mechanisms.guessing import Guess, guesses
from boxwright.game.mechanisms.lost import Suspect, stages, suspects
from boxwright.game.mechanisms.making import MECHANISMS, device_of, entry, read_code
from boxwright.game.mechanisms.saying import faces_said
from boxwright.game.mechanisms.short import parse_lock

__all__ = [
    "BLANK",
    "MECHANISMS",
    "Code",
    "Device",
    "Guess",
    "Mechanism",
    "Suspect",
    "device_of",
    "entry",
    "faces_said",
    "guesses",
    "merged",
    "parse_lock",
    "read_code",
    "stages",
    "suspects",
]

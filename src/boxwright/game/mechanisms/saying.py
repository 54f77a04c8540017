"""What stands on a lock, said for people: the faces of each position, alike ones once."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.game.mechanisms.device import Device
from boxwright.problems import Arg, Message, say

PLAIN_UP_TO = 3


def faces_said(device: Device) -> Iterator[Message]:
    """Yield what stands at each position of `device`; one message where all are alike."""
    if len(set(device.positions)) == 1:
        yield say("lock.faces", faces=_joined(device.positions[0]))
        return
    for at, faces in enumerate(device.positions, start=1):
        yield say("lock.faces-of", at=at, faces=_joined(faces))


def _joined(faces: tuple[str, ...]) -> Arg:
    if faces == tuple(map(str, range(len(faces)))) and len(faces) > PLAIN_UP_TO:
        return say("lock.range", first=faces[0], last=faces[-1])
    return (" " if any(len(face) > 1 for face in faces) else "").join(faces)

"""From what a file says of a lock to the faces of its positions, each contradiction named."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from boxwright.game.mechanisms.device import says
from boxwright.game.mechanisms.reading import inside, signs
from boxwright.game.model import LockShape
from boxwright.problems import Arg, Problem, Where, say

Positions = tuple[tuple[str, ...], ...]
FaceForm = Callable[[str], str | None]
"""Makes what a file calls a face that face in its one form, or None where it is none."""


@dataclass(slots=True)
class Draft:
    """A lock that is being read: its fields, where each stands, and what is wrong so far.

    `own` is the lock as its file has it, before its model's fields were laid under it.
    """

    lock: LockShape
    own: LockShape
    where: Where
    model_where: Where | None = None
    problems: list[Problem] = field(default_factory=list)

    def at(self, *path: str | int) -> Where:
        """Return the place of a field: the lock's own, or its model's if that says it."""
        if self.model_where is None or not path or says(self.own, str(path[0])):
            return inside(self.where, *path)
        return inside(self.model_where if says(self.lock, str(path[0])) else self.where, *path)

    def wrong(self, code: str, *path: str | int, **args: Arg) -> None:
        """Note a problem with the field at `path`."""
        kind = say(f"mechanism.name-{self.lock.mechanism or 'lock'}")
        named = {"mechanism": kind, **args}
        self.problems.append(Problem.of(f"mechanism.{code}", self.at(*path), edit=None, **named))


def wheel_faces(
    draft: Draft,
    form: FaceForm,
    *,
    lettered: bool,
    default: tuple[str, ...] | None,
    wheels: int | None,
) -> Positions:
    """Return the faces of each wheel, in order round it.

    `lettered`: a list holds one string for each wheel; else it holds names for all wheels.
    `default`: the faces where none are given; `wheels`: how many where nothing tells.
    """
    given = draft.lock.faces
    if given is None and default is None:
        draft.wrong("no-faces")
        return ()
    each = isinstance(given, tuple) and (lettered or not all(isinstance(f, str) for f in given))
    if each and isinstance(given, tuple):
        return _one_each(draft, form, given)
    count = draft.lock.wheels or wheels
    if count is None:
        draft.wrong("no-wheels", *(("faces",) if given is not None else ()))
        return ()
    faces = default if given is None else _formed(draft, form, _split(given), ("faces",))
    return (faces or (),) * count


def _one_each(
    draft: Draft, form: FaceForm, given: tuple[str, ...] | tuple[tuple[str, ...], ...]
) -> Positions:
    wheels = draft.lock.wheels
    if wheels is not None and wheels != len(given):
        draft.wrong("wheels-differ", "faces", wheels=wheels, found=len(given))
    return tuple(
        _formed(draft, form, _split(faces), ("faces", index)) for index, faces in enumerate(given)
    )


def _split(given: Sequence[object]) -> tuple[str, ...]:
    """Return faces one by one: a string holds a sign a face."""
    return signs(given) if isinstance(given, str) else tuple(map(str, given))


def _formed(
    draft: Draft, form: FaceForm, given: tuple[str, ...], path: tuple[str | int, ...]
) -> tuple[str, ...]:
    faces = [(raw, form(raw)) for raw in given]
    for raw, face in faces:
        if face is None:
            draft.wrong("bad-face", *path, face=raw)
    return distinct(draft, [face for _, face in faces if face is not None], path, len(given))


def distinct(
    draft: Draft, faces: list[str], path: tuple[str | int, ...], given: int
) -> tuple[str, ...]:
    """Return `faces`, having noted repeats and a position with a single face or none."""
    repeated = dict.fromkeys(face for face in faces if faces.count(face) > 1)
    if repeated:
        draft.wrong("repeated-face", *path, faces=tuple(repeated))
    if given < 2:
        draft.wrong("few-faces", *path, n=given)
    return tuple(dict.fromkeys(faces))


def length_of(draft: Draft, default: tuple[int, int]) -> tuple[int, int]:
    """Return the shortest and longest code, having noted a range that runs backwards."""
    low, high = draft.lock.length or default
    if low > high:
        draft.wrong("length-reversed", "length", low=low, high=high)
    return min(low, high), max(low, high)

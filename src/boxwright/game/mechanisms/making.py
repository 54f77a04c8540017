"""The mechanisms there are, and the way from a lock's file values to its device."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from importlib import import_module
from typing import Any, get_args

from boxwright.game.mechanisms.base import Mechanism
from boxwright.game.mechanisms.device import Code, Device, merged
from boxwright.game.mechanisms.shape import Draft
from boxwright.game.model import KitLock, LockMake, LockShape, MechanismName
from boxwright.game.spelling import WordIndex
from boxwright.problems import Problem, Refused, Where, refuse

NAMES: tuple[MechanismName, ...] = get_args(MechanismName)


def _load(name: str) -> Mechanism:
    module: Any = import_module(f"boxwright.game.mechanisms.{name.replace('-', '_')}")
    found: Mechanism = module.ENTRY
    return found


MECHANISMS: Mapping[str, Mechanism] = {name: _load(name) for name in NAMES}


def entry(of: Device | str) -> Mechanism:
    """Return the mechanism of a device, or of that name."""
    return MECHANISMS[of.mechanism if isinstance(of, Device) else of]


def device_of(
    lock: LockShape,
    where: Where,
    *,
    model: LockMake | None = None,
    model_where: Where | None = None,
) -> Device:
    """Return the device that a lock of a file is.

    `where` and `model_where` are the places of the lock's table and of its model's; each
    problem names the field below the one that says it. Raises Refused with all of them.
    """
    full = merged(model, lock) if isinstance(lock, KitLock) else lock
    draft = Draft(full, lock, where, model_where if model is not None else None)
    if full.mechanism is None:
        draft.wrong("none", choices=NAMES)
        refuse(*draft.problems)
    device = _shaped(draft, full.mechanism)
    return _with_own_codes(draft, device) if isinstance(full, KitLock) else device


def _shaped(draft: Draft, name: MechanismName) -> Device:
    lock, mechanism = draft.lock, MECHANISMS[name]
    for field in LockShape.model_fields:
        if field not in mechanism.fields | {"mechanism"} and getattr(lock, field) is not None:
            draft.wrong("field", field, field=field, fields=tuple(sorted(mechanism.fields)))
    positions, shortest = mechanism.positions(draft)
    if draft.problems:
        refuse(*draft.problems)
    return Device(
        name,
        positions,
        shortest,
        tolerance=lock.tolerance or 0,
        order_matters=lock.order_matters is not False,
        cheap=bool(getattr(lock, "cheap", None)),
        wrong_tries=getattr(lock, "wrong_tries", None) or 0,
        rest_s=getattr(lock, "rest_s", None) or 0,
    )


def _with_own_codes(draft: Draft, device: Device) -> Device:
    lock = draft.lock
    assert isinstance(lock, KitLock)
    has_codes = MECHANISMS[device.mechanism].alphabet(device) is not None
    if lock.fixed and lock.code is None and has_codes:
        draft.wrong("fixed-unknown", "code")
    if not lock.fixed and lock.code is not None:
        draft.wrong("code-unfixed", "code", found=lock.code)
    own = {"fixed": lock.code if lock.fixed else None, "shelf": lock.shelf_code}
    fields = {"fixed": "code", "shelf": "shelf_code"}
    codes: dict[str, Code] = {}
    for name, text in own.items():
        found = None if text is None else read_code(device, text, draft.at(fields[name]))
        if isinstance(found, Problem):
            draft.problems.append(found)
        elif found is not None:
            codes[name] = found
    if draft.problems:
        raise Refused(draft.problems)
    return replace(device, fixed=codes.get("fixed"), shelf=codes.get("shelf"))


def read_code(
    device: Device, text: str, where: Where, words: WordIndex | None = None
) -> Code | Problem:
    """Read a code as people type it, and hold it against what the device can show.

    `words`: where letter wheels look for near words, should this one not do.
    """
    mechanism = entry(device)
    code = mechanism.read(device, text, where)
    if isinstance(code, Problem):
        return code
    return mechanism.shows(device, code, where, words) or code

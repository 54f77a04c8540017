"""What a draft says, held against its session: groups, locks, clues and lines that there are."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from boxwright.choose.edition import Edition
from boxwright.game.hinting import LINES
from boxwright.live import events as said
from boxwright.live.drafts import Draft, check_draft
from boxwright.live.events import Event
from boxwright.live.noted import State
from boxwright.live.state import FOR_GOOD
from boxwright.problems import Problem, Where, refuse
from boxwright.text import nearest

DESKS_OWN = frozenset({"session.opened", "clock.moved"})
"""Types that no page sends."""


def hold(
    draft: Draft,
    data: said.Data,
    state: State,
    editions: Mapping[str, Edition],
    events: Sequence[Event],
) -> None:
    """Raise Refused where a draft speaks of what its session does not have.

    `editions` are the session's by group, `events` what has happened in it.
    """
    if draft.type in DESKS_OWN:
        refuse(Problem.of("live.desks-own", Where(draft.type), type=draft.type))
    group = getattr(data, "group", None)
    if group is not None:
        _one_of(draft, "group", group, editions)
        _hold_things(draft, data, editions[group])
    if isinstance(data, said.GroupJoined):
        _hold_group(draft, data, state, editions)
    elif isinstance(data, said.Undone):
        _hold_undoing(draft, data.event, events)
    elif isinstance(data, said.MishapMended):
        mishaps = [one.id for one in events if one.type == "mishap.noted"]
        if data.event not in mishaps:
            refuse(Problem.of("live.no-mishap", Where(draft.type, ("event",))))


def _hold_things(draft: Draft, data: said.Data, edition: Edition) -> None:
    game = edition.game
    for name, known in (("lock", game.locks), ("clue", game.clues), ("item", game.items)):
        thing = getattr(data, name, None)
        if thing is not None:
            _one_of(draft, name, thing, known)
    if isinstance(data, said.HintGiven) and data.line not in range(1, LINES + 1):
        where = Where(draft.type, ("line",))
        refuse(Problem.of("live.no-line", where, found=data.line, most=LINES))


def _one_of(draft: Draft, name: str, found: str, known: Iterable[str]) -> None:
    choices = tuple(known)
    if found in choices:
        return
    where, near = Where(draft.type, (name,)), nearest(found.lower(), choices)
    if not choices:
        refuse(Problem.of(f"live.none-{name}", where, found=found))
    code = f"live.no-{name}" if near is None else f"live.no-{name}-but"
    refuse(Problem.of(code, where, found=found, near=near or "", choices=choices))


def _hold_group(
    draft: Draft, data: said.GroupJoined, state: State, editions: Mapping[str, Edition]
) -> None:
    edition = editions[data.group].id
    if data.edition != edition:
        choices = (edition,)
        where = Where(draft.type, ("edition",))
        refuse(Problem.of("live.other-edition", where, found=data.edition, choices=choices))
    others = (one.name for one in state.groups.values() if one.id != data.group)
    _hold_name(data.name, others, Where(draft.type, ("name",)))


def _hold_name(name: str, others: Iterable[str], where: Where) -> None:
    """Raise Refused where another table has the same name."""
    if name.strip().casefold() in {other.strip().casefold() for other in others}:
        refuse(Problem.of("live.same-name", where, name=name))


def _hold_undoing(draft: Draft, event: str, events: Sequence[Event]) -> None:
    where = Where(draft.type, ("event",))
    found = next((one for one in events if one.id == event), None)
    if found is None:
        refuse(Problem.of("live.no-event", where))
    if found.type in FOR_GOOD:
        refuse(Problem.of("live.for-good", where, type=found.type))


def hold_opening(
    drafts: Sequence[Draft], editions: Mapping[str, Edition], names: Mapping[str, str]
) -> None:
    """Raise Refused where a session cannot be opened so."""
    where = Where("session.opened", ("groups",))
    if not names:
        refuse(Problem.of("live.no-groups", where))
    unknown = tuple(group for group in names if group not in editions)
    if unknown:
        refuse(Problem.of("live.no-edition", where, groups=unknown))
    for draft in drafts:
        check_draft(draft)
    for group, name in names.items():
        others = (other for one, other in names.items() if one != group)
        _hold_name(name, others, where)

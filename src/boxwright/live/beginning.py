"""From a printed set and the tables' names to a clock that runs.

Setting up opens a session before anybody plays. That one is begun if it still fits: the same
printed set, the same groups, the same purpose. Else a new one takes its place.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from boxwright.choose.edition import Edition
from boxwright.ledger.event import new_id
from boxwright.live.desk import Desk, no_forecast
from boxwright.live.drafts import Draft
from boxwright.live.events import Purpose
from boxwright.live.noted import State


def begin(
    desk: Desk,
    editions: Sequence[Edition],
    names: Mapping[str, str],
    planned_s: int,
    purpose: Purpose,
    device: str,
    *,
    forecast: Callable[[], Any] = no_forecast,
) -> str:
    """Return the session that plays now: one already in play, or one that begins with this.

    `names` are the tables' by group; `device` is where somebody said so; `forecast` is only
    worked out for a new one. Raises Refused as `Desk.open` does.
    """
    game = editions[0].game.id
    last = desk.last_unfinished(game)
    state = None if last is None else desk.state(last)
    if last is not None and state is not None and state.clock.status != "not-started":
        return last
    said = _Said(desk, device)
    wanted = {group: one.id for one in editions for group in one.groups if group in names}
    if last is not None and state is not None and _fits(state, wanted, purpose):
        said.renamed(last, state, names)
        said.extended(last, state, planned_s)
        session = last
    else:
        session = desk.open(editions, planned_s, names, purpose=purpose, forecast=forecast())
        if last is not None:
            said.says(last, "session.closed")
    said.says(session, "clock.started")
    return session


def _fits(state: State, wanted: Mapping[str, str], purpose: Purpose) -> bool:
    return dict(state.editions) == dict(wanted) and state.purpose == purpose


class _Said:
    """What one device says on a desk."""

    def __init__(self, desk: Desk, device: str) -> None:
        self.desk, self.device = desk, device

    def says(self, session: str, kind: str, **data: object) -> None:
        id = new_id(self.desk.clock.now().wall_ms)
        self.desk.take(session, Draft(kind, data, id, self.device, "teacher"))

    def renamed(self, session: str, state: State, names: Mapping[str, str]) -> None:
        """Give groups their new names; two that swap take a spare one on the way."""
        changed = {id: name for id, name in names.items() if state.groups[id].name != name}
        taken = {one.name for id, one in state.groups.items()}
        for id, name in changed.items():
            if name in taken:
                self._join(session, state, id, f"{id} {new_id(0)[-8:]}")
        for id, name in changed.items():
            self._join(session, state, id, name)

    def _join(self, session: str, state: State, group: str, name: str) -> None:
        edition = state.groups[group].edition
        self.says(session, "group.joined", group=group, name=name, edition=edition)

    def extended(self, session: str, state: State, planned_s: int) -> None:
        """Bring the time to play to what is planned now."""
        more = planned_s - state.clock.planned_s
        if more:
            self.says(session, "clock.extended", seconds=more)

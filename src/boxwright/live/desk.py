"""The desk: where what pages send becomes part of a session, and all others hear of it.

A draft is checked, kept in the ledger, and only then told to whoever listens. Several desks, in
several programs, may serve one session: each looks first what the others have kept.
"""

from __future__ import annotations

import logging
import threading
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from boxwright.choose.edition import Edition, edition_from_json, edition_json
from boxwright.ledger.event import new_id
from boxwright.ledger.store import Ledger, Session
from boxwright.live.clock import Clock, Instant
from boxwright.live.drafts import Draft, check_draft
from boxwright.live.events import Event, Purpose
from boxwright.live.holding import hold, hold_opening
from boxwright.live.noted import State
from boxwright.live.remarks import remark
from boxwright.live.state import advance, fold
from boxwright.problems import Message, Problem, Where, refuse

JUMP_MS = 2_000
"""A wall clock that leaves the counter by more than this has jumped; less is a time server."""
OWN = "desk"
"""The device and the rights that the desk's own events carry."""

Listener = Callable[[Event, State], None]
"""Called with each event, once it is kept, and the state that it leads to.

From whichever thread brought it, one event at a time and in order, so it should be quick.
"""


def no_forecast() -> None:
    """Stand in where nothing is foretold a session."""


@dataclass(frozen=True, slots=True)
class Taken:
    """An event as it was kept, and what its sender should be told."""

    event: Event
    note: Message | None = None


@dataclass(slots=True)
class _Sitting:
    """A session that is loaded."""

    editions: Mapping[str, Edition]
    events: list[Event]
    state: State
    listeners: list[Listener] = field(default_factory=list)


class Desk:
    """Opens and loads sessions, takes what is sent, and tells listeners; for many threads."""

    def __init__(self, ledger: Ledger, clock: Clock) -> None:
        """Work on `ledger`, by `clock`."""
        self.ledger, self.clock = ledger, clock
        self._sittings: dict[str, _Sitting] = {}
        self._glances: dict[str, State] = {}
        self._lock = threading.RLock()

    # opening and finding

    def open(
        self,
        editions: Sequence[Edition],
        planned_s: int,
        names: Mapping[str, str],
        *,
        purpose: Purpose = "class",
        forecast: Any = None,
    ) -> str:
        """Open a session for the groups that `names` names, and return its id.

        `editions` are those of one play; a name is that of a table, by the group's id.
        """
        by_group = {group: one for one in editions for group in one.groups if group in names}
        now = self.clock.now()
        id, opened = f"s-{new_id(now.wall_ms)}", {one: e.id for one, e in by_group.items()}
        data = {"editions": opened, "planned_s": planned_s, "purpose": purpose}
        drafts = [_own("session.opened", data | {"forecast": forecast}, now)]
        for group, name in names.items():
            what = {"group": group, "name": name, "edition": opened.get(group, "")}
            drafts.append(_own("group.joined", what, now))
        hold_opening(drafts, by_group, names)
        kept = {edition.id: edition_json(edition) for edition in by_group.values()}
        game = next(iter(by_group.values())).game.id
        self.ledger.begin(id, game, kept, *(_event(id, draft, now) for draft in drafts))
        return id

    def sessions(self, game: str | None = None) -> tuple[Session, ...]:
        """Return all sessions, or those of one game, the newest first."""
        return self.ledger.sessions(game)

    def last_unfinished(self, game: str) -> str | None:
        """Return the id of the newest session of a game that nobody closed."""
        open_ones = (one.id for one in self.sessions(game) if not self.glance(one).closed)
        return next(open_ones, None)

    def forget(self, session: str) -> None:
        """Remove a session for good; see `Ledger.forget`."""
        with self._lock:
            self._sittings.pop(session, None)
            self._glances.pop(session, None)
            self.ledger.forget(session)

    # what is known

    def state(self, session: str) -> State:
        """Return how a session stands; raises Refused where there is none."""
        with self._lock:
            return self._caught_up(session).state

    def glance(self, listed: Session) -> State:
        """Return how a session of a list stands, without what it plays; see `state`.

        The ledger is asked only where it has more of it than is known here.
        """
        with self._lock:
            sitting = self._sittings.get(listed.id)
            known = self._glances.get(listed.id) if sitting is None else sitting.state
            if known is not None and known.seq >= listed.events:
                return known
            if sitting is not None:
                return self._caught_up(listed.id).state
            found = self._glances[listed.id] = fold(self.ledger.events(listed.id))
            return found

    def editions(self, session: str) -> Mapping[str, Edition]:
        """Return the edition that each group of a session plays."""
        with self._lock:
            return self._sitting(session).editions

    def events(self, session: str, after: int = 0) -> tuple[Event, ...]:
        """Return what happened in a session, in order, after the event numbered `after`."""
        with self._lock:
            return tuple(one for one in self._caught_up(session).events if one.seq > after)

    def listen(self, session: str, listener: Listener) -> Callable[[], None]:
        """Tell `listener` of each event to come; call what is returned to end that.

        Take the state after this: what is numbered up to its `seq` is in it already.
        """
        with self._lock:
            listeners = self._sitting(session).listeners
            listeners.append(listener)

        def end() -> None:
            with self._lock:
                if listener in listeners:
                    listeners.remove(listener)

        return end

    # taking

    def take(self, session: str, draft: Draft) -> Taken:
        """Keep what a page sends, tell all listeners, and return it with a note for its sender.

        A draft that came before is kept once. Raises Refused, and keeps nothing, where it is not
        as it must be or speaks of what the session does not have.
        """
        data = check_draft(draft)
        with self._lock:
            sitting = self._caught_up(session)
            event = next((one for one in sitting.events if one.id == draft.id), None)
            if event is not None:
                before = fold(sitting.events[: event.seq - 1])
            else:
                hold(draft, data, sitting.state, sitting.editions, sitting.events)
                event, before = self._keep(session, sitting, draft)
            earlier = sitting.events[: event.seq - 1]
            return Taken(event, remark(event, data, before, earlier, sitting.editions))

    def _keep(self, session: str, sitting: _Sitting, draft: Draft) -> tuple[Event, State]:
        """Keep a draft, and return its event with the state that it came upon.

        A jump of the wall clock goes before it.
        """
        now = self.clock.now()
        change = jump_ms(sitting.events[-1], now)
        if change and sitting.state.clock.status == "running":
            jump = _own("clock.moved", {"wall_change_ms": change}, now)
            self.ledger.append(_event(session, jump, now))
        event, before = self.ledger.append(_event(session, draft, now)), sitting.state
        if event.session != session:
            refuse(Problem.of("live.id-taken", Where(draft.type)))
        for was, one in self._follow(session, sitting):
            before = was if one.id == event.id else before
        return event, before

    # one fold in memory

    def _sitting(self, session: str) -> _Sitting:
        """Return a session, loaded from the ledger if need be."""
        if session not in self._sittings:
            events = list(self.ledger.events(session))
            if not events:
                refuse(Problem.of("live.no-session", Where(session[:60]), session=session[:60]))
            kept = self.ledger.editions(session)
            made = {id: edition_from_json(content) for id, content in kept.items()}
            by_group = {group: made[id] for group, id in events[0].data["editions"].items()}
            self._sittings[session] = _Sitting(by_group, events, fold(events))
        return self._sittings[session]

    def _caught_up(self, session: str) -> _Sitting:
        """Return a session with all that is in the ledger by now."""
        sitting = self._sitting(session)
        for _ in self._follow(session, sitting):
            pass
        return sitting

    def _follow(self, session: str, sitting: _Sitting) -> Iterator[tuple[State, Event]]:
        """Take up what is new in the ledger and tell it; yield each state and what came upon it."""
        for event in self.ledger.events(session, after=sitting.state.seq):
            before = sitting.state
            sitting.state = advance(before, sitting.events, event)
            sitting.events.append(event)
            for listener in tuple(sitting.listeners):
                _tell(listener, event, sitting.state)
            yield before, event


def _tell(listener: Listener, event: Event, state: State) -> None:
    """Call a listener; one that fails spoils it for nobody else, and the event is kept anyway."""
    try:
        listener(event, state)
    except Exception:
        logging.getLogger(__name__).exception("%s %s", event.type, event.id)


def jump_ms(last: Event, now: Instant) -> int:
    """Return how far the wall clock jumped since `last`; 0 where it did not, or nobody can tell."""
    change = now.offset_ms - Instant.of(last).offset_ms
    return change if last.boot == now.boot and abs(change) > JUMP_MS else 0


def _own(kind: str, data: Mapping[str, Any], now: Instant) -> Draft:
    """Return a draft of the desk's own."""
    return Draft(kind, data, new_id(now.wall_ms), OWN, OWN)


def _event(session: str, draft: Draft, now: Instant) -> Event:
    return Event(
        id=draft.id,
        session=session,
        type=draft.type,
        wall=now.wall,
        since_boot_ms=now.since_boot_ms,
        boot=now.boot,
        device=draft.device,
        rights=draft.rights,
        data=draft.data,
        happened_ms=min(draft.happened_ms, 0),
    )

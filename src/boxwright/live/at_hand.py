"""Which session a printed set is at: one that is being prepared or played, or none yet.

Setting up and the hour itself belong to one session, on however many pages they are shown. Whoever
comes first opens it.
"""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator, Sequence
from typing import Any

from boxwright.choose.edition import Edition
from boxwright.live.desk import Desk, no_forecast
from boxwright.live.noted import State
from boxwright.messages import words
from boxwright.problems import say

_OPENING = threading.Lock()


def at_hand(desk: Desk, editions: Sequence[Edition]) -> str | None:
    """Return the newest session of these printed sets that is neither closed nor over.

    `editions` are all those of one play.
    """
    found = (id for id, state in sessions_of(desk, editions) if not over(state))
    return next(found, None)


def prepared(
    desk: Desk, editions: Sequence[Edition], forecast: Callable[[], Any] = no_forecast
) -> str:
    """Return the session at hand; where there is none, open one for all groups and return it.

    `forecast` is only worked out for a new one.
    """
    with _OPENING:  # two tablets may begin at the same moment
        found = at_hand(desk, editions)
        if found is not None:
            return found
        play_s = editions[0].game.time.play_s
        names = usual_names(editions)
        return desk.open(editions, max(play_s, 1), names, forecast=forecast())


def played_before(desk: Desk, editions: Sequence[Edition]) -> bool:
    """Tell whether these printed sets were played to an end, so that they lie as a class left them.

    That counts no longer once another session of theirs has begun to play.
    """
    played = (over(state) for _, state in sessions_of(desk, editions) if state.clock.runs)
    return next(played, False)


def over(state: State) -> bool:
    """Tell whether a session is done with: closed, or its time ended."""
    return state.closed or state.clock.status == "ended"


def sessions_of(desk: Desk, editions: Sequence[Edition]) -> Iterator[tuple[str, State]]:
    """Yield the sessions that play just these editions, the newest first."""
    wanted = {edition.id for edition in editions}
    for session in desk.ledger.sessions(editions[0].game.id, editions[0].id):
        state = desk.glance(session)
        if set(state.editions.values()) <= wanted:
            yield session.id, state


def usual_names(editions: Sequence[Edition]) -> dict[str, str]:
    """Return a name for each group's table, as long as nobody gives it another."""
    languages = {group: one.game.language for one in editions for group in one.groups}
    return {
        group: words(say("live.table", group=group), languages[group])
        for group in sorted(languages, key=_rank)
    }


def _rank(group: str) -> tuple[int, str]:
    return len(group), group

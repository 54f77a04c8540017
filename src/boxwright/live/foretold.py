"""What a session's tables were expected to take, kept in its first event, and what came of it.

From the tenth to the ninetieth of a hundred groups is the band that most tables are told: a
forecast that is as sure as it says has eight tables of ten end within it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from boxwright.build.forecasting import outlook
from boxwright.choose.edition import Edition
from boxwright.forecast.network import TooManyError
from boxwright.forecast.parameters import Parameters
from boxwright.ledger.store import Ledger
from boxwright.live.noted import Group, State
from boxwright.live.observed import Known, counts, editions_of, kinds_of, observed
from boxwright.live.state import fold
from boxwright.live.table import table_of
from boxwright.problems import Refused, plain


@dataclass(frozen=True, slots=True)
class Coverage:
    """Of `told` tables, how many ended within what was foretold them.

    `open`: tables of which that cannot be said, since time was over before they ended.
    """

    within: int
    told: int
    open: int


def foretold(
    ledger: Ledger, editions: Sequence[Edition], parameters: Parameters
) -> Mapping[str, Any]:
    """Return what `session.opened` keeps: by edition, when it ends and each clue is done.

    An edition that cannot be forecast is not there.
    """
    seen, kept = observed(ledger, kinds_of(editions), parameters), {}
    for edition in editions:
        try:
            told = outlook(edition, seen, parameters)
        except (Refused, TooManyError):
            continue
        clues = {clue.name: plain(clue.closes) for clue in told.clues}
        kept[edition.id] = {"finish_s": plain(told.finish), "clues": clues}
    return kept


def coverage(ledger: Ledger, game: str) -> Coverage:
    """Return how the sessions of a game ended, held against what was foretold them."""
    known: Known = {}
    verdicts = [
        one for session in ledger.sessions(game) for one in _of_session(ledger, session.id, known)
    ]
    told = [verdict for verdict in verdicts if verdict is not None]
    return Coverage(sum(told), len(told), len(verdicts) - len(told))


def _of_session(ledger: Ledger, session: str, known: Known) -> Iterator[bool | None]:
    """Yield for each table that something was foretold whether it ended within that."""
    events = ledger.events(session)
    state = fold(events)
    kept = events[0].data.get("forecast") if events else None
    if not isinstance(kept, Mapping) or not counts(state) or state.clock.status != "ended":
        return
    editions = editions_of(ledger, session, known)
    for group in state.groups.values():
        edition, told = editions.get(group.edition), kept.get(group.edition)
        if edition is not None and told is not None and told["finish_s"]["p10"] is not None:
            yield _within(state, group, edition, told["finish_s"])


def _within(
    state: State, group: Group, edition: Edition, told: Mapping[str, float | None]
) -> bool | None:
    """Tell whether a table ended in the band; None where time was over in the midst of it."""
    low, high = told["p10"] or 0.0, told["p90"]
    ended = _ended_s(group, edition)
    if ended is not None:
        return low <= ended and (high is None or ended <= high)
    played = state.clock.length_ms / 1000
    return False if high is not None and played > high else None


def _ended_s(group: Group, edition: Edition) -> float | None:
    """Return when a table had what wins, or was said to have won."""
    won = table_of(group, edition).won_ms
    if won is None and group.finished is not None and group.finished.outcome == "won":
        won = group.finished.deed.at_ms
    return None if won is None else won / 1000

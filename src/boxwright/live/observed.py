"""What the sessions of a ledger showed of clues: how long each one took each table.

Left out are sessions marked broken, those to try a game out, clues that a mishap befell, and
what opened sooner than hands can: there a tap came late, or somebody guessed. A clue that a
table was at when its time was over took longer than that.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, TypeAlias

from boxwright.build.forecasting import expected_of, subjects_of
from boxwright.choose.edition import Edition, edition_from_json
from boxwright.forecast.network import TooManyError
from boxwright.forecast.parameters import Parameters
from boxwright.ledger.store import Ledger
from boxwright.live.noted import Group, State
from boxwright.live.state import fold
from boxwright.live.table import ClueView, Table, table_of
from boxwright.problems import Refused

if TYPE_CHECKING:
    from boxwright.forecast.learning import Observation

Known: TypeAlias = dict[str, Edition | None]

MINUTE_MS = 60_000
LEAST_MS = 10_000
"""What was done sooner than this after it could be begun tells nothing of solving."""


def observed(
    ledger: Ledger, kinds: Collection[str], parameters: Parameters
) -> tuple[Observation, ...]:
    """Return what sessions of any game showed of clues of these kinds, the newest first."""
    expected = _Expected(parameters)
    return tuple(
        one
        for session in ledger.sessions()
        for one in _of_session(ledger, session.id, expected)
        if one.subject.kind in kinds
    )


def kinds_of(editions: Iterable[Edition]) -> frozenset[str]:
    """Return the kinds of all clues of some editions."""
    return frozenset(clue.kind for one in editions for clue in one.game.clues.values())


def counts(state: State) -> bool:
    """Tell whether a session may teach anything."""
    return state.purpose == "class" and state.broken is None


def editions_of(ledger: Ledger, session: str, known: Known) -> Mapping[str, Edition]:
    """Return the editions of a session by id, without those that this version cannot read.

    Those that several sessions share are read once: they are kept in `known`.
    """
    kept = ledger.editions(session)
    for id in kept.keys() - known.keys():
        try:
            known[id] = edition_from_json(kept[id])
        except Refused:
            known[id] = None
    shared = {id: known[id] for id in kept}
    return {id: edition for id, edition in shared.items() if edition is not None}


class _Expected:
    """The minutes that clues of an edition are expected to take, worked out once for each."""

    def __init__(self, parameters: Parameters) -> None:
        self.parameters, self.known = parameters, dict[str, Mapping[str, float]]()
        self.editions: Known = {}

    def of(self, edition: Edition) -> Mapping[str, float]:
        if edition.id not in self.known:
            try:
                self.known[edition.id] = expected_of(edition, self.parameters)
            except (Refused, TooManyError):
                self.known[edition.id] = {}
        return self.known[edition.id]


def _of_session(ledger: Ledger, session: str, expected: _Expected) -> Iterator[Observation]:
    state = fold(ledger.events(session))
    if not counts(state):
        return
    editions = editions_of(ledger, session, expected.editions)
    for group in state.groups.values():
        edition = editions.get(group.edition)
        if edition is not None and (group.opened or group.found):
            table = table_of(group, edition)
            yield from of_group(state, session, group, edition, table, expected.of(edition))


def of_group(
    state: State,
    session: str,
    group: Group,
    edition: Edition,
    table: Table,
    expected: Mapping[str, float],
) -> Iterator[Observation]:
    """Yield what one `table` showed; `expected` are the minutes that its clues would take."""
    from boxwright.forecast.learning import Observation

    subjects, over = subjects_of(edition), _over_ms(state, group, table)
    for id, clue in table.clues.items():
        done = clue.solved_ms is not None
        until = clue.solved_ms if done else over
        took = None if until is None else _took_ms(clue, until)
        if until is None or took is None or not expected.get(id):
            continue
        if not _befell(state, group, edition, id):
            minutes, hints = took / MINUTE_MS, _hints(group, clue, until)
            yield Observation(subjects[id], session, group.id, minutes, expected[id], hints, done)


def _over_ms(state: State, group: Group, table: Table) -> int | None:
    """Return when time was over for a table in the midst of its game; None where it was not.

    Of one that won nobody knows what else it would have done; of one whose game is not over yet
    nothing can be said.
    """
    outcome = group.finished.outcome if group.finished is not None else None
    if table.won or outcome == "won":
        return None
    if group.finished is not None:
        return group.finished.deed.at_ms
    return state.clock.length_ms if state.clock.status == "ended" else None


def _took_ms(clue: ClueView, until: int) -> int | None:
    """Return how long a clue took from when it could be begun; None where that tells nothing."""
    took = None if clue.ready_ms is None else until - clue.ready_ms
    return took if took is not None and took >= LEAST_MS else None


def _hints(group: Group, clue: ClueView, until: int) -> tuple[float, ...]:
    """Return after how many minutes hints were given, before it was done."""
    ready = clue.ready_ms or 0
    given = (one.deed.at_ms for one in group.hints if one.clue == clue.id)
    return tuple(max(at - ready, 0) / MINUTE_MS for at in given if at <= until)


def _befell(state: State, group: Group, edition: Edition, id: str) -> bool:
    """Tell whether a mishap befell a clue, what it gives or what it needs, at this table."""
    clue = edition.game.clues[id]
    things = {id, clue.gives, *clue.needs}
    return any(one.thing in things and one.group in (None, group.id) for one in state.mishaps)

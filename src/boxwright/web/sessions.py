"""The sessions of a game for its pages: the one in play, one that was played, a table close by."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from fastapi import HTTPException

from boxwright.build.current import current_editions
from boxwright.build.parameters import parameters_of
from boxwright.choose.edition import Edition
from boxwright.forecast.parameters import Parameters
from boxwright.problems import Refused
from boxwright.web.at_table import Close, close
from boxwright.web.game import Game
from boxwright.web.playing import Playing

if TYPE_CHECKING:
    from boxwright.live.desk import Desk
    from boxwright.live.helping import Help

HELP_S = 20
"""So long what a hint would help is not asked anew while nothing happens."""


def game_id(game: Game) -> str:
    """Return the id under which a game's sessions are kept.

    A game in play stays in reach when its files get a fault: its printed set knows the id, too.
    """
    if not game.faults:
        return game.folder.game.game.id
    kept = current_editions(game.path)
    if not kept:
        raise Refused(game.faults)
    return kept[0].game.id


def unfinished(desk: Desk, game: Game) -> Playing | None:
    """Return the newest session of a game that nobody closed; it may be in preparation."""
    session = desk.last_unfinished(game_id(game))
    return None if session is None else _playing(desk, session)


def in_play(desk: Desk, game: Game) -> Playing | None:
    """Return the session of a game whose clock was started and that nobody closed."""
    found = unfinished(desk, game)
    started = found is not None and found.state.clock.status != "not-started"
    return found if started else None


def playing_of(desk: Desk, game: Game, session: str) -> Playing:
    """Return one session of a game; 404 for one of another game, Refused where there is none."""
    found = _playing(desk, session)
    if found.edition.game.id != game_id(game):
        raise HTTPException(404)
    return found


def _playing(desk: Desk, session: str) -> Playing:
    return Playing(session, desk.state(session), desk.editions(session))


def forecast_for(
    desk: Desk, game: Game, editions: Sequence[Edition]
) -> Callable[[], Mapping[str, Any]]:
    """Return what works out the forecast that a new session of a game keeps."""

    def told() -> Mapping[str, Any]:
        from boxwright.live.foretold import foretold  # late: it brings NumPy along

        return foretold(desk.ledger, editions, parameters_in(game))

    return told


def parameters_in(game: Game) -> Parameters:
    """Return a game's own numbers for forecasts; the usual ones where its files have faults."""
    return Parameters() if game.faults else parameters_of(game.folder.game)


def help_in(desk: Desk, game: Game, playing: Playing) -> Help:
    """Return which table of a session a hint would help most as it stands now."""
    from boxwright.live.helping import Helper  # late: it brings NumPy along

    recall, editions = game.studio.memory.recall, playing.editions
    of = (game.path, game.tag, playing.session, *(one.id for one in editions.values()))
    helper = recall(("helper", *of), lambda: Helper(editions, parameters_in(game)))
    now = desk.clock.now()
    moment = (playing.state.seq, playing.state.clock.played_s(now) // HELP_S)
    return recall(("help", *of, *moment), lambda: helper.help(playing.state, now))


def close_to(desk: Desk, game: Game, session: str, group: str) -> Close:
    """Return a group's edition for a close look; 404 where there is no such group.

    Raises Refused where the game's files have faults: pictures and locks stand in there.
    """
    edition = desk.editions(session).get(group)
    if edition is None:
        raise HTTPException(404)
    key = ("close", game.path, game.tag, edition.id, group)
    return game.studio.memory.recall(key, lambda: close(game.folder, edition, group))

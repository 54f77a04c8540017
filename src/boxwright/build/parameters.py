"""The forecast's numbers as a game sets them: `[forecast]` of game.toml, held against their names.

Game files know no forecast, and the forecast no files, so that both meet here.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from boxwright.forecast.parameters import KNOWN, Parameter, Parameters
from boxwright.game.draft import GAME, Draft
from boxwright.game.faults import shown
from boxwright.game.model import GameFile
from boxwright.problems import Edit, Problem, Where
from boxwright.text import nearest

TABLE = "forecast"


def parameters_of(game: GameFile) -> Parameters:
    """Return the forecast's parameters as a game without faults sets them."""
    return Parameters(given_in(game))


def given_in(game: GameFile) -> Mapping[str, float]:
    """Return what a game sets, by whole names such as `hint.after`."""
    return {".".join(path): value for path, value in _set(game)}


def parameter_faults(draft: Draft) -> Iterator[Problem]:
    """Yield a Problem for each name that is unknown or there twice, and each senseless value."""
    first: dict[str, Where] = {}
    for path, value in _set(draft.game):
        where, name = draft.where(GAME, (TABLE, *path)), ".".join(path)
        if first.setdefault(name, where) != where:
            line, edit = first[name].line or 0, Edit(where.file, where.path)
            yield Problem.of("forecast.set-twice", where, edit=edit, name=name, line=line)
        known = KNOWN.get(name)
        problem = _unknown(name, where) if known is None else _beyond(known, value, where)
        if problem is not None:
            yield problem


def _set(game: GameFile) -> Iterator[tuple[tuple[str, ...], float]]:
    """Yield the numbers of the table with their paths: a name in quotation marks is one step."""
    for key, value in game.forecast.items():
        if isinstance(value, dict):
            yield from (((key, rest), one) for rest, one in value.items())
        else:
            yield (key,), value


def _unknown(name: str, where: Where) -> Problem:
    near, family = nearest(name, KNOWN), f"{name.partition('.')[0]}."
    if near is None:
        beginnings = dict.fromkeys(f"{one.partition('.')[0]}.…" for one in KNOWN)
        members = tuple(one for one in KNOWN if one.startswith(family))
        choices = members or tuple(beginnings)
        return Problem.of("folder.unknown-key", where, key=name, table=TABLE, choices=choices)
    alike = near.startswith(family) and len(where.path) > len((TABLE, name))
    edit = Edit(where.file, where.path, key=near.removeprefix(family)) if alike else None
    return Problem.of("folder.unknown-key-but", where, edit=edit, key=name, table=TABLE, near=near)


def _beyond(known: Parameter, value: float, where: Where) -> Problem | None:
    if known.least <= value <= known.limit:
        return None
    low = value < known.least
    code, limit = ("greater", known.least) if low else ("less", known.limit)
    code, path = f"folder.{code}-than-equal", f"{TABLE}.{known.name}"
    return Problem.of(code, where, path=path, limit=f"{limit:g}", found=shown(value))

"""Is this name known, and is it a thing of the right sort? With the nearest that is."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from boxwright.game.draft import GAME, Draft, Sort
from boxwright.game.model import ANY_PLACE, ID_PATTERN, START, TABLE, PlaceWish
from boxwright.game.placeholders import names_in, stray_brace
from boxwright.problems import Arg, Edit, Path, Problem, Where, say
from boxwright.text import nearest

THINGS: tuple[Sort, ...] = ("box", "lock", "item", "clue")
NAMED: tuple[Sort, ...] = ("box", "item", "place")
"""What has a name that a text can print."""


def expect(
    draft: Draft, path: Path, name: str, *sorts: Sort, is_key: bool = False
) -> Iterator[Problem]:
    """Yield a Problem unless `name`, which stands at `path`, is a thing of one of `sorts`."""
    sort = draft.sorts.get(name)
    if sort in (*sorts, "unsure"):
        return
    where, wanted = draft.where(GAME, path), tuple(say(f"game.sort.{one}") for one in sorts)
    known = draft.named(*sorts)
    if sort is not None:
        found = say(f"game.sort.{sort}")
        choices: tuple[Arg, ...] = known or (say("game.none-yet"),)
        yield Problem.of(
            "game.wrong-thing", where, name=name, found=found, wanted=wanted, choices=choices
        )
    else:
        yield unknown(where, name, known, wanted, (path, is_key))


def unknown(
    where: Where,
    name: str,
    known: Iterable[str],
    wanted: tuple[Arg, ...],
    at: tuple[Path, bool] | None,
) -> Problem:
    """Return the Problem that nothing is called `name`, with the nearest name that is.

    `at` is the path where the name stands alone, and whether it is a key there.
    """
    known = tuple(known)
    near = nearest(name, known)
    if near is None:
        choices: tuple[Arg, ...] = known or (say("game.none-yet"),)
        return Problem.of("game.unknown-name", where, name=name, wanted=wanted, choices=choices)
    edit = None
    if at is not None:
        edit = Edit(GAME, at[0], key=near) if at[1] else Edit(GAME, at[0], near)
    return Problem.of(
        "game.unknown-name-but", where, edit=edit, name=name, wanted=wanted, near=near
    )


def wishes_of(place: PlaceWish) -> tuple[str, ...]:
    """Return the wishes of a place, first wish first."""
    return (place,) if isinstance(place, str) else place


def place_names(draft: Draft, path: Path, place: PlaceWish, *, here: bool) -> Iterator[Problem]:
    """Yield a Problem for each wish that no room could meet.

    A place that this room lacks may be another room's: it passes where more wishes
    follow, where no room is given, or where the wish is not for this room (`here`).
    `arrange` settles what is left.
    """
    if not wishes_of(place):
        yield Problem.of("game.no-wish", draft.where(GAME, path))
    sure = here and draft.room is not None and isinstance(place, str)
    for number, wish in enumerate(wishes_of(place)):
        at = path if isinstance(place, str) else (*path, number)
        yield from _wish(draft, at, wish, sure=sure)


def _wish(draft: Draft, path: Path, wish: str, *, sure: bool) -> Iterator[Problem]:
    if wish in (TABLE, START):
        return
    name = wish.removeprefix(ANY_PLACE)
    if re.fullmatch(ID_PATTERN, name) is None:
        yield _odd_wish(draft, path, wish)
    elif name == wish and (sure or wish in draft.sorts):
        yield from expect(draft, path, wish, "box", "place")


def _odd_wish(draft: Draft, path: Path, wish: str) -> Problem:
    where, said = draft.where(GAME, path), wish.casefold()
    rooms = draft.room.places if draft.room is not None else {}
    names = [(id, box.name) for id, box in draft.game.boxes.items()]
    names += [(id, place.name) for id, place in rooms.items()]
    named = [id for id, name in names if said in (name.casefold(), id)]
    if len(named) == 1:
        edit = Edit(GAME, path, named[0])
        return Problem.of("game.named-wish", where, edit=edit, wish=wish, id=named[0])
    return Problem.of("game.odd-wish", where, wish=wish)


def text_names(draft: Draft, path: Path, text: str) -> Iterator[Problem]:
    """Yield a Problem for each `{id}` of `text` that has no name to print."""
    where = draft.where(GAME, path)
    if stray_brace(text) is not None:
        yield Problem.of("game.stray-brace", where)
    for name in names_in(text):
        sort = draft.sorts.get(name)
        if sort in ("lock", "clue"):
            yield Problem.of("game.nameless", where, name=name, found=say(f"game.sort.{sort}"))
        elif sort is None and not (draft.room is None and re.fullmatch(ID_PATTERN, name)):
            wanted = tuple(say(f"game.sort.{one}") for one in NAMED)
            yield unknown(where, name, draft.named(*NAMED), wanted, None)

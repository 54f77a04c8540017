"""Names in the clues, their versions and the story of game.toml."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from boxwright.game.draft import GAME, SECTIONS, Draft
from boxwright.game.inside import inside
from boxwright.game.model import Ask, Clue, RoomFile, Version, When
from boxwright.game.names import THINGS, expect, place_names, text_names, unknown
from boxwright.problems import Path, Problem, say

CONTENT = "content"


def clue_faults(draft: Draft) -> Iterator[Problem]:
    """Yield what is wrong with names in clues and their versions."""
    for id, clue in draft.game.clues.items():
        yield from _gives(draft, id, clue)
        for number, goal in enumerate(clue.goals):
            yield from _goal(draft, ("clues", id, "goals", number), goal)
        for name, version in clue.versions.items():
            yield from _version(draft, id, ("clues", id, "versions", name), version)


def _gives(draft: Draft, id: str, clue: Clue) -> Iterator[Problem]:
    path = ("clues", id, "gives")
    lock = draft.game.locks.get(clue.gives)
    if lock is not None and lock.mechanism == "key":
        where = draft.where(GAME, path)
        yield Problem.of("game.gives-key-lock", where, id=clue.gives, item=lock.opened_by or "…")
    elif draft.room is not None or clue.gives in draft.sorts:
        yield from expect(draft, path, clue.gives, "lock", "item", "place")


def _goal(draft: Draft, path: Path, goal: str) -> Iterator[Problem]:
    goals = draft.raw(GAME, "goals")
    if goal not in goals:
        wanted = (say("game.sort.goal"),)
        yield unknown(draft.where(GAME, path), goal, goals, wanted, (path, False))


def applies(version: Version, room: RoomFile | None) -> bool:
    """Tell whether `version` is for the room's setting and facilities; no room: unless bound."""
    if room is None:
        return not version.rooms and not version.facilities
    setting_fits = not version.rooms or room.room.setting in version.rooms
    return setting_fits and set(version.facilities) <= set(room.room.facilities)


def _version(draft: Draft, clue: str, path: Path, version: Version) -> Iterator[Problem]:
    here = applies(version, draft.room)
    yield from place_names(draft, (*path, "place"), version.place, here=here)
    for part, place in version.parts.items():
        yield from place_names(draft, (*path, "parts", part), place, here=here)
    if version.on is not None:
        yield from _on(draft, clue, (*path, "on"), version.on)
    for number, name in enumerate(version.needs):
        yield from expect(draft, (*path, "needs", number), name, "item")
    for number, hint in enumerate(version.hints or ()):
        yield from text_names(draft, (*path, "hints", number), hint)
    yield from _adds(draft, path, version)
    yield from _drops(draft, clue, path, version)
    yield from _moves(draft, path, version)
    yield from _content(draft, path, version)


def _on(draft: Draft, clue: str, path: Path, host: str) -> Iterator[Problem]:
    if host == clue:
        yield Problem.of("game.on-itself", draft.where(GAME, path), clue=clue)
    else:
        yield from expect(draft, path, host, "clue")


def _adds(draft: Draft, path: Path, version: Version) -> Iterator[Problem]:
    for number, name in enumerate(version.adds):
        at = (*path, "adds", number)
        yield from expect(draft, at, name, *THINGS)
        thing, section = _thing(draft, name)
        if thing is not None and not thing.optional:
            yield Problem.of("game.adds-present", draft.where(GAME, at), id=name, section=section)


def _thing(draft: Draft, id: str) -> tuple[Any, str]:
    for section in SECTIONS:
        thing = getattr(draft.game, section).get(id)
        if thing is not None:
            return thing, section
    return None, ""


def _drops(draft: Draft, clue: str, path: Path, version: Version) -> Iterator[Problem]:
    for number, name in enumerate(version.drops):
        at = (*path, "drops", number)
        if name == clue:
            yield Problem.of("game.drops-itself", draft.where(GAME, at), clue=clue)
        elif name in version.adds:
            yield Problem.of("game.adds-and-drops", draft.where(GAME, at), id=name)
        else:
            yield from expect(draft, at, name, *THINGS)


def _moves(draft: Draft, path: Path, version: Version) -> Iterator[Problem]:
    for thing, target in version.moves.items():
        at = (*path, "moves", thing)
        yield from expect(draft, at, thing, "box", "lock", "item", is_key=True)
        if draft.sorts.get(thing) == "lock":
            yield from expect(draft, at, target, "box")
        elif thing == target:
            yield Problem.of("game.moves-into-itself", draft.where(GAME, at), id=thing)
        else:
            yield from place_names(draft, at, target, here=applies(version, draft.room))


def _content(draft: Draft, path: Path, version: Version) -> Iterator[Problem]:
    for at, name in content_files(path, version):
        found = inside(draft.path / CONTENT, name, draft.where(GAME, at), f"{CONTENT}/")
        if isinstance(found, Problem):
            yield found


def content_files(path: Path, version: Version) -> Iterator[tuple[Path, str]]:
    """Yield each file of content that `version`, which stands at `path`, names, and where."""
    if isinstance(version.content, str):
        yield (*path, "content"), version.content
    for table, name in version.content.items() if isinstance(version.content, dict) else ():
        yield (*path, "content", table), name


# The story.


def story_faults(draft: Draft) -> Iterator[Problem]:
    """Yield what is wrong with names in the story and the debrief."""
    story = draft.game.story
    for part in ("opening", "closing", "unfinished"):
        for number, told in enumerate(getattr(story, part)):
            yield from _paragraph(draft, ("story", part, number), told)
    for number, ask in enumerate(story.debrief):
        yield from _ask(draft, ("story", "debrief", number), ask)


def _paragraph(draft: Draft, path: Path, told: str | When) -> Iterator[Problem]:
    if isinstance(told, str):
        yield from text_names(draft, path, told)
        return
    if draft.room is not None or told.when in draft.sorts:
        yield from expect(draft, (*path, "when"), told.when, *THINGS, "place")
    yield from text_names(draft, (*path, "text"), told.text)


def _ask(draft: Draft, path: Path, ask: Ask) -> Iterator[Problem]:
    if ask.goal is not None:
        yield from _goal(draft, (*path, "goal"), ask.goal)
    yield from text_names(draft, (*path, "ask"), ask.ask)

"""From a game folder and a teacher's wishes to games as they will be played.

Versions are chosen for each group, their consequences followed, places settled and
texts filled in. What comes out mentions neither versions nor anything optional.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from boxwright.game.arranged import (
    Answers,
    Arranged,
    ArrangedBox,
    ArrangedClue,
    ArrangedGame,
    ArrangedItem,
    ArrangedLock,
    Question,
    Sharing,
    TimePlan,
    Told,
)
from boxwright.game.choosing import Chosen, Wishes, choose, group_names, wish_faults
from boxwright.game.draft import GAME, ROOM
from boxwright.game.folder import Folder, Problems, in_order
from boxwright.game.in_play import InPlay, absent_faults, hosts_of, settle
from boxwright.game.model import LockShape, Time, When
from boxwright.game.placeholders import filled, names_in
from boxwright.game.placing import place_all
from boxwright.game.telling import name_of
from boxwright.problems import Path, Problem

__all__ = ["Wishes", "arrange"]

SECONDS = 60


def arrange(folder: Folder, wishes: Wishes | None = None) -> Arranged | Problems:
    """Return the game of each group as `wishes` want it, or everything that bars it.

    Groups that come to the same game share one; nothing asked gives every group the
    ordinary game.
    """
    wishes = wishes or Wishes()
    groups = group_names(folder, wishes)
    if isinstance(groups, Problem):
        return (groups,)
    unknown = tuple(wish_faults(folder, wishes, groups))
    if unknown:
        return unknown
    games: list[tuple[ArrangedGame, list[str]]] = []
    problems: list[Problem] = []
    for group in groups:
        game = _game(folder, wishes, group)
        if isinstance(game, ArrangedGame):
            _share(games, game, group)
        else:
            problems += game
    if problems:
        return in_order(problems)
    return Arranged(tuple(Sharing(game, tuple(names)) for game, names in games))


def _share(games: list[tuple[ArrangedGame, list[str]]], game: ArrangedGame, group: str) -> None:
    for known, names in games:
        if known == game:
            names.append(group)
            return
    games.append((game, [group]))


def _game(folder: Folder, wishes: Wishes, group: str) -> ArrangedGame | list[Problem]:
    chosen, problems = choose(folder, wishes, group)
    if problems:
        return problems
    play = settle(folder, chosen)
    if not isinstance(play, InPlay):
        return play
    places, problems = place_all(folder, play)
    problems += [*absent_faults(folder, play), *_text_faults(folder, play)]
    problems = problems or list(_unsaid(folder, play, places))
    return problems or _assembled(folder, play, places)


def _unsaid(folder: Folder, play: InPlay, places: dict[Path, str]) -> Iterator[Problem]:
    """Yield a Problem for each clue that must spell a place without a word for it."""
    rooms = folder.room.places if folder.room is not None else {}
    for id in play.chosen:
        gives = folder.game.clues[id].gives
        if gives in folder.game.locks:
            continue
        place = places.get(("items", gives, "place"), gives)
        if place not in rooms:
            where = folder.where(GAME, ("clues", id, "gives"))
            yield Problem.of("arrange.place-without-word", where, clue=id, id=gives, place=place)
        elif rooms[place].say is None:
            where = folder.where(ROOM, ("places", place))
            yield Problem.of("arrange.unsaid", where, clue=id, id=gives, place=place)


# Texts: what they name must be in play.


def _texts(folder: Folder, play: InPlay) -> Iterator[tuple[Path, str]]:
    """Yield every text that pupils or teacher will read with names filled in."""
    story = folder.game.story
    for part in ("opening", "closing", "unfinished"):
        for number, told in enumerate(getattr(story, part)):
            if isinstance(told, str):
                yield ("story", part, number), told
            elif _is_there(folder, play, told.when):
                yield ("story", part, number, "text"), told.text
    for number, ask in enumerate(story.debrief):
        yield ("story", "debrief", number, "ask"), ask.ask
    for one in play.chosen.values():
        for number, hint in enumerate(one.version.hints or ()):
            yield (*one.path, "hints", number), hint


def _is_there(folder: Folder, play: InPlay, id: str) -> bool:
    return id in play.ids or (folder.room is not None and id in folder.room.places)


def _text_faults(folder: Folder, play: InPlay) -> Iterator[Problem]:
    for path, text in _texts(folder, play):
        for name in dict.fromkeys(names_in(text)):
            if not _is_there(folder, play, name):
                where = folder.where(GAME, path)
                code = "arrange.text-absent-when" if path[0] == "story" else "arrange.text-absent"
                yield Problem.of(code, where, id=name)


# The whole, put together.


def _assembled(folder: Folder, play: InPlay, places: dict[Path, str]) -> ArrangedGame:
    game, head = folder.game, folder.game.game
    return ArrangedGame(
        id=head.id,
        title=head.title,
        summary=head.summary,
        language=head.language,
        licence=head.licence,
        authors=head.authors,
        ages=head.ages,
        pupils=head.pupils,
        hints=head.hints,
        time=_time(game.time),
        goals=game.goals,
        story=_told(folder, play),
        boxes={id: _box(folder, id, places) for id in game.boxes if id in play.ids},
        locks={id: _lock(folder, play, id) for id in game.locks if id in play.ids},
        items={id: _item(folder, id, places) for id in game.items if id in play.ids},
        clues={id: _clue(folder, play, one, places) for id, one in play.chosen.items()},
    )


def _time(time: Time) -> TimePlan:
    return TimePlan(
        bell_to_bell_s=time.bell_to_bell * SECONDS,
        settle_s=time.settle * SECONDS,
        briefing_s=time.briefing * SECONDS,
        debrief_s=time.debrief * SECONDS,
        tidy_s=time.tidy * SECONDS,
    )


def _told(folder: Folder, play: InPlay) -> Told:
    story = folder.game.story

    def told(paragraphs: Iterable[str | When]) -> tuple[str, ...]:
        texts = (
            one if isinstance(one, str) else one.text
            for one in paragraphs
            if isinstance(one, str) or _is_there(folder, play, one.when)
        )
        return tuple(_filled(folder, text) for text in texts)

    questions = tuple(Question(_filled(folder, one.ask), one.goal) for one in story.debrief)
    return Told(told(story.opening), told(story.closing), told(story.unfinished), questions)


def _filled(folder: Folder, text: str) -> str:
    return filled(text, lambda id: name_of(folder, id))


def _box(folder: Folder, id: str, places: dict[Path, str]) -> ArrangedBox:
    box = folder.game.boxes[id]
    place = places[("boxes", id, "place")]
    return ArrangedBox(box.name, place, box.inside_mm, box.locks, box.own_lock)


def _item(folder: Folder, id: str, places: dict[Path, str]) -> ArrangedItem:
    item = folder.game.items[id]
    return ArrangedItem(item.name, places[("items", id, "place")], item.tool, item.wins)


def _lock(folder: Folder, play: InPlay, id: str) -> ArrangedLock:
    lock = folder.game.locks[id]
    shape = {name: getattr(lock, name) for name in LockShape.model_fields}
    return ArrangedLock(
        **shape,
        closes=play.closes(folder.game, id),
        code=lock.code,
        stand_in=lock.stand_in,
        opened_by=lock.opened_by,
    )


def _leads_to(folder: Folder, id: str) -> Answers:
    if id in folder.game.locks:
        return "lock"
    return "item" if id in folder.game.items else "place"


def _clue(folder: Folder, play: InPlay, one: Chosen, places: dict[Path, str]) -> ArrangedClue:
    clue, version = folder.game.clues[one.clue], one.version
    first, second, third = (_filled(folder, hint) for hint in version.hints or ("", "", ""))
    host = (play.chosen[id] for id in reversed(hosts_of(play, one.clue)))
    lies_with = next(host, one)
    return ArrangedClue(
        gives=clue.gives,
        leads_to=_leads_to(folder, clue.gives),
        goals=clue.goals,
        kind=version.kind,
        content=version.content,
        options=version.options,
        level=one.level,
        place=places[(*lies_with.path, "place")],
        parts={part: places[(*one.path, "parts", part)] for part in version.parts},
        on=version.on,
        hints=(first, second, third) if version.hints else None,
        written_on=version.written_on,
        needs=version.needs,
        way=one.name,
        source=folder.where(GAME, one.path),
    )

"""The shelf: real locks, boxes, keys and tools with their stickers, and which this game takes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import islice
from typing import Annotated, Any

from fastapi import APIRouter, HTTPException, Query, Request
from fastapi.responses import HTMLResponse

from boxwright.choose.fitting import Stickers, fit, lacking
from boxwright.choose.hardware import make_of, real_device
from boxwright.game.arrange import arrange
from boxwright.game.arranged import Arranged, ArrangedGame
from boxwright.game.folder import Folder
from boxwright.game.mechanisms import Device, entry, faces_said
from boxwright.game.model import TAG_PATTERN, KitFile, KitLock, LockMake
from boxwright.game.spelling import WordIndex
from boxwright.game.wordlists import common_words
from boxwright.problems import Arg, Message, say
from boxwright.web.game import Game, TheGame
from boxwright.web.render import fragment, page, told

router = APIRouter()

MOST_WORDS = 80
LINE = "\n"
TheTag = Annotated[str, Query(pattern=TAG_PATTERN)]


@dataclass(frozen=True, kw_only=True)
class Written:
    """What is written down of a lock or a make: by itself (`own`), and all that is known of it."""

    mechanism: str | None
    own: LockMake
    make: LockMake

    @property
    def faces_text(self) -> str:
        """What the lock itself says of its faces, a wheel a line, as the form has it."""
        faces = self.own.faces
        if faces is None or isinstance(faces, str):
            return faces or ""
        lines = (one if isinstance(one, str) else " ".join(one) for one in faces)
        named = any(isinstance(one, str) for one in faces) and not self.spelt
        return (" " if named else LINE).join(lines)

    @property
    def spelt(self) -> bool:
        """Whether a face is a single sign, so that a wheel is written without blanks."""
        return self.mechanism in ("number-wheels", "letter-wheels")

    @property
    def keys_text(self) -> str:
        """What the lock itself says of its keys."""
        keys = self.own.keys
        return keys if isinstance(keys, str) else " ".join(keys or ())


@dataclass(frozen=True, kw_only=True)
class ShelfLock(Written):
    """A real lock as the page shows it."""

    tag: str
    own: KitLock
    make: KitLock
    device: Device
    faces: tuple[Message, ...]
    codes: int
    speaks: bool
    uses: tuple[Message, ...]


@dataclass(frozen=True, kw_only=True)
class Make(Written):
    """What locks of one make share, and which those are."""

    name: str
    locks: tuple[str, ...]


@router.get("", response_class=HTMLResponse)
def show(request: Request, game: TheGame) -> HTMLResponse:
    """Show the shelf, or how to begin one."""
    folder = game.folder
    if folder.kit is None:
        return page(request, "kit", {"game": game, "kit": None})
    uses, lacks = _taken(game)
    locks = [_lock(folder, tag, uses) for tag in folder.kit.locks]
    values = {"game": game, "kit": folder.kit, "locks": locks, "uses": uses, "lacks": lacks}
    return page(request, "kit", values | {"widest": _widest(folder), **_choices(locks, folder.kit)})


@router.get("/words", response_class=HTMLResponse)
def words_of(game: TheGame, tag: TheTag) -> HTMLResponse:
    """Return which common words a lock can show."""
    folder = game.folder
    if folder.kit is None or tag not in folder.kit.locks:
        raise HTTPException(404)
    device = real_device(folder, tag)
    if entry(device).alphabet(device) != "letters":
        raise HTTPException(404)
    index = WordIndex(common_words(folder.game.game.language), device.longest)
    shown = tuple(islice(index.shown(device), MOST_WORDS))
    values = {"count": index.count(device), "looked": len(index.words), "shown": shown}
    return HTMLResponse(fragment("kit_words.html", values))


def _choices(locks: Sequence[ShelfLock], kit: KitFile) -> dict[str, Any]:
    """Return what boxes, keys and new locks can choose among, each with its words."""
    none, own = told(say("page-kit.none-chosen")), [lock.tag for lock in locks]
    return {
        "own_choices": [("", none), *((tag, tag) for tag in own)],
        "key_locks": [lock.tag for lock in locks if lock.device.mechanism == "key"],
        "models": [("", none), *((id, id) for id in kit.models)],
        "makes": [_make(kit, id) for id in kit.models],
    }


def _make(kit: KitFile, id: str) -> Make:
    own = kit.models[id]
    locks = tuple(tag for tag, lock in kit.locks.items() if lock.model == id)
    return Make(mechanism=own.mechanism, own=own, make=own, name=id, locks=locks)


def _taken(game: Game) -> tuple[dict[str, tuple[Message, ...]], tuple[Arg, ...] | None]:
    """Return what each sticker is taken for, and what goes without; None where it is not known."""
    arranged = arrange(game.folder, game.wishes)
    if not isinstance(arranged, Arranged):
        return {}, None
    stickers = fit(game.folder, arranged).stickers
    found: dict[str, list[Message]] = {}
    for tag, message in _uses(arranged, stickers):
        found.setdefault(tag, []).append(message)
    lacks = (
        _lack(arranged.of(group), id)
        for group, of_group in stickers.items()
        for id in lacking(arranged.of(group), of_group)
    )
    return {tag: tuple(one) for tag, one in found.items()}, tuple(dict.fromkeys(lacks))


def _uses(arranged: Arranged, stickers: Stickers) -> Iterator[tuple[str, Message]]:
    several = len(stickers) > 1
    for group, of_group in stickers.items():
        game = arranged.of(group)
        for id, tag in of_group.items():
            sort = "lock" if id in game.locks else "box" if id in game.boxes else "item"
            code = f"page-kit.use-{sort}-of" if several else f"page-kit.use-{sort}"
            yield tag, say(code, name=_name(game, id), group=group)


def _lack(game: ArrangedGame, id: str) -> Arg:
    name = _name(game, id)
    return say("page-kit.lack-lock", name=name) if id in game.locks else name


def _name(game: ArrangedGame, id: str) -> str:
    """Return the name of a thing; for a lock, of the box that it closes."""
    lock = game.locks.get(id)
    return game.name_of(id if lock is None else lock.closes)


def _lock(folder: Folder, tag: str, uses: Mapping[str, tuple[Message, ...]]) -> ShelfLock:
    assert folder.kit is not None
    device = real_device(folder, tag)
    mechanism = entry(device)
    return ShelfLock(
        mechanism=device.mechanism,
        tag=tag,
        own=folder.kit.locks[tag],
        make=make_of(folder.kit, tag),
        device=device,
        faces=tuple(faces_said(device)) if device.positions else (),
        codes=mechanism.nominal(device),
        speaks=mechanism.alphabet(device) == "letters",
        uses=uses.get(tag, ()),
    )


def _widest(folder: Folder) -> float:
    """Return the length of the longest box, to which all are drawn in scale."""
    sizes: list[Any] = [box.inside_mm for box in folder.kit.boxes.values()] if folder.kit else []
    return max((max(size) for size in sizes if size is not None), default=300.0)

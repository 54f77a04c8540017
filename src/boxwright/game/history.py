"""Undo and redo of every change to a game, however it was made, across restarts.

A change is written down before a file is touched, with the bytes before and after, and
comes whole or not at all. What another program changed meanwhile is noticed, and can be
undone like the rest. All of it lies in the game's folder `.history/`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path as File

from boxwright.frozen import frozen_value
from boxwright.game.draft import GAME
from boxwright.game.history_log import (
    DONE,
    DROPPED,
    REDO,
    UNDO,
    Entry,
    Moves,
    Past,
    Record,
    after,
    change,
    entry,
    moves_of,
    start,
    states,
)
from boxwright.game.history_store import Stamp, Store
from boxwright.game.owned import is_owned, manifest, tag_of, tag_of_files
from boxwright.game.write import remove_halves, replace_file
from boxwright.problems import Message, Problem, Where, refuse, say

__all__ = ["History", "Moment", "tag_of"]


@frozen_value
class Moment:
    """A state of the game's files: its tag, and what can be undone and redone from here."""

    tag: str
    undo: Message | None
    redo: Message | None


class History:
    """The history of one game folder. Several at once, in several processes, do no harm."""

    def __init__(self, folder: File) -> None:
        self.folder = folder
        self._store = Store(folder)
        self._read: tuple[Stamp | None, Past] = (None, Past())

    def now(self) -> Moment:
        """Return how things stand; what was changed outside becomes an entry.

        A folder that cannot be written to has no history, and can be looked at all the same.
        """
        stamp, past = self._read
        is_read = stamp is not None and stamp == self._store.stamp()
        if is_read and manifest(self.folder) == past.files:
            return _moment(past)
        try:
            with self._held() as past:
                return _moment(past)
        except OSError:
            return Moment(tag_of(self.folder), None, None)

    def expect(self, tag: str) -> None:
        """Raise Refused unless the game's files are in the state of `tag`."""
        if tag != self.now().tag:
            refuse(self._changed())

    def files_at(self, tag: str) -> Mapping[str, str] | None:
        """Return the SHA-256 of each file in the state of `tag`; None where it is forgotten."""
        try:
            with self._held() as past:
                return next((one for one in states(past) if tag_of_files(one) == tag), None)
        except OSError:
            return None

    def bytes_of(self, digest: str) -> bytes:
        """Return what a file held. Raises OSError where that is no longer kept."""
        return self._store.bytes_of(digest)

    def change(self, tag: str, what: Message, files: Mapping[str, bytes | None]) -> Moment:
        """Write `files` (None removes one), all or none, and return how things stand then.

        Args:
            tag: the tag of the state that the change was made for.
            what: how the change is said when it can be undone.
            files: bytes by name, such as `game.toml` or `content/terms.csv`.

        Raises:
            Refused: where the game is not in that state any more, or cannot be written.
            ValueError: where a name is none of a file of the game's own.
        """
        strange = [name for name in files if not is_owned(name)]
        if strange:
            raise ValueError(f"no files of a game: {strange}")
        with self._told(), self._held(tag) as past:
            moves: dict[str, tuple[str | None, str | None]] = {}
            for name, data in files.items():
                to = None if data is None else self._store.keep(data)
                if past.files.get(name) != to:
                    moves[name] = (past.files.get(name), to)
            return self._done(past, change(what, moves)) if moves else _moment(past)

    def undo(self, tag: str) -> Moment:
        """Take the last change back. Raises Refused as `change` does, or where there is none."""
        with self._told(), self._held(tag) as past:
            return self._done(past, UNDO) if self._can(past.to_undo) else _moment(past)

    def redo(self, tag: str) -> Moment:
        """Make the change again that was undone last. Raises Refused as `undo` does."""
        with self._told(), self._held(tag) as past:
            return self._done(past, REDO) if self._can(past.to_redo) else _moment(past)

    def _can(self, one: Entry | None) -> bool:
        if one is None:
            refuse(Problem.of("history.nothing", Where(self.folder.name)))
        lost = [name for name, pair in one.moves.items() if not all(map(self._store.has, pair))]
        if lost:
            refuse(Problem.of("history.lost", Where(lost[0]), names=tuple(lost)))
        return True

    # How things stand.

    @contextmanager
    def _held(self, tag: str | None = None) -> Iterator[Past]:
        """Keep others out, mend what was cut short, and give the past as it is.

        Raises Refused where `tag` is not the one of the files as they are.
        """
        with self._store.held():
            past = self._noticed(self._mended(self._past()))
            self._read = (self._store.stamp(), past)
            if tag is not None and tag != tag_of_files(past.files):
                refuse(self._changed())
            yield past

    def _changed(self) -> Problem:
        name = self.folder.resolve().name
        return Problem.of("edit.changed-meanwhile", Where(name), name=name)

    def _past(self) -> Past:
        stamp, past = self._read
        if stamp is not None and stamp == self._store.stamp():
            return past
        return self._store.read() or self._begun()

    def _begun(self) -> Past:
        files = self._kept(manifest(self.folder))
        self._store.append(start(files))
        return Past(files)

    def _kept(self, files: Mapping[str, str]) -> dict[str, str]:
        """Keep the bytes of `files`; return them as they were when they were read."""
        found = {}
        for name, digest in files.items():
            try:
                known = self._store.has(digest)
                found[name] = (
                    digest if known else self._store.keep((self.folder / name).read_bytes())
                )
            except FileNotFoundError:
                continue
        return found

    def _mended(self, past: Past) -> Past:
        """Take back what was begun and not finished; a file changed since then is left alone."""
        if past.meant is None:
            return past
        moves, found = moves_of(past, past.meant), manifest(self.folder)
        self._write({name: pair for name, pair in moves.items() if found.get(name) == pair[1]}, 0)
        for name in moves:
            remove_halves(self.folder / name)
        return self._noted(past, DROPPED)

    def _noticed(self, past: Past) -> Past:
        """Return `past` with an entry for what another program changed."""
        found = manifest(self.folder)
        if found == past.files:
            return past
        files = self._kept(found)
        pairs = {name: (past.files.get(name), files.get(name)) for name in {**past.files, **files}}
        moves = {name: pair for name, pair in pairs.items() if pair[0] != pair[1]}
        if not moves:
            return past
        what = say("history.outside", names=tuple(moves))
        return self._store.tidied(self._noted(past, entry(what, moves)))

    # Writing.

    def _done(self, past: Past, record: Record) -> Moment:
        """Do what `record` means, or nothing of it."""
        moves = moves_of(past, record)
        past = self._noted(past, record)
        try:
            self._write(moves, 1)
        except OSError:
            self._mended(past)
            raise
        past = self._store.tidied(self._noted(past, DONE))
        self._read = (self._store.stamp(), past)
        return _moment(past)

    def _noted(self, past: Past, record: Record) -> Past:
        self._store.append(record)
        return after(past, record)

    def _write(self, moves: Moves, side: int) -> None:
        """Bring files to one side of `moves`; first what goes, since capitals may be one file."""
        for name, pair in sorted(moves.items(), key=lambda move: move[1][side] is not None):
            path, digest = self.folder / name, pair[side]
            if digest is None:
                path.unlink(missing_ok=True)
                continue
            path.parent.mkdir(exist_ok=True, parents=True)
            if not path.resolve().is_relative_to(self.folder.resolve()):
                raise PermissionError(1, name)
            replace_file(path, self._store.bytes_of(digest))

    @contextmanager
    def _told(self) -> Iterator[None]:
        """Word what the disk does not allow."""
        try:
            yield
        except OSError as error:
            why = error.strerror or str(error)
            refuse(Problem.of("edit.unwritable", Where(GAME), name=self.folder.name, why=why))


def _moment(past: Past) -> Moment:
    undo, redo = past.to_undo, past.to_redo
    return Moment(
        tag_of_files(past.files), undo.what if undo else None, redo.what if redo else None
    )

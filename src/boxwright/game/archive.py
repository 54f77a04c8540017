"""A game as one file to hand on: packed the same way each time, and taken in with care.

What comes from elsewhere may be anything: names that lead out of the folder, links, a few
bytes that unpack to millions, pictures that act or tell where they were taken. It is
unpacked beside the other games, and is there under its name only when all of it is.
"""

from __future__ import annotations

import io
import lzma
import shutil
import stat
import tempfile
import zipfile
import zlib
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path as File

from boxwright.frozen import frozen_value
from boxwright.game.bin import free_name
from boxwright.game.draft import GAME
from boxwright.game.file_names import is_portable
from boxwright.game.folder import Folder, Problems, read_game
from boxwright.game.owned import is_owned, owned
from boxwright.game.safe_pictures import encode_anew
from boxwright.game.toml_file import TomlFile, parse_bytes
from boxwright.game.write import NEW_MODE
from boxwright.problems import Problem, Where
from boxwright.text import better_id, nfc

MOST_BYTES = 50_000_000
MOST_UNPACKED = 200_000_000
MOST_FILES = 500
MOST_TIMES = 100
"""How many times its packed size a file of more than `SMALL` bytes may have."""
SMALL = 1_000_000
# What the readers of a zip raise where its bytes are not what it says; two of them are
# Python's own exceptions and nothing more.
BROKEN = (
    zipfile.BadZipFile,
    NotImplementedError,
    EOFError,
    ValueError,
    RuntimeError,
    zlib.error,
    lzma.LZMAError,
)
_WHEN = (1980, 1, 1, 0, 0, 0)
_UNIX = 3
_ENCRYPTED = 0x1


@frozen_value
class Taken:
    """A game that was taken in: the name of its folder, and what is wrong in its files."""

    name: str
    faults: Problems


def pack(folder: File) -> bytes:
    """Return a game's own files as a zip; the same files give the same bytes."""
    return zipped({name: File(entry.path).read_bytes() for name, entry in sorted(owned(folder))})


def zipped(files: Mapping[str, bytes]) -> bytes:
    """Return files by their names as a zip; the same files give the same bytes."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for name, data in files.items():
            info = zipfile.ZipInfo(nfc(name), _WHEN)
            info.compress_type, info.create_system = zipfile.ZIP_DEFLATED, _UNIX
            info.external_attr = (stat.S_IFREG | NEW_MODE) << 16
            archive.writestr(info, data)
    return out.getvalue()


def unpack(data: bytes, into: File, name: str = "") -> Taken | Problems:
    """Take the game in the zip `data` into the folder `into`, which holds games.

    Its own folder gets a name that is free, made from the game's id; its pictures are encoded
    anew. A game with faults in its other files is taken in, since they can be mended; anything
    else that is wrong with the zip comes back, and nothing has changed. `name` is what the
    zip is called.
    """
    where = Where(name or "zip")
    if len(data) > MOST_BYTES:
        most = MOST_BYTES // 1_000_000
        return (Problem.of("archive.too-large", where, most=most),)
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            return _taken_in(archive, into, where)
    except BROKEN:
        return (Problem.of("archive.broken", where),)
    except OSError as error:
        why = error.strerror or str(error)
        return (Problem.of("edit.unwritable", where, name=into.name, why=why),)


def _taken_in(archive: zipfile.ZipFile, into: File, where: Where) -> Taken | Problems:
    entries = archive.infolist()
    faults = tuple(_faults(entries, where))
    if faults:
        return faults
    top = _top(entries)
    if top is None:
        return (Problem.of("archive.no-game", where),)
    into.mkdir(parents=True, exist_ok=True)
    new = File(tempfile.mkdtemp(dir=into, prefix=".taking-in-"))
    try:
        _unpack(archive, entries, top, new)
        faults = encode_anew(new)
        if faults:
            return faults
        new.chmod(0o755)
        name = free_name(into, _id(new) or better_id(top.strip("/"), "game"))
        new.rename(into / name)
    finally:
        shutil.rmtree(new, ignore_errors=True)
    found = read_game(into / name)
    return Taken(name, () if isinstance(found, Folder) else found)


# What a zip must not hold.


def _faults(entries: Sequence[zipfile.ZipInfo], where: Where) -> Iterator[Problem]:
    if len(entries) > MOST_FILES:
        yield Problem.of("archive.too-many", where, n=len(entries), most=MOST_FILES)
        return
    if sum(one.file_size for one in entries) > MOST_UNPACKED:
        most = MOST_UNPACKED // 1_000_000
        yield Problem.of("archive.too-much", where, most=most)
    seen: set[str] = set()
    for one in entries:
        name = one.orig_filename
        shown = name[:100].encode("ascii", "backslashreplace").decode()
        if not _is_sound(name):
            yield Problem.of("archive.name", where, file=shown)
        elif _key(name) in seen:
            yield Problem.of("archive.twice", where, file=shown)
        elif one.flag_bits & _ENCRYPTED:
            yield Problem.of("archive.encrypted", where, file=shown)
        elif _is_odd(one):
            yield Problem.of("archive.link", where, file=shown)
        elif one.file_size > max(SMALL, MOST_TIMES * one.compress_size):
            yield Problem.of("archive.bomb", where, file=shown)
        seen.add(_key(name))


def _key(name: str) -> str:
    """Return what two names share that could be one file on some system."""
    return nfc(nfc(name).casefold()).rstrip("/")


def _is_sound(name: str) -> bool:
    """Tell whether a name leads nowhere but down; hidden files are, and are not taken in."""
    parts = name.removesuffix("/").split("/")
    return all(is_portable(part.lstrip(".")) and part.strip(". ") != "" for part in parts)


def _is_odd(entry: zipfile.ZipInfo) -> bool:
    """Tell whether an entry is a link or another thing that is no file and no folder."""
    sort = stat.S_IFMT(entry.external_attr >> 16)
    return sort not in (0, stat.S_IFREG, stat.S_IFDIR)


# What is taken in.


def _top(entries: Sequence[zipfile.ZipInfo]) -> str | None:
    """Return the folder of the zip that the game lies in: none, or one; None without a game."""
    names = [one.filename for one in entries]
    if GAME in names:
        return ""
    tops = [name.removesuffix(GAME) for name in names if name.endswith(f"/{GAME}")]
    near = [top for top in tops if top.count("/") == 1]
    return near[0] if len(near) == 1 else None


def _unpack(
    archive: zipfile.ZipFile, entries: Sequence[zipfile.ZipInfo], top: str, new: File
) -> None:
    """Write the game's own files into `new`; none gives more bytes than its entry says."""
    for one in entries:
        name = nfc(one.filename.removeprefix(top))
        if not one.filename.startswith(top) or one.is_dir() or not is_owned(name):
            continue
        (new / name).parent.mkdir(parents=True, exist_ok=True)
        with archive.open(one) as source, (new / name).open("wb") as file:
            shutil.copyfileobj(source, file)


def _id(folder: File) -> str | None:
    """Return the id that the game gives itself, if it can be read."""
    file = parse_bytes((folder / GAME).read_bytes(), GAME)
    head = file.data.get("game") if isinstance(file, TomlFile) else None
    id = head.get("id") if isinstance(head, dict) else None
    return better_id(id, "game") if isinstance(id, str) else None

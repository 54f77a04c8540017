"""A game folder as one frozen value: game, kit, room, pictures, and where each thing stands.

Whatever is wrong comes back as Problems, all together; only where a file is no TOML at
all its one fault comes alone, since nothing after it can be trusted.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import field
from pathlib import Path as File

from boxwright.frozen import frozen_value
from boxwright.game.clue_references import clue_faults, story_faults
from boxwright.game.draft import GAME, KIT, ROOM, Draft, Extra, M, read_part, sorts_of
from boxwright.game.inside import inside, listed
from boxwright.game.model import GameFile, KitFile, RoomFile
from boxwright.game.pictures import Picture, read_pictures
from boxwright.game.references import reference_faults
from boxwright.game.shelf_references import kit_faults, room_faults
from boxwright.game.signs import odd_options, odd_signs
from boxwright.game.toml_file import LARGEST, TomlFile, parse_bytes, read_bytes
from boxwright.problems import Path, Problem, Where

Problems = tuple[Problem, ...]

CHECKS: tuple[Extra, ...] = (reference_faults, clue_faults, story_faults, kit_faults, room_faults)


@frozen_value
class Folder:
    """A game folder without faults; `files` by role: game.toml, kit.toml, room.toml."""

    path: File
    game: GameFile
    kit: KitFile | None
    room: RoomFile | None
    files: Mapping[str, TomlFile]
    pictures: Mapping[str, Picture] = field(default_factory=dict)

    def where(self, file: str, path: Path) -> Where:
        """Return where `path` stands, or the nearest known path that holds it.

        `file` is a role (`game.toml`, `kit.toml`, `room.toml`); the place names the file
        itself, which may be another where the command line said so.
        """
        return self.files[file].where(path) if file in self.files else Where(file, path)


def read_game(
    folder: File,
    kit: File | None = None,
    room: File | None = None,
    *,
    also: Iterable[Extra] = (),
    instead: Mapping[str, bytes] | None = None,
) -> Folder | Problems:
    """Read a game folder, with the kit and room in it or those named.

    Args:
        folder: the game folder.
        kit: a kit file elsewhere; else `kit.toml` in the folder, if there is one.
        room: a room file elsewhere; else `room.toml` in the folder, if there is one.
        also: checks of other units (codes, kinds, content) to run with the rest; each
            gets the `Draft` and yields Problems.
        instead: bytes to read instead of a file, by role, to try a change unwritten.
    """
    read = _read_files(folder, {KIT: kit, ROOM: room}, instead or {})
    broken = tuple(one for one in read.values() if isinstance(one, Problem))
    if broken:
        return broken[:1]
    files = {role: one for role, one in read.items() if isinstance(one, TomlFile)}
    return _whole(folder, files, also)


def _read_files(
    folder: File, named: Mapping[str, File | None], instead: Mapping[str, bytes]
) -> dict[str, TomlFile | Problem]:
    found: dict[str, TomlFile | Problem] = {}
    for role in (GAME, KIT, ROOM):
        elsewhere = named.get(role)
        name = role if elsewhere is None else str(elsewhere)
        if role in instead:
            found[role] = parse_bytes(instead[role], name)
        elif elsewhere is not None or role == GAME or role in listed(folder):
            found[role] = _read(folder, role, elsewhere, name)
        elif (misnamed := _misnamed(folder, role)) is not None:
            found[role] = misnamed
    return found


def _read(folder: File, role: str, elsewhere: File | None, name: str) -> TomlFile | Problem:
    path: File | Problem = elsewhere or _in_folder(folder, role)
    raw = path if isinstance(path, Problem) else read_bytes(path, name, LARGEST)
    return raw if isinstance(raw, Problem) else parse_bytes(raw, name)


def _in_folder(folder: File, role: str) -> File | Problem:
    if not folder.is_dir():
        return Problem.of("folder.no-folder", Where(str(folder)), name=str(folder))
    if role not in listed(folder):
        misnamed = _misnamed(folder, role)
        if misnamed is not None:
            return misnamed
        return Problem.of("folder.missing", Where(role), name=role)
    return inside(folder, role, Where(role), str(folder))


def _misnamed(folder: File, role: str) -> Problem | None:
    """Return the Problem that a file is there under nearly its name, if one is."""
    wanted = (role, f"{role}.txt", role.removesuffix(".toml") + ".txt")
    near = next((name for name in listed(folder) if name.casefold() in wanted), None)
    return (
        None if near is None else Problem.of("folder.misnamed", Where(near), name=role, near=near)
    )


def _whole(folder: File, files: Mapping[str, TomlFile], also: Iterable[Extra]) -> Folder | Problems:
    problems: list[Problem] = []
    game = _part(files, GAME, GameFile, problems.extend)
    kit = _part(files, KIT, KitFile, problems.extend)
    room = _part(files, ROOM, RoomFile, problems.extend)
    for file in files.values():
        problems += odd_signs(file)
    problems += odd_options(files[GAME])
    pictures, faulty = read_pictures(folder)
    problems += faulty
    if game is not None:
        sorts = sorts_of(files[GAME].data, files[ROOM].data if ROOM in files else {})
        draft = Draft(folder, game, kit, room, files, sorts)
        for check in (*CHECKS, *also):
            problems += check(draft)
        if not problems:
            return Folder(folder, game, kit, room, files, pictures)
    from boxwright.game.consequences import told_once  # late: most folders have no faults

    return in_order(told_once(problems, files.values()))


def _part(
    files: Mapping[str, TomlFile],
    role: str,
    model: type[M],
    report: Callable[[Iterable[Problem]], None],
) -> M | None:
    if role not in files:
        return None
    part, problems = read_part(files[role], model)
    report(problems)
    return part


def in_order(problems: Iterable[Problem]) -> Problems:
    """Return `problems` without repeats, file by file, from top to bottom."""
    once = {(one.code, one.where, one.what): one for one in problems}
    return tuple(
        sorted(
            once.values(), key=lambda one: (_rank(one), one.where.line or 0, one.where.column or 0)
        )
    )


def _rank(problem: Problem) -> tuple[int, str]:
    name = problem.where.file
    return (0 if name == GAME else 1, name)

"""A game's files laid out to be changed: a copy of what they say, given back as new bytes.

Nothing is written here. What a command leaves on the desk is held against the game as it
was, and goes to the history as one change.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, MutableMapping
from copy import deepcopy
from pathlib import Path as File
from typing import Any

from boxwright.game.draft import GAME, KIT, ROOM, SECTIONS
from boxwright.game.format import FORMAT
from boxwright.game.inside import listed
from boxwright.game.model import RESERVED_IDS
from boxwright.game.text_edit import rewritten
from boxwright.game.toml_file import TomlFile, decoded, parsed
from boxwright.game.write import encoded, source
from boxwright.messages import words
from boxwright.problems import Problem, Where, refuse, say
from boxwright.text import better_id

Table = MutableMapping[str, Any]


class Desk:
    """The files of one game, as a command finds and leaves them."""

    def __init__(self, folder: File) -> None:
        self.folder = folder
        self._read: dict[str, tuple[TomlFile, bytes]] = {}
        self._data: dict[str, dict[str, Any]] = {}
        self._put: dict[str, bytes | None] = {}

    def has(self, role: str) -> bool:
        """Tell whether the game has the file `role`."""
        return role in listed(self.folder)

    def file(self, role: str) -> TomlFile:
        """Return the file `role` as it was found. Raises Refused where it cannot be read."""
        if role not in self._read:
            found = source(self.folder, role)
            raw = b"" if isinstance(found, Problem) else found[1]
            text = found if isinstance(found, Problem) else decoded(raw, role)
            file = text if isinstance(text, Problem) else parsed(text, role)
            if isinstance(file, Problem):
                refuse(file)
            self._read[role] = (file, raw)
        return self._read[role][0]

    def data(self, role: str) -> dict[str, Any]:
        """Return what the file `role` says, to be changed."""
        if role not in self._data:
            self._data[role] = deepcopy(dict(self.file(role).data))
        return self._data[role]

    def table(self, role: str, *path: str) -> Table:
        """Return the table at `path`, to be changed; it is made if need be."""
        node: Table = self.data(role)
        for step in path:
            node = node.setdefault(step, {})
            if not isinstance(node, MutableMapping):
                name = ".".join(path)
                refuse(Problem.of("edit.by-hand", self.file(role).where(path), path=name))
        return node

    def begin(self, role: str, head: Mapping[str, Any]) -> None:
        """Lay out a file that is not there yet, with its first table."""
        text = f"format = {FORMAT}\n"
        file = parsed(text, role)
        if isinstance(file, Problem):
            refuse(file)
        self._read[role] = (file, text.encode())
        self._data[role] = {"format": FORMAT, role.removesuffix(".toml"): dict(head)}

    def put(self, name: str, data: bytes | None) -> None:
        """Leave `data` as the file `name`; None removes it."""
        self._put[name] = data

    def put_text(self, role: str, text: str) -> None:
        """Leave `text` as the file `role`, with the line ends that it has."""
        self.file(role)
        self._data.pop(role, None)
        self.put(role, encoded(text, self._read[role][1]))

    def files(self) -> dict[str, bytes | None]:
        """Return every file that is to be written; None where one is to go."""
        files = dict(self._put)
        for role, data in self._data.items():
            file, raw = self._read[role]
            try:
                files[role] = encoded(rewritten(file.text, data), raw)
            except (TypeError, ValueError):
                refuse(Problem.of("edit.by-hand", Where(role), path=role))
        return files

    # Names.

    def section(self, id: str) -> str:
        """Return the section in which the thing `id` stands. Raises Refused if there is none."""
        sections = [one for one in SECTIONS if id in self.table(GAME, one)]
        if not sections:
            known = tuple(name for one in SECTIONS for name in self.table(GAME, one))
            choices = known or (say("game.none-yet"),)
            refuse(Problem.of("change.no-such-thing", Where(GAME), id=id, choices=choices))
        return sections[0]

    def thing(self, id: str) -> Table:
        """Return the table of the thing `id`, to be changed."""
        return self.table(GAME, self.section(id), id)

    def name_of(self, id: str) -> str:
        """Return what pupils call the thing `id`; the id where it has no name."""
        return str(self.thing(id).get("name", id))

    def fresh_id(self, name: str, fallback: str, taken: Iterable[str] | None = None) -> str:
        """Return an id that is near to `name` and that nothing has yet.

        `taken` are the ids that are not free; else those of all things and places.
        """
        base = better_id(self._bare(name), fallback)
        known = set(self._ids() if taken is None else taken) | RESERVED_IDS
        number = 1
        found = base
        while found in known:
            number += 1
            found = f"{base[: 39 - len(str(number))].rstrip('-')}-{number}"
        return found

    def _bare(self, name: str) -> str:
        """Return `name` without the article of the game's language in front."""
        language = str(self.table(GAME, "game").get("language", "en"))
        first, _, rest = name.strip().partition(" ")
        articles = words(say("change.articles"), language).split()
        return rest if rest and first.casefold() in articles else name

    def _ids(self) -> set[str]:
        found = {id for section in SECTIONS for id in self.table(GAME, section)}
        return found | set(self.file(ROOM).data.get("places", {}) if self.has(ROOM) else ())

    def tags(self) -> set[str]:
        """Return every sticker of the kit."""
        kit = self.data(KIT)
        return {
            tag for section in ("locks", "keys", "boxes", "tools") for tag in kit.get(section, ())
        }

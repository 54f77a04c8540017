"""Whatever is done in whatever order can be undone to the first byte, and redone to the last."""

from __future__ import annotations

import shutil
import tempfile
import tomllib
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from boxwright.game.commands import COMMANDS, perform
from boxwright.game.folder import Folder, read_game
from boxwright.game.history import History
from boxwright.game.owned import manifest
from boxwright.problems import Refused
from tests.game.conftest import SAMPLE

BOXES = st.sampled_from(["trunk", "safe", "pouch", "new"])
ITEMS = st.sampled_from(["brass-key", "torch", "recipe", "new"])
LOCKS = st.sampled_from(["count", "wind", "hatch", "latch"])
CLUES = st.sampled_from(["workers", "mill-words", "sheaves", "find-key"])
IDS = BOXES | ITEMS | LOCKS | CLUES
FRESH = st.sampled_from(["new", "bag", "shelf", "torch"])
TEXTS = st.sampled_from(
    ["A new one.", 'Say "{trunk}".', "#{safe} ü\\", "{pouch}", "a" * 90, "x\ny"]
)
NAMES = st.sampled_from(["new", "The “bag”", 'a "tub" = [1]', "# no remark", "ナ"])
PLACES = st.sampled_from(["table", "start", "trunk", "safe", "pouch", "shelf"]) | st.just(
    ["shelf", "any ledge"]
)
STORY = st.lists(TEXTS | st.builds(lambda id, text: {"when": id, "text": text}, IDS, TEXTS))
WAYS = st.sampled_from(
    [("workers", "ordinary"), ("mill-words", "blanks"), ("mill-words", "fences"),
     ("sheaves", "daylight"), ("sheaves", "by-torch"), ("find-key", "classroom")]
)  # fmt: skip


def asks(**fields: st.SearchStrategy[Any]) -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries(fields)


def way(**fields: st.SearchStrategy[Any]) -> st.SearchStrategy[dict[str, Any]]:
    return st.builds(
        lambda way, rest: {"clue": way[0], "version": way[1], **rest}, WAYS, asks(**fields)
    )


COMMAND: Mapping[str, st.SearchStrategy[dict[str, Any]]] = {
    "game.describe": asks(title=NAMES, authors=st.lists(NAMES, max_size=3), groups=st.just([1, 3])),
    "times.set": asks(settle=st.integers(0, 9) | st.none(), tidy=st.integers(0, 9)),
    "story.write": asks(opening=STORY, closing=STORY),
    "goal.add": asks(text=TEXTS),
    "goal.remove": asks(goal=st.sampled_from(["fibre", "scales"])),
    "box.add": asks(name=NAMES, place=PLACES),
    "lock.add": asks(mechanism=st.just("dial"), closes=BOXES, name=NAMES),
    "item.add": asks(name=NAMES, place=PLACES),
    "clue.add": asks(gives=LOCKS | ITEMS, kind=st.just("nonogram"), place=PLACES, name=NAMES),
    "thing.rename": asks(id=IDS, new=FRESH),
    "thing.name": asks(id=BOXES | ITEMS, name=NAMES),
    "thing.move": asks(id=IDS, to=PLACES),
    "thing.remove": asks(id=IDS, with_clue=st.booleans()),
    "thing.set": asks(id=IDS, field=st.just("optional"), value=st.booleans() | st.none()),
    "version.add": asks(clue=CLUES, kind=st.just("pigpen"), place=PLACES),
    "version.change": way(level=st.just("hardest") | st.none(),
                           needs=st.lists(ITEMS, max_size=2),
                          parts=st.dictionaries(IDS, PLACES, max_size=2)),
    "version.remove": way(),
    "arrangement.set": asks(arrangement=FRESH, versions=st.lists(WAYS, max_size=2).map(dict)),
    "arrangement.remove": asks(arrangement=st.sampled_from(["short", "torch", "new"])),
    "kit.clear": asks(),
    "kit.lock.add": asks(mechanism=st.just("keypad"), length=st.just([4, 4])),
    "kit.lock.remove": asks(tag=st.sampled_from(["N1", "W1", "K1"])),
    "kit.box.change": asks(tag=st.sampled_from(["B1", "S1"]), name=NAMES),
    "kit.stand-ins": asks(envelopes=st.integers(0, 9)),
    "room.describe": asks(name=NAMES, figures=st.lists(NAMES, max_size=3)),
    "place.add": asks(name=NAMES),
    "place.remove": asks(place=st.sampled_from(["under-chair", "shelf"])),
    "content.put": asks(name=st.sampled_from(["crew.csv", "x.csv"]), text=TEXTS),
    "content.rename": asks(name=st.sampled_from(["crew.csv", "x.csv"]), new=st.just("y.csv")),
    "content.remove": asks(name=st.sampled_from(["x.csv", "y.csv"])),
}  # fmt: skip
ANY = st.sampled_from(sorted(COMMAND)).flatmap(lambda name: st.tuples(st.just(name), COMMAND[name]))


def files(folder: Path) -> dict[str, bytes]:
    return {name: (folder / name).read_bytes() for name in manifest(folder)}


@settings(max_examples=20)
@given(st.lists(ANY, min_size=1, max_size=10))
def test_undone_to_the_first_byte_and_redone_to_the_last(
    steps: list[tuple[str, dict[str, Any]]],
) -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(shutil.copytree(SAMPLE, Path(name) / "mill"))
        history = History(folder)
        states = [files(folder)]
        for command, args in steps:
            try:
                perform(history, command, args, history.now().tag)
            except Refused:
                assert files(folder) == states[-1]
                continue
            states += [files(folder)] if files(folder) != states[-1] else []
            assert isinstance(read_game(folder), Folder)
            for role in ("game.toml", "kit.toml", "room.toml"):
                tomllib.loads(states[-1][role].decode())
        for state in reversed(states[:-1]):
            history.undo(history.now().tag)
            assert files(folder) == state
        assert history.now().undo is None
        for state in states[1:]:
            history.redo(history.now().tag)
            assert files(folder) == state


@pytest.mark.parametrize("command", COMMAND)
def test_each_of_these_steps_is_made_at_times(sample: Path, command: str) -> None:
    """Otherwise what is drawn above would prove little."""
    history, made = History(sample), list[str]()
    perform(history, "content.put", {"name": "x.csv", "text": "a"}, history.now().tag)

    @settings(max_examples=60, database=None, derandomize=True, phases=[Phase.generate])
    @given(COMMAND[command])
    def one(args: dict[str, Any]) -> None:
        if not made:
            with suppress(Refused):
                perform(history, command, args, history.now().tag)
                made.append(command)

    one()
    assert made
    assert COMMAND.keys() <= COMMANDS.keys()

"""The whole job in a browser, once by mouse and once by keyboard alone, to the very same end.

What must come of it is told without a browser: the same named commands performed on a copy of
the example, and the same hour noted at a desk.
"""

from __future__ import annotations

import csv
import io
import shutil
import zipfile
from collections.abc import Iterator, Mapping
from contextlib import closing
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page
from pypdfium2 import PdfDocument

from boxwright.build.current import current_editions
from boxwright.choose.card import written
from boxwright.choose.gear import Gear
from boxwright.game.commands import perform
from boxwright.game.folder import Folder, read_game
from boxwright.game.history import History, tag_of
from boxwright.ledger.event import new_id
from boxwright.ledger.store import Ledger
from boxwright.live.at_hand import prepared
from boxwright.live.beginning import begin
from boxwright.live.checklist import Checklist
from boxwright.live.clock import SystemClock
from boxwright.live.desk import Desk
from boxwright.live.drafts import Draft
from boxwright.live.events import Event
from boxwright.live.noted import Deed, State
from boxwright.live.play_clock import PlayClock
from boxwright.live.ticking import Tap, tick
from tests.games import EXAMPLES, MADE
from tests.web.evening import ACTS, FINDS, MINUTES, TABLES, Evening
from tests.web.hands import Hands, Keyboard, Mouse

DEVICE = "laptop-abc"
CHANGES: tuple[tuple[str, dict[str, Any]], ...] = (
    ("box.add", {"name": "the rope locker", "place": "table"}),
    (
        "lock.add",
        {"mechanism": "number-wheels", "wheels": 3, "closes": "rope-locker", "name": "rope"},
    ),
    ("clue.add", {"gives": "rope", "kind": "count-sheet", "place": "tin", "name": "rope-yard"}),
    ("thing.move", {"id": "float-or-sink", "to": "rope-locker"}),
    ("thing.name", {"id": "chest", "name": "the flour bin"}),
    ("kit.lock.add", {"model": "three-numbers"}),
    ("kit.lock.add", {"model": "three-numbers"}),
    ("kit.box.add", {"name": "boat trunk", "hasp_holes": 1}),
    ("kit.box.add", {"name": "sail trunk", "hasp_holes": 1}),
)


@pytest.fixture
def by(request: pytest.FixtureRequest, tab: Page, tmp_path: Path) -> Iterator[Evening]:
    """The evening of one pair of hands, with the studio open and nothing done yet."""
    hands: type[Hands] = request.param
    tab.set_viewport_size({"width": 1366, "height": 1400})  # so that all of the shelf is in view
    evening = Evening(hands(tab), tmp_path)
    evening.begin()
    yield evening
    evening.end()


@pytest.mark.parametrize("by", [Mouse, Keyboard], indirect=True, ids=["mouse", "keyboard"])
def test_from_the_example_to_the_report(by: Evening, tmp_path: Path) -> None:
    for act in ACTS:
        act(by)
    ought = changed(tmp_path / "ought")
    for name in ("game.toml", "kit.toml"):
        assert (by.game / name).read_text("utf-8") == (ought / name).read_text("utf-8")
    assert tag_of(by.game) == tag_of(ought)
    assert dict(of_the_locks(by.game)).items() <= by.book.items()
    assert told(of_session(by.ledger)) == told(played(by.game, tmp_path / "ought.sqlite"))
    look_at_print_outs(by)
    look_at_report(by)


def changed(game: Path) -> Path:
    """Return a copy of the example that was changed by named commands."""
    shutil.copytree(EXAMPLES / "tide-mill", game, ignore=MADE)
    history = History(game)
    for name, args in CHANGES:
        perform(history, name, args, history.now().tag)
    return game


# What is in the lock book, and on paper.


def gear_of(game: Path) -> Gear:
    folder, [edition] = read_game(game), current_editions(game)
    assert isinstance(folder, Folder)
    return Gear(edition, folder)


def of_the_locks(game: Path) -> Iterator[tuple[str, str]]:
    """Yield the sticker of each real lock in play, and what the lock book ought to say of it."""
    gear = gear_of(game)
    real = gear.folder.kit.locks if gear.folder.kit is not None else {}
    for group in TABLES:
        for lock in gear.edition.game.locks:
            tag = gear.sticker(group, lock)
            if tag in real:
                yield tag, f"Opens with {written(gear, lock) or 'a key'}"


def look_at_print_outs(evening: Evening) -> None:
    """Every file is a PDF with text on each page; the key has all codes, the pupils' rules none."""
    with zipfile.ZipFile(evening.files["print-outs"].path()) as archive:
        texts = {name: texts_of(archive.read(name)) for name in archive.namelist()}
    assert len(texts) > 12
    assert all(pages and all(pages) for pages in texts.values())
    gear = gear_of(evening.game)
    codes = {written(gear, lock) for lock in gear.edition.codes}
    key, rules = (" ".join(texts[f"tide-mill-{name}.pdf"]) for name in ("key", "rules"))
    assert all(code in key and code not in rules for code in codes if code)


def texts_of(pdf: bytes) -> list[str]:
    document = PdfDocument(pdf)
    return [page.get_textpage().get_text_range().strip() for page in document]


def look_at_report(evening: Evening) -> None:
    text = evening.files["report"].path().read_text("utf-8-sig")
    rows = list(csv.reader(io.StringIO(text)))
    ends = {row[0]: row[3] for row in rows if row[2] == "group.finished"}
    assert ends == dict.fromkeys(TABLES.values(), "won")
    sums = {(row[0], row[2]): row[4] for row in rows if row[2] in ("hints", "wrong")}
    assert [sums["Window", name] for name in ("hints", "wrong")] == ["1", "1"]
    assert [sums["Door", name] for name in ("hints", "wrong")] == ["0", "0"]


# The session.


def of_session(ledger: str) -> State:
    """Return how the only session in a ledger stands."""
    with closing(Ledger(ledger)) as opened:
        desk = Desk(opened, SystemClock())
        [session] = desk.sessions()
        return desk.state(session.id)


def played(game: Path, ledger: Path) -> State:
    """Return the session of an hour that is noted without a page."""
    gear = gear_of(game)
    with closing(Ledger(str(ledger))) as opened:
        desk = Desk(opened, SystemClock())
        session, todo = prepared(desk, [gear.edition]), Checklist("set-up", (gear,))
        for box in todo.boxes:
            tick(desk, session, todo, box, Tap(new_id(0), DEVICE))
        begin(desk, [gear.edition], TABLES, 60 * MINUTES, "class", DEVICE)
        for kind, data in hour():
            desk.take(session, Draft(kind, data, new_id(0), DEVICE, "teacher"))
        return desk.state(session)


def hour() -> Iterator[tuple[str, dict[str, Any]]]:
    """Yield what is noted from the first hint to the end."""
    yield "hint.given", {"group": "1", "clue": "flour-sacks", "line": 1}
    yield "code.tried", {"group": "1", "lock": "sluice", "right": False}
    for group in TABLES:
        for _, things in FINDS:
            for thing in things:
                sort = "item" if thing == "brass-key" else "lock"
                yield f"{sort}.{NOTED[sort]}", {"group": group, sort: thing}
    yield "clock.ended", {"why": ""}
    for group in TABLES:
        yield "group.finished", {"group": group, "outcome": "won"}
    yield "session.closed", {}


NOTED = {"item": "found", "lock": "opened"}


def told(value: Any) -> Any:
    """Return what a session has come to but for times, devices and ids, in order."""
    if isinstance(value, Deed):
        return "done"
    if isinstance(value, Event):
        return value.type, value.data
    if isinstance(value, PlayClock):
        return value.planned_s, value.extended_s, value.status, len(value.runs)
    if isinstance(value, Mapping):
        return [(key, told(one)) for key, one in value.items()]
    if isinstance(value, tuple):
        return [told(one) for one in value]
    if is_dataclass(value):
        found = {one.name: told(getattr(value, one.name)) for one in fields(value)}
        return {name: one for name, one in found.items() if name != "seq"}
    return value

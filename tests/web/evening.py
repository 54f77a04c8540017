"""A teacher's evening and hour as a list of acts, each for any pair of hands.

The example is copied, made longer by a box, its lock and its clue, mended, printed, set up,
and played to its end by two tables.
"""

from __future__ import annotations

import re
import socket
from collections.abc import Callable
from contextlib import ExitStack
from pathlib import Path

from playwright.sync_api import Download, Locator, expect

from boxwright.web.studio import Studio
from tests.web.hands import Hands
from tests.web.serving import PATIENCE_MS, served

TABLES = {"1": "Window", "2": "Door"}
MINUTES = 40
FINDS = (
    ("They opened the miller's tin case", ("sluice",)),
    ("They opened an oilskin pouch", ("race",)),
    ("They opened the key safe", ("hatch",)),
    ("They opened the biscuit tin", ("gear",)),
    ("They opened the harbour letter", ("seal",)),
    ("They opened the rope locker", ("rope",)),
    ("They found a brass key", ("brass-key",)),
    ("They opened the flour bin", ("water", "latch")),
)
"""What is tapped as each table gets on, and what is noted by that."""


class Evening:
    """A pair of hands at a studio, and what they took home from it."""

    def __init__(self, hands: Hands, folder: Path) -> None:
        self.hands, self.page = hands, hands.page
        self.games, self.ledger = folder / "games", str(folder / "ledger.sqlite")
        self.game = self.games / "tide-mill"
        self.files: dict[str, Download] = {}
        self.book: dict[str, str] = {}
        self.address, self._port, self._open = "", _free_port(), ExitStack()
        self.games.mkdir()
        self.page.set_default_timeout(PATIENCE_MS)
        self.page.emulate_media(reduced_motion="reduce")

    def begin(self) -> None:
        """Start the studio, anew where it runs: what stays of it is what lies on the disk."""
        self.end()
        studio = Studio(self.games, self.ledger)
        self.address = self._open.enter_context(served(studio, self._port))

    def end(self) -> None:
        """Close the studio."""
        self._open.close()

    def go(self, name: str) -> None:
        """Follow a link in the row of the game's pages."""
        self.hands.press(name, "link", self.page.get_by_role("navigation"))
        current = self.page.get_by_role("navigation").locator("[aria-current]")
        expect(current).to_have_text(name)
        self.page.wait_for_load_state()

    def see(self, what: Locator | str) -> None:
        """Wait until something is there to be seen."""
        found = self.page.get_by_text(what) if isinstance(what, str) else what
        expect(found.first).to_be_visible(timeout=PATIENCE_MS)

    def changed(self, what: str) -> None:
        """Wait until a change is the one that Undo would take back."""
        said = re.compile(re.escape(what))
        expect(self.page.locator("#undo")).to_have_attribute("title", said)

    def chosen(self, thing: str) -> None:
        """Wait until a thing on the shelf is the chosen one."""
        found = self.hands.thing(thing)
        expect(found).to_have_attribute("aria-selected", "true")


def _free_port() -> int:
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        port: int = listener.getsockname()[1]
        return port


# The evening.


def copy_the_example(evening: Evening) -> None:
    evening.page.goto(f"{evening.address}/games")
    mill = evening.page.locator("form", has_text="The Tide Mill")
    evening.hands.press("Make a copy to change", within=mill)
    evening.see("Nothing to fix")
    evening.hands.choose("Tables", "2")
    evening.page.wait_for_url("**groups=2*")


def add_a_box_with_a_lock_and_its_clue(evening: Evening) -> None:
    hands, form = evening.hands, evening.page.locator("dialog[open]")
    hands.press("A box")
    hands.write("Name, as pupils read it", "the rope locker", form)
    hands.choose("Where it lies", "The table", form)
    hands.press("Add", within=form)
    evening.chosen("the rope locker")
    hands.press("A lock")
    hands.unfold("a short name", form)
    hands.write("Short name, for you alone", "rope", form)
    hands.press("Add", within=form)
    evening.chosen("rope, a lock with number wheels")
    hands.press("A clue")
    hands.choose("What pupils do", "Count with care", form)
    hands.choose("Where it lies", "the biscuit tin", form)
    hands.unfold("A short name", form)
    hands.write("Short name, for you alone", "rope-yard", form)
    hands.press("Add", within=form)
    evening.chosen("a sheet of the clue rope-yard")


def move_a_sheet_and_rename_a_box(evening: Evening) -> None:
    evening.hands.move("a sheet of the clue float-or-sink", "the rope locker")
    evening.changed("float-or-sink")
    evening.hands.pick("the grain chest")
    evening.hands.write("Name, as pupils read it", "the flour bin")
    evening.hands.finish()
    evening.changed("the flour bin")


def undo_and_redo_after_a_restart(evening: Evening) -> None:
    evening.begin()
    evening.hands.press("Undo")
    evening.see(evening.hands.thing("the grain chest"))
    evening.hands.press("Redo")
    evening.see(evening.hands.thing("the flour bin"))


def try_paper_in_place_of_a_lock_and_think_better_of_it(evening: Evening) -> None:
    evening.go("Things to fix")
    lacks = evening.page.locator(".finding.stop", has_text="“rope”")
    what = lacks.locator(".what").inner_text()
    evening.hands.press(f"Allow a stand-in for it {what}", within=lacks)
    evening.see("Nothing to fix was found.")
    evening.hands.press("Undo")
    evening.see(lacks)


def put_locks_and_boxes_on_the_shelf(evening: Evening) -> None:
    hands, form = evening.hands, evening.page.locator(".adds[open]")
    evening.go("Kit")
    for tag in ("N5", "N6"):
        hands.unfold("Add a lock")
        hands.choose("Make", "three-numbers", form)
        hands.press("Put on the shelf")
        evening.changed(tag)
    for tag, name in (("B3", "boat trunk"), ("B4", "sail trunk")):
        hands.unfold("Add a box")
        hands.write("What it is", name, form)
        hands.press("Put on the shelf")
        evening.changed(tag)
    evening.go("Things to fix")
    evening.see("Nothing to fix was found.")


def print_for_two_tables(evening: Evening) -> None:
    evening.go("Print-outs")
    evening.hands.write("How many tables play?", "2")
    evening.hands.press("Make it now")
    evening.see("The printed set is as the game is now")
    evening.see("For the pupils")
    evening.hands.unfold("Save all files")
    evening.files["print-outs"] = evening.hands.taken("Download all as one zip file")


def set_up(evening: Evening) -> None:
    """Tick the first section box by box, and each other by its one button, where it has one."""
    evening.go("Set-up")
    sections = evening.page.locator("#checklist .section")
    for at, section in enumerate(sections.all()):
        whole = section.locator("button.all:visible")
        singly = section.get_by_role("checkbox")
        for what in (whole if at and whole.count() else singly).all():
            evening.hands.use(what)
    evening.see("Everything is ready.")
    evening.hands.press("Open the lock book", "link")
    leaves = evening.page.locator(".leaf")
    evening.see(leaves)
    for leaf in leaves.all():
        evening.book[leaf.locator(".sticker").inner_text()] = leaf.locator(".state").inner_text()


# The hour.


def begin_the_hour(evening: Evening) -> None:
    evening.hands.press("My games", "link")
    evening.hands.press("The Tide Mill", "link")
    evening.go("The hour")
    for group, table in TABLES.items():
        evening.hands.write(f"Table {group}", table)
    evening.hands.write("Minutes of play", str(MINUTES))
    evening.hands.press("Start the clock")
    evening.see(f"{MINUTES} min left")


def help_a_table(evening: Evening) -> None:
    hands = evening.hands
    hands.press("Window: look closer")
    # Not every sheet has a usual mistake.
    clue = evening.page.get_by_role("article").filter(has_text="Usual mistakes").first
    hands.press("I read it to them", within=clue)
    evening.see("Hint 1, given:")
    hands.unfold("Usual mistakes", clue)
    hands.write("An answer they bring you", clue.locator("dt").first.inner_text(), clue)
    hands.press("What is it?", within=clue)
    evening.see("Not it, but a usual mistake.")


def tap_what_each_table_opens(evening: Evening) -> None:
    _tap(evening, "1", FINDS[0][0])
    evening.hands.press("Take back: Window opened the lock sluice on the miller's tin case")
    for group in TABLES:
        for said, _ in FINDS:
            _tap(evening, group, said)
        evening.see(evening.page.locator(f"#tile-{group}", has_text="They have the miller's notes"))


def _tap(evening: Evening, group: str, said: str) -> None:
    button = evening.page.get_by_role("button", name=f"{said}: {TABLES[group]}")
    evening.hands.use(button)
    expect(button).to_have_count(0)


def close_the_hour(evening: Evening) -> None:
    hands = evening.hands
    hands.press("End play")
    hands.press("Close this hour")
    for name in TABLES.values():
        hands.unfold(name)
        evening.see(f"{name} won")
    evening.files["report"] = hands.taken("For a spreadsheet (CSV)")


ACTS: tuple[Callable[[Evening], None], ...] = (
    copy_the_example,
    add_a_box_with_a_lock_and_its_clue,
    move_a_sheet_and_rename_a_box,
    undo_and_redo_after_a_restart,
    try_paper_in_place_of_a_lock_and_think_better_of_it,
    put_locks_and_boxes_on_the_shelf,
    print_for_two_tables,
    set_up,
    begin_the_hour,
    help_a_table,
    tap_what_each_table_opens,
    close_the_hour,
)

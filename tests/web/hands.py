"""Two pairs of hands for a browser: one has a mouse, the other nothing but the keyboard.

Both do the same few things to whatever has a name that a screen reader would say, and both type.
The keyboard gets everywhere by Tab and arrow keys, so that what it does not reach fails the test.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from typing import Literal, TypeAlias

from playwright.sync_api import Download, Locator, Page

Role: TypeAlias = Literal["button", "link"]
Field: TypeAlias = Literal["textbox", "spinbutton", "combobox"]

FIELDS: tuple[Field, ...] = ("textbox", "spinbutton", "combobox")

FAR = 600
"""How many keys somebody presses to get somewhere before giving up."""
TURNS = 4
"""How often somebody who went too far turns round before giving up."""
WAY_TO = """(goal) => {
  const at = document.activeElement;
  if (!goal.isConnected) return "lost";
  if (at === goal) return "there";
  if (at === document.body) return "Tab";
  return at.compareDocumentPosition(goal) & Node.DOCUMENT_POSITION_PRECEDING ? "Shift+Tab" : "Tab";
}"""


class Hands(ABC):
    """What hands can do to a page; `within` is the part of it where they look."""

    def __init__(self, page: Page) -> None:
        self.page = page

    def press(self, name: str, role: Role = "button", within: Locator | None = None) -> None:
        """Press a button, or follow a link."""
        self.use((within or self.page).get_by_role(role, name=name, exact=True))

    def unfold(self, said: str, within: Locator | None = None) -> None:
        """Open what is folded away under a line."""
        self.use((within or self.page).locator("summary", has_text=said))

    def taken(self, name: str) -> Download:
        """Follow a link that brings a file, and return the file."""
        with self.page.expect_download() as coming:
            self.press(name, "link")
        return coming.value

    def field(self, name: str, within: Locator | None = None) -> Locator:
        """Return a field to write into, or a list to choose from."""
        roles = [(within or self.page).get_by_role(role, name=name, exact=True) for role in FIELDS]
        return roles[0].or_(roles[1]).or_(roles[2])

    def thing(self, name: str) -> Locator:
        """Return a thing on the shelf, by a part of what a screen reader says of it."""
        return self.page.get_by_role("treeitem", name=name)

    @abstractmethod
    def use(self, what: Locator) -> None:
        """Press what is pressed, tick what is ticked."""

    @abstractmethod
    def write(self, name: str, text: str, within: Locator | None = None) -> None:
        """Put text into a field, in place of what stands there."""

    @abstractmethod
    def finish(self) -> None:
        """Be done with a field, so that what was written there counts."""

    @abstractmethod
    def choose(self, name: str, option: str, within: Locator | None = None) -> None:
        """Choose one of a list."""

    @abstractmethod
    def pick(self, thing: str) -> None:
        """Choose a thing on the shelf."""

    @abstractmethod
    def move(self, thing: str, box: str) -> None:
        """Put a thing on the shelf into a box."""


class Mouse(Hands):
    """Clicks and drags; texts alone are typed."""

    def use(self, what: Locator) -> None:
        what.click()

    def write(self, name: str, text: str, within: Locator | None = None) -> None:
        self.field(name, within).click(click_count=3)
        self.page.keyboard.type(text)

    def finish(self) -> None:
        self.page.get_by_role("heading", level=1).click()

    def choose(self, name: str, option: str, within: Locator | None = None) -> None:
        self.field(name, within).select_option(label=option)

    def pick(self, thing: str) -> None:
        self.thing(thing).locator("> .name, > .front").click()

    def move(self, thing: str, box: str) -> None:
        self._over(self.thing(thing))
        self.page.mouse.down()
        self._over(self.thing(box).locator("> .front"))
        self.page.mouse.up()

    def _over(self, what: Locator) -> None:
        place = what.bounding_box()
        assert place is not None
        x, y = place["x"] + place["width"] / 2, place["y"] + place["height"] / 2
        self.page.mouse.move(x, y, steps=4)


class Keyboard(Hands):
    """Has keys alone: Tab and Shift+Tab, arrows, Enter, the space bar, and letters."""

    def use(self, what: Locator) -> None:
        self.tab_to(what)
        self._key("Space" if what.get_attribute("type") == "checkbox" else "Enter")

    def write(self, name: str, text: str, within: Locator | None = None) -> None:
        self.tab_to(self.field(name, within))
        self._key("Control+a")
        self.page.keyboard.type(text)

    def finish(self) -> None:
        self._key("Enter")

    def choose(self, name: str, option: str, within: Locator | None = None) -> None:
        field = self.field(name, within)
        self.tab_to(field)
        self._down_to(field, option)

    def pick(self, thing: str) -> None:
        self._arrow_to(thing)
        self._key("Space")

    def move(self, thing: str, box: str) -> None:
        self._arrow_to(thing)
        self._key("m")
        places = self.page.locator("#panel select:focus")
        places.wait_for()
        self._down_to(places, box)
        self._key("Tab")
        self._key("Enter")

    def tab_to(self, what: Locator) -> None:
        """Press Tab until it has the focus; Shift+Tab where it comes before what has it now."""
        self._on_and_on(what, None)

    def _arrow_to(self, thing: str) -> None:
        self.tab_to(self.page.locator("#shelf [role=treeitem][tabindex='0']"))
        self._key("Home")
        self._on_and_on(self.thing(thing), "ArrowDown")

    def _on_and_on(self, what: Locator, key: str | None) -> None:
        goal, before, turns = what.element_handle(), "", 0
        for _ in range(FAR):
            way = self.page.evaluate(WAY_TO, goal)
            if way == "there":
                return
            if way == "lost":  # the page was made anew meanwhile
                goal = what.element_handle()
                continue
            turns += way != before
            before = way
            if turns > TURNS:
                break
            self._key(key or way)
        raise AssertionError(f"no key leads to {what}")

    def _down_to(self, field: Locator, option: str) -> None:
        options = [one.strip() for one in field.locator("option").all_text_contents()]
        self._key("Home")
        for _ in range(options.index(option)):
            self._key("ArrowDown")

    def _key(self, key: str) -> None:
        self.page.keyboard.press(key)

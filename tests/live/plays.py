"""A small game in play for the tests: its edition, a clock that obeys, and streams of events."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from hypothesis import strategies as st

from boxwright.choose.edition import Edition, named
from boxwright.game.arranged import (
    ArrangedBox,
    ArrangedClue,
    ArrangedGame,
    ArrangedItem,
    ArrangedLock,
    TimePlan,
    Told,
)
from boxwright.ledger.event import wall_text
from boxwright.live.clock import Instant
from boxwright.live.drafts import Draft
from boxwright.live.events import Event
from boxwright.problems import Where

START = Instant("boot-1", 600_000, 1_935_911_523_120)
SESSION = "s-test"


@dataclass
class ObedientClock:
    """A clock that goes on when it is told to."""

    at: Instant = START

    def now(self) -> Instant:
        return self.at

    def passes(self, seconds: float) -> None:
        """Let time pass; whether the computer sleeps meanwhile makes no difference."""
        self.at = self.at.moved(round(seconds * 1000))

    def jumps(self, seconds: float) -> None:
        """Set the wall clock forward or back."""
        self.at = replace(self.at, wall_ms=self.at.wall_ms + round(seconds * 1000))

    def reboots(self, seconds: float) -> None:
        """Start the computer anew, which takes so long by the wall."""
        wall_ms = self.at.wall_ms + round(seconds * 1000)
        self.at = Instant(f"{self.at.boot}+", 2_000, wall_ms)


# the game: a crate on the table, in it a tin and a chest; the chest holds what wins


def _lock(closes: str, **more: Any) -> ArrangedLock:
    blank = dict.fromkeys(
        ("opened_by", "wheels", "faces", "length", "moves", "numbers", "tolerance", "keys")
    )
    values: dict[str, Any] = {**blank, "mechanism": "number-wheels", "code": "auto", **more}
    return ArrangedLock(closes=closes, stand_in="never", order_matters=None, **values)


def _clue(gives: str, leads_to: Any, place: str = "start") -> ArrangedClue:
    return ArrangedClue(
        gives=gives, leads_to=leads_to, goals=(), kind="nonogram", content=None, options={},
        level="ordinary", place=place, parts={}, on=None, hints=None, written_on=False, needs=(),
        way="one", source=Where("game.toml"),
    )  # fmt: skip


GAME = ArrangedGame(
    id="test-game", title="A test", summary="", language="en", licence="", authors=(),
    ages=(9, 11), pupils=(3, 4), hints=2, time=TimePlan(3000, 240, 300, 420, 240), goals={},
    story=Told((), (), (), ()),
    boxes={
        "crate": ArrangedBox("the crate", "table", None, None, False),
        "tin": ArrangedBox("the tin", "crate", None, None, False),
        "chest": ArrangedBox("the chest", "crate", None, None, False),
    },
    locks={
        "front": _lock("crate"),
        "side": _lock("tin"),
        "lid": _lock("chest"),
        "latch": _lock("chest", mechanism="key", opened_by="brass-key"),
    },
    items={
        "brass-key": ArrangedItem("a brass key", "window-sill", None, False),
        "torch": ArrangedItem("a torch", "tin", None, False),
        "notes": ArrangedItem("the notes", "chest", None, True),
    },
    clues={
        "map": _clue("front", "lock"),
        "list": _clue("side", "lock", "crate"),
        "picture": _clue("lid", "lock", "tin"),
        "riddle": _clue("brass-key", "item"),
    },
)  # fmt: skip

EDITION = named(
    Edition(
        seed=1, set="a", groups=("1", "2"), printing=("moon", "gate", "leaf"), game=GAME,
        chosen=GAME.chosen(), stickers={"1": {}, "2": {}}, places={},
        codes={"front": ("4", "2", "7")}, sheets={}, order=(),
    )
)  # fmt: skip
NAMES = {"1": "Window", "2": "Door"}


# events, as if they came from a ledger


@dataclass
class Play:
    """A stream of events that grows by `says`, each a second after the last."""

    clock: ObedientClock = field(default_factory=ObedientClock)
    events: list[Event] = field(default_factory=list)

    def says(self, kind: str, ago_s: float = 0, device: str = "d-1", **data: Any) -> Event:
        """Add an event, and let a second pass."""
        at = self.clock.now()
        event = Event(
            id=f"event-{len(self.events) + 1:06}", session=SESSION, type=kind,
            wall=wall_text(at.wall_ms), since_boot_ms=at.since_boot_ms, boot=at.boot,
            device=device, rights="teacher", data=data, happened_ms=round(-1000 * ago_s),
            seq=len(self.events) + 1,
        )  # fmt: skip
        self.events.append(event)
        self.clock.passes(1)
        return event


def opened(names: Mapping[str, str] = NAMES) -> Play:
    """Return a play that has been opened, with its groups."""
    play = Play()
    editions = dict.fromkeys(names, EDITION.id)
    play.says("session.opened", editions=editions, planned_s=1500, purpose="class", forecast=None)
    for group, name in names.items():
        play.says("group.joined", group=group, name=name, edition=EDITION.id)
    return play


def draft(kind: str, id: str = "", device: str = "d-1", **data: Any) -> Draft:
    """Return what a page sends, under an id that follows from what it says unless one is given."""
    own = id or f"{kind}-{abs(hash((kind, device, repr(data))))}".replace(".", "-")
    return Draft(kind, data, own, device, "teacher")


# streams of anything that may happen

GROUP = st.sampled_from(["1", "2"])
LOCK = st.sampled_from(sorted(GAME.locks))
CLUE = st.sampled_from(sorted(GAME.clues))
TEXT = st.text("abc =é", min_size=1, max_size=5)
DATA: Mapping[str, dict[str, st.SearchStrategy[Any]]] = {
    "session.closed": {},
    "session.marked": {"broken": st.booleans(), "why": TEXT},
    "device.joined": {"rights": st.sampled_from(["teacher", "group"])},
    "group.joined": {"group": GROUP, "name": TEXT, "edition": st.just(EDITION.id)},
    "clock.started": {},
    "clock.held": {"why": TEXT},
    "clock.resumed": {},
    "clock.extended": {"seconds": st.integers(-60, 600)},
    "clock.ended": {"why": TEXT},
    "clock.moved": {"wall_change_ms": st.integers(-10_000, 10_000)},
    "clue.taken": {"group": GROUP, "clue": CLUE},
    "lock.opened": {"group": GROUP, "lock": LOCK},
    "item.found": {"group": GROUP, "item": st.sampled_from(sorted(GAME.items))},
    "code.tried": {"group": GROUP, "lock": LOCK, "right": st.booleans()},
    "hint.given": {"group": GROUP, "clue": CLUE, "line": st.integers(1, 3)},
    "mishap.noted": {"group": GROUP, "thing": LOCK, "what": st.just("jammed"), "note": TEXT},
    "note.made": {"group": st.none() | GROUP, "text": TEXT},
    "group.finished": {"group": GROUP, "outcome": st.sampled_from(["won", "unfinished"])},
    "step.ticked": {"list": st.sampled_from(["set-up", "reset"]), "step": TEXT},
}
"""What each type may say; those that name an earlier event are added by `streams`."""
POINTING = ("undone", "mishap.mended")


@st.composite
def streams(draw: st.DrawFn) -> list[Event]:
    """Draw an opened session and what may happen in it: sleep, reboots and late taps too."""
    play = opened()
    kinds = st.sampled_from([*sorted(DATA), *POINTING])
    for kind in draw(st.lists(kinds, max_size=25)):
        _pass(play.clock, draw(st.sampled_from(["passes", "reboots", "jumps"])), draw)
        said = {name: draw(value) for name, value in DATA.get(kind, {}).items()}
        if kind in POINTING:
            said = {"event": draw(st.sampled_from(_pointed(kind, play.events)))}
        late, device = draw(st.integers(0, 90)), draw(st.sampled_from("ab"))
        play.says(kind, ago_s=late, device=device, **said)
    return play.events


def _pass(clock: ObedientClock, how: str, draw: st.DrawFn) -> None:
    getattr(clock, how)(draw(st.integers(1, 120)))


def _pointed(kind: str, events: Sequence[Event]) -> list[str]:
    """Return the ids that an undoing or a mending may name."""
    noted = [one.id for one in events if one.type == "mishap.noted"]
    return [one.id for one in events] if kind == "undone" or not noted else noted

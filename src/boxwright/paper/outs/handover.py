"""The handover page: all that a colleague must know to run the game without its author."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from boxwright.paper.outs.lines import sentence
from boxwright.paper.outs.printing import Printing
from boxwright.paper.page import Page
from boxwright.problems import Message, say
from boxwright.puzzles.contract import Reader

READER: Reader = "teacher"
ORDER = 13
LABELS = ("time", "from", "lasts", "kit", "run", "props")
RUNS = ("read", "set-up", "begin", "watch", "hint", "end", "talk", "count")


def pages(printing: Printing) -> Iterator[Page]:
    """Yield the page."""
    game = printing.edition.game
    facts = [printing.said(fact) for fact in _facts(printing)]
    time, kit = list(_time(printing)), list(_kit(printing))
    runs = [printing.text(f"printout.run-{one}") for one in RUNS]
    yield printing.page(
        "handover",
        title=printing.text("printout.handover-title", title=game.title),
        alt=printing.text("printout.handover-alt"),
        sheet={"summary": game.summary, "facts": facts, "time": time, "kit": kit, "runs": runs},
        labels={name: printing.text(f"printout.handover-{name}") for name in LABELS},
        prints=[
            *([game.summary] if game.summary else []), *facts, *runs,
            *(one["name"] for one in time), *(one["name"] for one in kit),
        ],
        reader=READER,
        flows=True,
    )  # fmt: skip


def _facts(printing: Printing) -> Iterator[Message]:
    game, edition = printing.edition.game, printing.edition
    yield say("printout.fact-ages", youngest=game.ages[0], oldest=game.ages[1])
    yield say(
        "printout.fact-groups", n=len(edition.groups), least=game.pupils[0], most=game.pupils[1]
    )
    yield say("printout.fact-clues", n=len(edition.sheets), locks=len(game.locks))
    for goal in game.goals.values():
        yield say("printout.fact-goal", goal=goal)
    room = printing.folder.room
    if room is not None:
        yield say("printout.fact-room", room=room.room.name)
    if game.authors:
        yield say("printout.fact-authors", authors=game.authors)
    if game.licence:
        yield say("printout.fact-licence", licence=game.licence)


def _time(printing: Printing) -> Iterator[dict[str, Any]]:
    """Yield each part of the period with its minutes, bell to bell."""
    time = printing.edition.game.time
    parts = (
        ("settle", time.settle_s), ("briefing", time.briefing_s), ("play", time.play_s),
        ("debrief", time.debrief_s), ("tidy", time.tidy_s),
    )  # fmt: skip
    at = 0
    for name, seconds in parts:
        if seconds > 0:
            yield {
                "name": printing.text(f"printout.time-{name}"),
                "from": at // 60,
                "minutes": seconds // 60,
            }
            at += seconds


def _kit(printing: Printing) -> Iterator[dict[str, Any]]:
    """Yield every box, lock and item with its stickers."""
    game = printing.edition.game
    for id in (*game.boxes, *game.locks, *game.items):
        name = game.name_of(id)
        if id in game.locks:
            lock = say(f"mechanism.name-{game.locks[id].mechanism}")
            box = game.name_of(game.locks[id].closes)
            name = printing.text("step.lock", lock=lock, box=box)
        stickers = printing.text("printout.all", all=printing.stickers(id))
        yield {"name": sentence(name), "stickers": stickers}

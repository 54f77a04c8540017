"""The debrief: what each goal is asked by, and the way to every clue's answer in short."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from boxwright.paper.outs import clues
from boxwright.paper.outs.printing import Printing
from boxwright.paper.page import Page
from boxwright.puzzles.contract import Reader

READER: Reader = "teacher"
ORDER = 12
MOST_STEPS = 4
"""Lines for the working of a clue, after the one that says how to go about it."""


def pages(printing: Printing) -> Iterator[Page]:
    """Yield the page."""
    goals, told = list(_goals(printing)), list(_clues(printing))
    game = printing.edition.game
    labels = {
        "how": printing.text("printout.debrief-how", n=max(1, round(game.time.debrief_s / 60))),
        "solved": printing.text("printout.debrief-solved"),
    }
    if game.story.unfinished:
        labels["unfinished"] = printing.text("printout.debrief-unfinished")
    yield printing.page(
        "debrief",
        title=printing.text("printout.debrief-title", title=game.title),
        alt="",
        sheet={"goals": goals, "clues": told, "unfinished": game.story.unfinished},
        labels=labels,
        prints=[text for one in goals for text in (one["goal"], *one["ask"]) if text]
        + [text for one in told for text in (one["title"], one["answer"], *one["how"])]
        + list(game.story.unfinished),
        reader=READER,
        flows=True,
    )


def _goals(printing: Printing) -> Iterator[dict[str, Any]]:
    """Yield every goal with its questions, then the questions that are about none."""
    game = printing.edition.game
    for id, goal in game.goals.items():
        asked = [one.ask for one in game.story.debrief if one.goal == id]
        yield {"goal": goal, "ask": asked or [printing.text("printout.debrief-ask")]}
    loose = [one.ask for one in game.story.debrief if one.goal not in game.goals]
    if loose or not game.goals:
        yield {"goal": "", "ask": loose or [printing.text("printout.debrief-ask")]}


def _clues(printing: Printing) -> Iterator[dict[str, Any]]:
    for number, clue in enumerate(printing.order, 1):
        solution = printing.solution(clue)
        way_in = clues.hints(printing, clue)[:1]
        yield {
            "title": printing.text("printout.key-clue", number=number, clue=clue),
            "mark": list(printing.edition.sheets[clue].mark),
            "answer": clues.answer(printing, clue, solution),
            "how": [*way_in, *clues.solved(printing, clue).working(MOST_STEPS)],
        }

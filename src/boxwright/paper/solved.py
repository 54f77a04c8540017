"""A sheet as the teacher sees it: drawn with its answer, worked out, with hints and mistakes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import islice
from typing import Any

from boxwright.frozen import frozen_value
from boxwright.game.mechanisms import Device, entry
from boxwright.messages import words
from boxwright.paper.frame import Look
from boxwright.paper.outs.lines import sentence
from boxwright.paper.page import Page
from boxwright.problems import Message, say
from boxwright.puzzles.contract import Answer, Kind, Mistake, Solution

MOST_STEPS = 6
MOST_MISTAKES = 4


@frozen_value
class Solved:
    """A sheet with its solution, None where its solver gives up; `device` is the lock it opens."""

    kind: Kind
    sheet: Any
    knows: Any
    solution: Solution | None
    language: str
    device: Device | None = None

    def spelled(self, answer: Answer) -> str:
        """Return an answer in writing, as the lock writes it."""
        if self.device is not None and self.device.mechanism != "key":
            return entry(self.device).write(self.device, answer.symbols)
        short = all(len(symbol) == 1 for symbol in answer.symbols)
        return ("" if short else " ").join(answer.symbols)

    def on_paper(self) -> Mapping[str, Any] | None:
        """Return what the kind's template needs to draw the answer; None where it draws none."""
        ask = getattr(self.kind, "solved", None)
        if ask is None or self.solution is None:
            return None
        found: Mapping[str, Any] = ask(self.sheet, self.knows, self.solution)
        return found

    def working(self, most: int = MOST_STEPS) -> list[str]:
        """Return the steps of the working, `most` lines: a long one without its middle."""
        if self.solution is None:
            return [self._said(say("printout.no-working"))]
        steps = [self._said(step.says) for step in self.solution.working]
        if len(steps) <= most:
            return steps
        more = self._said(say("printout.more-steps", n=len(steps) - most + 1))
        return [*steps[: most - 2], more, steps[-1]]

    def hints(self) -> tuple[str, ...]:
        """Return the kind's three hints from this very sheet."""
        if self.solution is None:
            return ()
        found = self.kind.hints(self.sheet, self.knows, self.solution)
        return tuple(sentence(self._said(hint)) for hint in found)

    def wrong(self) -> Iterator[Mistake]:
        """Yield all usual wrong answers; none where the solver gave up.

        What opens the lock all the same, which takes its figures in any order, is none.
        """
        if self.solution is None:
            return
        for one in self.kind.mistakes(self.sheet, self.knows, self.solution):
            if not self._opens(one.answer, self.solution.answer):
                yield one

    def _opens(self, wrong: Answer, right: Answer) -> bool:
        if self.device is None or self.device.mechanism == "key":
            return False
        if len(wrong.symbols) != len(right.symbols):
            return False
        free = replace(self.device, fixed=None)
        return entry(free).same(free, right.symbols, wrong.symbols)

    def mistakes(self) -> Iterator[tuple[str, Message]]:
        """Yield the first usual wrong answers, each with what it means."""
        for one in islice(self.wrong(), MOST_MISTAKES):
            yield self.spelled(one.answer), one.means

    def mistake_lines(self) -> list[str]:
        """Return the usual wrong answers as lines."""
        return [
            self._said(say("printout.key-mistake", answer=wrong, means=sentence(self._said(means))))
            for wrong, means in self.mistakes()
        ]

    def _said(self, message: Message) -> str:
        return words(message, self.language)


def drawing(page: Page, look: Look, solved: Mapping[str, Any] | None) -> dict[str, Any]:
    """Return a sheet's page as `key.typ` draws it small, with its answer on it."""
    data = page.data()
    kept = {name: data[name] for name in ("template", "part", "sheet", "words", "title", "alt")}
    size = {"size": look.size, "width": look.body.width, "height": look.body.height}
    return kept | size | {"solved": solved}

"""What the lock in somebody's hand leads to: a verdict on its code, and three sheets, made.

Each step is worked out when it is asked for, and remembered as long as the studio runs.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Any, TypeVar, get_args

from boxwright.checks.sheets import basis_of
from boxwright.choose.answers import answer_of, answer_of_word
from boxwright.choose.codes import words_for
from boxwright.choose.marks import Mark, draw_triple
from boxwright.choose.sheets import Request, make_sheet
from boxwright.choose.suggest import (
    LeftOut,
    Suggested,
    Suggestion,
    at_level,
    example_code,
    suggest,
)
from boxwright.choose.verdict import Verdict, verdict
from boxwright.content.lesson import content_from, our_table, our_tables
from boxwright.content.pasted import Pasted, recognise
from boxwright.content.tables import Content
from boxwright.dice import Dice
from boxwright.game.ages import ages_fault
from boxwright.game.mechanisms import Device, device_of, entry
from boxwright.game.model import Level
from boxwright.game.spelling import WordIndex
from boxwright.messages import words
from boxwright.paper.frame import Look, size_for
from boxwright.paper.keyed_sheet import Keyed
from boxwright.problems import Basis, Message, Problem, Refused, Where, say
from boxwright.puzzles.contract import Answer, Given
from boxwright.puzzles.shelf import kind
from boxwright.web.hand import OWN_ROWS, Asked
from boxwright.web.studio import Memory

T = TypeVar("T")
Problems = tuple[Problem, ...]
LEVELS: tuple[Level, ...] = get_args(Level)
LANGUAGE = "en"


@dataclass(frozen=True)
class Held:
    """A lock in the hand, with all that was said of it."""

    asked: Asked
    memory: Memory

    @cached_property
    def device(self) -> Device | Problems:
        """The lock's codes, or what contradicts itself in what was said of it."""
        try:
            return device_of(self.asked.make(), Where("lock"))
        except Refused as refused:
            return refused.problems

    @property
    def ages(self) -> tuple[int, int]:
        """The youngest and the oldest."""
        return self.asked.youngest, self.asked.oldest

    @property
    def ages_problem(self) -> Problem | None:
        """What is wrong with the ages, if anything is."""
        return ages_fault(self.ages, Where("ages"))

    @cached_property
    def pasted(self) -> Pasted | None:
        """The lesson's rows as they were recognised; None where there is no lesson."""
        if self.asked.lesson == OWN_ROWS:
            return recognise(self.asked.rows) if self.asked.rows.strip() else None
        return our_table(self.asked.lesson) if self.asked.lesson in our_tables() else None

    @cached_property
    def content(self) -> Content:
        """What sheets can draw on."""
        return Content() if self.pasted is None else content_from(self.pasted, LANGUAGE)

    @property
    def given(self) -> Given:
        """What every kind may draw on, at the ordinary level."""
        return Given(ages=self.ages, language=LANGUAGE, content=self.content)

    # The code

    @cached_property
    def code(self) -> str:
        """The code as it was typed; one that was drawn where none was."""
        if self.asked.code.strip() or not isinstance(self.device, Device):
            return self.asked.code
        if self.asked.lock == "key":
            return words(say("page-lock-in-hand.key-word"))
        return self.drawn()

    def drawn(self) -> str:
        """Return a sound code for the lock; where there is a lesson, one that it can lead to."""
        device = self.device
        assert isinstance(device, Device)
        dice = Dice(self.asked.draw).child("code")
        code = self.memory.recall(
            f"code {self.asked.draw} {device} {self.given}",
            lambda: example_code(device, self.given, dice),
        )
        return entry(device).write(device, code)

    @cached_property
    def verdict(self) -> Verdict | Problem | None:
        """What is to be said of the code; None for a lock with a key, or one that is none."""
        if not isinstance(self.device, Device) or self.asked.lock == "key":
            return None
        return verdict(self.device, self.code, Where("code"), self._words)

    def _words(self) -> WordIndex | None:
        device = self.device
        assert isinstance(device, Device)
        key = f"words {device.longest}"
        return self.memory.recall(key, lambda: words_for(device, LANGUAGE))

    @property
    def answer(self) -> Answer | None:
        """What the sheets must lead to; None where the lock cannot show it."""
        if self.ages_problem is not None or not isinstance(self.device, Device):
            return None
        if self.asked.lock == "key":
            return answer_of_word("".join(self.code.split()))
        found = self.verdict
        return answer_of(self.device, found.code) if isinstance(found, Verdict) else None

    # The sheets

    @cached_property
    def suggested(self) -> Suggested | None:
        """Up to three sheets; None where there is nothing to lead to."""
        answer = self.answer
        if answer is None:
            return None
        return suggest(answer, self.given, Dice("three"), self.asked.three)

    @cached_property
    def sheets(self) -> tuple[Shown, ...]:
        """The sheets, each at the level and in the throw that is wished."""
        found = self.suggested.sheets if self.suggested else ()
        turns = {name: (level, throw) for name, level, throw in map(_turn, self.asked.turn)}
        return tuple(
            Shown(self, one, *turns.get(one.request.kind, ("ordinary", 0))) for one in found
        )

    @property
    def opened(self) -> Shown | None:
        """The sheet that is looked at closely, if one is."""
        return next((one for one in self.sheets if one.kind == self.asked.sheet), None)

    @property
    def unused_lesson(self) -> bool:
        """Whether there is a lesson, and none of the sheets is made from it."""
        found = self.suggested
        return bool(self.content.tables and found and not any(s.from_lesson for s in found.sheets))

    @property
    def lesson_reasons(self) -> tuple[LeftOut, ...]:
        """Why the kinds that could draw on the lesson do not."""
        left = self.suggested.left_out if self.suggested else ()
        return tuple(
            one
            for one in left
            if any(need.table in self.content.tables for need in kind(one.kind).FACTS.content)
        )

    @property
    def lesson_code(self) -> str | None:
        """A code that the lesson can lead to; None where there is none."""
        if self.asked.lock == "key" or not isinstance(self.device, Device):
            return None
        text = self.drawn()
        found = Held(self.asked.model_copy(update={"code": text}), self.memory)
        return None if found.unused_lesson else text


@dataclass(frozen=True)
class Shown:
    """One sheet that is suggested, at a level and in a throw."""

    held: Held
    suggestion: Suggestion
    level: Level
    throw: int

    @property
    def kind(self) -> str:
        """The id of its kind."""
        return self.suggestion.request.kind

    @property
    def title(self) -> Message:
        """What its kind is called."""
        return say(f"{self.kind}.title")

    @property
    def easier(self) -> Level | None:
        """The level below, if there is one."""
        at = LEVELS.index(self.level)
        return LEVELS[at - 1] if at > 0 else None

    @property
    def harder(self) -> Level | None:
        """The level above, if there is one."""
        at = LEVELS.index(self.level) + 1
        return LEVELS[at] if at < len(LEVELS) else None

    @property
    def look(self) -> Look:
        """How its pages look."""
        return Look(self.held.asked.paper, size_for(self.held.ages), LANGUAGE)

    @cached_property
    def keyed(self) -> Keyed | Problems:
        """The sheet, made; or why there is none at this level."""
        return self._recalled("sheet", self._make)

    @cached_property
    def pictures(self) -> tuple[bytes, ...]:
        """Its pages as pictures; none where `faults` says why."""
        found = self._pictures
        return tuple(one for one in found if isinstance(one, bytes))

    @property
    def faults(self) -> Problems:
        """Why there are no pictures of it."""
        return tuple(one for one in self._pictures if isinstance(one, Problem))

    @cached_property
    def _pictures(self) -> tuple[bytes, ...] | Problems:
        keyed = self.keyed
        if isinstance(keyed, tuple):
            return keyed
        return self._recalled(f"pictures {self.look}", lambda: tuple(keyed.pictures(self.look)))

    def _recalled(self, what: str, work: Callable[[], T]) -> T | Problems:
        def tried() -> T | Problems:
            try:
                return work()
            except Refused as refused:
                return refused.problems

        held = self.held
        key = f"{what} {held.device} {held.code} {self._request} {self.throw}"
        return held.memory.recall(key, tried)

    @property
    def _request(self) -> Request:
        return at_level(self.suggestion, self.level).request

    def _make(self) -> Keyed:
        held = self.held
        dice = Dice(self.throw).child("sheet", self.kind)
        found = held.verdict
        assert isinstance(held.device, Device)
        return Keyed(
            made=make_sheet(self._request, dice, lambda path: Where("lock", path)),
            mark=Mark(draw_triple(dice.child("printing")), draw_triple(dice.child("mark"))),
            title=words(self.title),
            device=held.device,
            code=found.code if isinstance(found, Verdict) else None,
            about=words(self.about),
        )

    @property
    def basis(self) -> Basis:
        """Whether its answer is computed, or rests on what the rows say."""
        keyed = self.keyed
        assert isinstance(keyed, Keyed)
        return basis_of(keyed.made.kind, keyed.made.sheet)

    @property
    def about(self) -> Message:
        """Say for whom it was made."""
        youngest, oldest = self.held.ages
        level = say(f"page-lock-in-hand.level-{self.level}")
        return say("page-lock-in-hand.made-for", youngest=youngest, oldest=oldest, level=level)


def _turn(text: str) -> tuple[str, Any, int]:
    kind, level, throw = text.split(":")
    return kind, level, int(throw)

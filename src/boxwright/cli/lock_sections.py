"""The answers of `boxwright lock`: each the same facts for people and for programs."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import islice
from pathlib import Path
from typing import Any

from boxwright.choose.verdict import of_code, read_wish
from boxwright.cli.report import message_json, problem_json
from boxwright.frozen import frozen_value
from boxwright.game.mechanisms import (
    Code,
    Device,
    Guess,
    Mechanism,
    entry,
    faces_said,
    guesses,
    stages,
    suspects,
)
from boxwright.game.model import LockMake
from boxwright.game.spelling import WordIndex
from boxwright.game.wordlists import common_words, left_out, own_words
from boxwright.messages import words
from boxwright.problems import Arg, Problem, Where, refuse, say
from boxwright.text import duration


@frozen_value
class Section:
    """One answer: its name in JSON, its facts, and its lines in words."""

    name: str
    json: Any
    lines: tuple[str, ...]
    ok: bool = True

    def text(self) -> str:
        """Return the lines as they are printed."""
        return "\n".join(self.lines)


@dataclass(frozen=True)
class Asked:
    """A lock, and what is asked of it."""

    make: LockMake
    device: Device
    code_text: str | None = None
    length: int | None = None
    try_s: Fraction | None = None
    language: str = "en"
    own_list: Path | None = None
    earlier: tuple[Code, ...] = ()

    @property
    def mechanism(self) -> Mechanism:
        """The lock's mechanism."""
        return entry(self.device)

    @cached_property
    def index(self) -> WordIndex:
        """The words to look among; the shortest common ones that are asked for anyhow."""
        own = self.own_list
        listed = own_words(own) if own else common_words(self.language)
        return WordIndex(listed, self.device.longest)

    @cached_property
    def code(self) -> Code | Problem | None:
        """The code that was given, or why the lock cannot show it."""
        if self.code_text is None:
            return self.device.fixed
        return read_wish(self.device, self.code_text, Where("--code"), lambda: self.index)

    def needed_code(self, option: str) -> Code:
        """Return the code, or refuse: `option` cannot do without."""
        if isinstance(self.code, Problem):
            refuse(self.code)
        if self.code is None and self.mechanism.alphabet(self.device) is not None:
            refuse(Problem.of("lock.needs-code", Where(option), option=option))
        return self.code or ()

    def written(self, code: Code) -> str:
        """Return a code as it is written."""
        return self.mechanism.write(self.device, code)


def told(id: str, /, **args: Arg) -> str:
    """Return the words of `lock.id`."""
    return words(say(f"lock.{id}", **args))


def about(asked: Asked) -> Section:
    """What the lock is, and how many codes it has."""
    device, mechanism = asked.device, asked.mechanism
    nominal, apart = mechanism.nominal(device), mechanism.told_apart(device)
    name = say(f"mechanism.name-{device.mechanism}")
    lines = [told("about", name=name, length=mechanism.lengths(device))]
    if mechanism.alphabet(device) is None:
        lines = [told("about-key", name=name)]
    lines += [*map(words, faces_said(device)), *_counted(asked, nominal)]
    if apart != nominal:
        worst = sum(tries for tries, _, _ in mechanism.runs(device))
        lines.append(told("apart", n=apart, worst=worst))
    if device.fixed is not None:
        lines.append(told("fixed", code=asked.written(device.fixed)))
    facts = {
        "mechanism": device.mechanism,
        "faces": [list(position) for position in device.positions],
        "length": [device.shortest, device.longest],
        "codes": nominal,
        "told_apart": apart,
        "fixed": None if device.fixed is None else asked.written(device.fixed),
    }
    return Section("lock", facts, tuple(lines))


def _counted(asked: Asked, nominal: int) -> list[str]:
    if not asked.device.positions:
        return []
    keys = asked.mechanism.alphabet(asked.device) is None
    return [told("keys" if keys else "codes", n=nominal)]


def showing(asked: Asked) -> Section:
    """Whether it can show the code; if so, what is weak about it and what else opens it."""
    code = asked.code
    if isinstance(code, Problem):
        said = (told("no", what=code.what), told("remedy", remedy=code.remedy))
        no = {"code": asked.code_text, "can": False, "problem": problem_json(code)}
        return Section("shows", no, said, ok=False)
    found = of_code(asked.device, code or ())
    lines = [told("yes", code=found.written)]
    if found.weak:
        lines.append(told("weak", reasons=found.weak))
    if found.also:
        lines.append(told("also-more" if found.more else "also", codes=found.also))
    facts = {
        "code": found.written,
        "can": True,
        "weak": [message_json(reason) for reason in found.weak],
        "may_also_open": list(found.also),
        "may_also_open_complete": not found.more,
    }
    return Section("shows", facts, tuple(lines))


def guessing(asked: Asked) -> Section:
    """How long it takes to open it by trying."""
    device = asked.device
    code = None if isinstance(asked.code, Problem) else asked.code
    length = asked.length
    if code is None and length is None and device.shortest != device.longest:
        length = min(max(asked.mechanism.usual_length, device.shortest), device.longest)
    if length is not None and length not in device.lengths:
        lengths = asked.mechanism.lengths(device)
        refuse(Problem.of("lock.no-length", Where("--length"), found=length, lengths=lengths))
    found = guesses(device, code=code, length=length, try_s=asked.try_s)
    heads = tuple(told(f"guess-{name}") for name in ("known", "average", "worst"))
    rows = [heads, *(_guess_row(guess) for guess in found)]
    size = len(code) if code is not None else length
    note = (told("guess-length", n=size),) if size and device.shortest != device.longest else ()
    basis = "guess-measured" if asked.try_s is not None else "guess-assumed"
    return Section("guess", [_guess_json(g) for g in found], (*table(rows), *note, told(basis)))


def _guess_row(guess: Guess) -> tuple[str, ...]:
    average, worst = guess.average_tries, guess.tries
    return (
        words(guess.says),
        told("tries", n=max(1, round(average)), time=duration(guess.average_s)),
        told("tries", n=worst, time=duration(guess.worst_s)),
    )


def _guess_json(guess: Guess) -> dict[str, Any]:
    return {
        "known": guess.known,
        "tries_average": float(guess.average_tries),
        "tries_worst": guess.tries,
        "average_s": float(guess.average_s),
        "worst_s": float(guess.worst_s),
    }


def word_list(asked: Asked, count: int) -> Section:
    """Which words of a list it can show, the commonest first."""
    if asked.mechanism.alphabet(asked.device) != "letters":
        name = say(f"mechanism.name-{asked.device.mechanism}")
        refuse(Problem.of("lock.no-words", Where("--words"), name=name))
    found = asked.index.count(asked.device)
    shown = tuple(islice(asked.index.shown(asked.device), count))
    passed = left_out(asked.own_list) if asked.own_list else ()
    lines = [told("words", n=found, looked=len(asked.index.words)), " ".join(shown)]
    if passed:
        lines.append(told("left-out", words=passed))
    facts = {"count": found, "words": list(shown), "left_out": list(passed)}
    return Section("words", facts, tuple(lines))


def lost(asked: Asked, count: int) -> Section:
    """What to try on a lock that was set to something else than meant."""
    code = asked.needed_code("--lost")
    if not asked.device.positions:
        refuse(Problem.of("lock.no-code", Where("--lost")))
    found = stages(asked.device, code, asked.earlier)
    first = list(islice(suspects(asked.device, code, asked.earlier), count))
    rows = [tuple(told(f"lost-{name}") for name in ("stage", "tries", "until"))]
    rows += [(words(s.says), f"{s.tries:,}", words(duration(s.until_s))) for s in found]
    lists = []
    for stage in found:
        codes = tuple(asked.written(s.code) for s in first if s.stage == stage.stage)
        if codes:
            lists.append(told("lost-list", stage=stage.says, codes=codes))
    facts = {
        "meant": asked.written(code),
        "stages": [
            {"stage": s.stage, "tries": s.tries, "until_s": float(s.until_s)} for s in found
        ],
        "first": [{"code": asked.written(s.code), "stage": s.stage} for s in first],
    }
    return Section("lost", facts, (*table(rows), *lists))


def handling(asked: Asked) -> Section:
    """How to set, test and open it, and how it lets a class down."""
    device, mechanism = asked.device, asked.mechanism
    code = asked.needed_code("--set")
    parts = {
        "set": mechanism.setting(device, code, asked.make),
        "test": mechanism.testing(device, code),
        "tell_pupils": mechanism.opening(device, asked.make.reading_line),
        "may_fail": mechanism.failures(device),
    }
    lines: list[str] = []
    for name, steps in parts.items():
        lines.append(told(f"part-{name.replace('_', '-')}"))
        lines += [f"  {at}. {words(step)}" for at, step in enumerate(steps, start=1)]
    facts = {name: [message_json(step) for step in steps] for name, steps in parts.items()}
    return Section("set", facts, tuple(lines))


def table(rows: list[tuple[str, ...]]) -> tuple[str, ...]:
    """Return the lines of a table, its columns as wide as they need be."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return tuple(
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in rows
    )

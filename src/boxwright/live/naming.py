"""What a table's answer is: the right one, a usual mistake and what it means, or neither."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from boxwright.game.mechanisms import Code, Device, entry, read_code
from boxwright.paper.solved import Solved
from boxwright.problems import Message, Problem, Where, refuse, say
from boxwright.puzzles.contract import Mistake


@dataclass(frozen=True, slots=True)
class Named:
    """What was recognised in an answer; `means` says what a usual mistake means."""

    sort: Literal["right", "mistake", "near", "other"]
    says: Message
    means: Message | None = None

    @property
    def right(self) -> bool:
        """Whether it is the answer."""
        return self.sort == "right"


def named_code(solved: Solved, code: Code, text: str, where: Where) -> Named:
    """Return what `text` is for a lock that opens on `code`.

    Raises Refused where the lock cannot show it at all, with what it can show.
    """
    assert solved.device is not None, "a sheet that leads to a code is for a lock"
    device = replace(solved.device, fixed=None)  # what it cannot be set to can be tried on it
    tried = read_code(device, text, where)
    if isinstance(tried, Problem):
        refuse(tried)
    if entry(device).same(device, code, tried):
        return Named("right", say("live.named-right"))
    for mistake in solved.wrong():
        if _same(device, mistake.answer.symbols, tried):
            return _mistake(mistake)
    alike = _alike(code, tried)
    if alike:
        return Named("near", say("live.named-near", n=len(alike), at=alike))
    return Named("other", say("live.named-other"))


def named_word(solved: Solved, answer: str, text: str, where: Where) -> Named:
    """Return what `text` is where a sheet leads to the word or place `answer`."""
    if not text.strip():
        refuse(Problem.of("live.named-empty", where))
    if _bare(text) == _bare(answer):
        return Named("right", say("live.named-right"))
    for mistake in solved.wrong():
        if _bare(solved.spelled(mistake.answer)) == _bare(text):
            return _mistake(mistake)
    return Named("other", say("live.named-other"))


def _mistake(mistake: Mistake) -> Named:
    return Named("mistake", say("live.named-mistake"), mistake.means)


def _same(device: Device, symbols: Code, tried: Code) -> bool:
    return len(symbols) == len(tried) and entry(device).same(device, symbols, tried)


def _alike(code: Code, tried: Code) -> tuple[str, ...]:
    """Return the positions (from 1) at which a code of the same length is right."""
    if len(code) != len(tried):
        return ()
    return tuple(
        str(at) for at, (a, b) in enumerate(zip(code, tried, strict=True), start=1) if a == b
    )


def _bare(text: str) -> str:
    """Return a text as it is compared: letters and figures alone, capitals or not."""
    return "".join(filter(str.isalnum, text.casefold()))

"""A forecast in words: what a teacher reads of it, in a terminal, on paper and on a page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil
from typing import TYPE_CHECKING

from boxwright.messages import SOURCE_LANGUAGE, words
from boxwright.problems import Message, say

if TYPE_CHECKING:
    from boxwright.build.forecasting import Foreseen
    from boxwright.forecast.answers import Chance, ClueForecast, Spread
    from boxwright.forecast.changes import Change, Proposal

MINUTE = 60
SHOWN = 3
LEAST_HELD = 0.1


def verdict(one: Foreseen) -> Iterator[Message]:
    """Say whether they will finish."""
    told = one.forecast
    if told.finish.p50 is None:
        yield say("forecast.never")
        return
    yield say("forecast.verdict", **from_to(told.finish), play=minutes(told.play_s))
    n, error = one.network.pupils, max(1, ceil(200 * told.one.error))
    yield say("forecast.one", n=n, share=share(told.one), error=error)
    if told.groups > 1:
        yield say("forecast.all", n=told.groups, share=share(told.all))


def course(one: Foreseen) -> Iterator[Message]:
    """Say how it will go: the first lock, what holds them up, hints, sheets, idle pupils."""
    told = one.forecast
    if told.first_lock.p50 is not None:
        middle = minutes(told.first_lock.p50)
        yield say("forecast.first", middle=middle, **from_to(told.first_lock))
    held = sorted(told.clues, key=lambda clue: -clue.holds_up)[:SHOWN]
    names = tuple(_held(clue) for clue in held if clue.holds_up >= LEAST_HELD)
    if names:
        yield say("forecast.holds-up", names=names)
    if one.network.hints:
        yield say("forecast.hints", used=f"{told.hints:.1f}", allowed=one.network.hints)
        if told.no_hint_left >= LEAST_HELD:
            yield say("forecast.no-hint-left", share=round(100 * told.no_hint_left))
    yield say("forecast.papers", n=told.papers)
    if told.idle is not None:
        yield say("forecast.idle", share=round(100 * told.idle))


def proposed(found: Sequence[Proposal], target: float) -> Iterator[Message]:
    """Say what would help most, or fill the time best; then each with what it comes to."""
    if not found:
        return
    sort = "longer" if found[0].alone.change.sort == "harder" else "quicker"
    yield say(f"forecast.{sort}", share=round(100 * target))
    for one in found:
        yield say(
            f"forecast.proposal-{sort}",
            what=change(one.alone.change),
            n=round(abs(one.alone.sooner_s or 0.0) / MINUTE),
            gain=round(100 * one.alone.chance.value),
            together=share(one.together),
        )


def listed(found: Sequence[Proposal], target: float, language: str = SOURCE_LANGUAGE) -> list[str]:
    """Return the lines of what is proposed, those under the first as a list."""
    told = [words(message, language) for message in proposed(found, target)]
    return [*told[:1], *(f"– {line}" for line in told[1:])]


def change(one: Change) -> Message:
    """Name a change."""
    return say(f"forecast.change-{one.sort}", name=one.task or "")


def share(chance: Chance) -> Message:
    """Say how many of a hundred, and never that all will where some do not."""
    n = round(100 * chance.value)
    if n == 100 and chance.value < 1:
        return say("forecast.share-most")
    if n == 0 and chance.value > 0:
        return say("forecast.share-few")
    return say("forecast.share", share=n)


def minutes(seconds: float | None) -> str:
    """Say seconds in whole minutes, or that it is never."""
    return words(say("forecast.no-end")) if seconds is None else f"{round(seconds / MINUTE)}"


def from_to(spread: Spread) -> dict[str, str]:
    """Return the ends of what most groups take, in minutes."""
    return {"low": minutes(spread.p10), "high": minutes(spread.p90)}


def _held(clue: ClueForecast) -> Message:
    return say("forecast.held", name=clue.name, share=round(100 * clue.holds_up))

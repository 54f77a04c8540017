"""A forecast in words, and as JSON."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil
from typing import Any

import click

from boxwright.build.forecasting import Foreseen
from boxwright.cli.lock_sections import table
from boxwright.forecast.answers import Chance, ClueForecast, Spread
from boxwright.forecast.changes import Change, Difference, Proposal
from boxwright.forecast.parameters import ALL
from boxwright.messages import words
from boxwright.problems import Message, plain, say

MINUTE = 60
SHOWN = 3
LEAST_HELD = 0.1


def body(found: Sequence[Foreseen]) -> dict[str, Any]:
    """Return what the command prints with `--json`, and the parameters that it rests on."""
    return {
        "forecasts": [_json(one) for one in found],
        "parameters": [plain(one._asdict()) for one in ALL],
    }


def _json(one: Foreseen) -> dict[str, Any]:
    told = one.forecast
    return {
        "for": list(one.groups),
        "pupils": one.network.pupils,
        "groups": told.groups,
        "trials": told.trials,
        "play_s": told.play_s,
        "chance": told.one.value,
        "error": told.one.error,
        "all": plain(told.all),
        "finish_s": plain(told.finish),
        "first_lock_s": plain(told.first_lock),
        "hints": told.hints,
        "hints_allowed": one.network.hints,
        "idle": told.idle,
        "clues": [plain(clue) for clue in told.clues],
        "no_hint_left": told.no_hint_left,
        "papers": told.papers,
        "changes": [_difference(change) for change in one.differences],
        "proposals": [_proposal(best) for best in one.proposals],
    }


def _difference(one: Difference) -> dict[str, Any]:
    about = {"sort": one.change.sort, "task": one.change.task}
    return about | {"chance": plain(one.chance), "sooner_s": one.sooner_s}


def _proposal(one: Proposal) -> dict[str, Any]:
    return _difference(one.alone) | {"together": plain(one.together)}


def show(found: Sequence[Foreseen], target: float) -> None:
    """Show forecasts on stdout, the verdict first."""
    for one in found:
        if len(found) > 1:
            head = words(say("forecast.groups", groups=one.groups))
            click.echo(click.style(head, bold=True))
        for message in (*_verdict(one), *_course(one)):
            click.echo(words(message))
        for line in (*_clues(one), *_differences(one.differences)):
            click.echo(line)
        for message in _proposals(one.proposals, target):
            click.echo(words(message))
    click.echo(words(say("forecast.basis")))


def _verdict(one: Foreseen) -> Iterator[Message]:
    told = one.forecast
    play = _minutes(told.play_s)
    if told.finish.p50 is None:
        yield say("forecast.never")
        return
    yield say("forecast.verdict", **_from_to(told.finish), play=play)
    n, error = one.network.pupils, max(1, ceil(200 * told.one.error))
    yield say("forecast.one", n=n, share=_share(told.one), error=error)
    if told.groups > 1:
        yield say("forecast.all", n=told.groups, share=_share(told.all))


def _course(one: Foreseen) -> Iterator[Message]:
    told = one.forecast
    if told.first_lock.p50 is not None:
        middle = _minutes(told.first_lock.p50)
        yield say("forecast.first", middle=middle, **_from_to(told.first_lock))
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


def _held(clue: ClueForecast) -> Message:
    return say("forecast.held", name=clue.name, share=round(100 * clue.holds_up))


def _share(chance: Chance) -> Message:
    """Say how many of a hundred, and never that all will where some do not."""
    n = round(100 * chance.value)
    if n == 100 and chance.value < 1:
        return say("forecast.share-most")
    if n == 0 and chance.value > 0:
        return say("forecast.share-few")
    return say("forecast.share", share=n)


def _minutes(seconds: float | None) -> str:
    return words(say("forecast.no-end")) if seconds is None else f"{round(seconds / MINUTE)}"


def _from_to(spread: Spread) -> dict[str, str]:
    return {"low": _minutes(spread.p10), "high": _minutes(spread.p90)}


def _clues(one: Foreseen) -> tuple[str, ...]:
    heads = ("clue", "opens", "closes", "held-up", "hints")
    rows = [tuple(words(say(f"forecast.head-{head}")) for head in heads)]
    rows += [
        (
            clue.name,
            words(say("forecast.middle", middle=_minutes(clue.opens.p50), **_from_to(clue.opens))),
            words(
                say("forecast.middle", middle=_minutes(clue.closes.p50), **_from_to(clue.closes))
            ),
            f"{round(100 * clue.holds_up)}",
            f"{clue.hints:.1f}",
        )
        for clue in one.forecast.clues
    ]
    return table(rows)


def _differences(found: Sequence[Difference]) -> tuple[str, ...]:
    if not found:
        return ()
    heads = ("change", "gain", "sooner")
    rows = [tuple(words(say(f"forecast.head-{head}")) for head in heads)]
    for one in found:
        sooner = "" if one.sooner_s is None else _signed(one.sooner_s / MINUTE)
        what = words(_change(one.change))
        rows.append((what, _signed(100 * one.chance.value), sooner))
    return table(rows)


def _change(one: Change) -> Message:
    return say(f"forecast.change-{one.sort}", name=one.task or "")


def _proposals(found: Sequence[Proposal], target: float) -> Iterator[Message]:
    """Say what would help most, or fill the time best; each with what it comes to."""
    if not found:
        return
    is_longer = found[0].alone.change.sort == "harder"
    yield say(f"forecast.{'longer' if is_longer else 'quicker'}", share=round(100 * target))
    for one in found:
        yield say(
            f"forecast.proposal-{'longer' if is_longer else 'quicker'}",
            what=_change(one.alone.change),
            minutes=round(abs(one.alone.sooner_s or 0.0) / MINUTE),
            gain=round(100 * one.alone.chance.value),
            together=_share(one.together),
        )


def _signed(value: float) -> str:
    whole = round(value)
    return f"{whole:+}" if whole else "0"

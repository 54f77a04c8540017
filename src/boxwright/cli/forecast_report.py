"""A forecast in words, and as JSON."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import click

from boxwright.build import Built
from boxwright.build.forecasting import Foreseen
from boxwright.build.plan_words import MINUTE, change, course, from_to, listed, minutes, verdict
from boxwright.cli.forecast_lessons import Learnt, basis, lesson_table, lessons_json
from boxwright.cli.lock_sections import table
from boxwright.forecast.changes import Difference, Proposal
from boxwright.messages import words
from boxwright.problems import plain, say


def body(built: Built, found: Sequence[Foreseen], learnt: Learnt) -> dict[str, Any]:
    """Return what the command prints with `--json`, and what it rests on."""
    return {"forecasts": [_json(one) for one in found], **lessons_json(built, found, learnt)}


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


def show(found: Sequence[Foreseen], target: float, learnt: Learnt) -> None:
    """Show forecasts on stdout, the verdict first."""
    for one in found:
        if len(found) > 1:
            head = words(say("forecast.groups", groups=one.groups))
            click.echo(click.style(head, bold=True))
        for message in (*verdict(one), *course(one)):
            click.echo(words(message))
        for line in (*_clues(one), *lesson_table(one), *_differences(one.differences)):
            click.echo(line)
        for line in listed(one.proposals, target):
            click.echo(line)
    for message in (*basis(found, learnt), say("forecast.basis")):
        click.echo(words(message))


def _clues(one: Foreseen) -> tuple[str, ...]:
    heads = ("clue", "opens", "closes", "held-up", "hints")
    rows = [tuple(words(say(f"forecast.head-{head}")) for head in heads)]
    rows += [
        (
            clue.name,
            words(say("forecast.middle", middle=minutes(clue.opens.p50), **from_to(clue.opens))),
            words(say("forecast.middle", middle=minutes(clue.closes.p50), **from_to(clue.closes))),
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
        what = words(change(one.change))
        rows.append((what, _signed(100 * one.chance.value), sooner))
    return table(rows)


def _signed(value: float) -> str:
    whole = round(value)
    return f"{whole:+}" if whole else "0"

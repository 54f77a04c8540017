"""`boxwright kinds`: which puzzles there are, and which codes each can carry."""

from __future__ import annotations

from typing import Any

import click

from boxwright.cli.options import json_option
from boxwright.cli.report import envelope
from boxwright.messages import words
from boxwright.problems import say


@click.command("kinds", help=words(say("kinds.help")))
@json_option()
def command(*, as_json: bool) -> None:
    """List the kinds."""
    from boxwright.puzzles.shelf import all_kinds, carried

    if as_json:
        listed = [_json(name, kind) for name, kind in all_kinds()]
        click.echo(envelope("kinds", True, {"kinds": listed}))
        return
    for name, kind in all_kinds():
        facts = kind.FACTS
        click.echo(click.style(name, bold=True))
        click.echo(f"    {words(say(f'{name}.about'))}")
        low, high = facts.band_minutes
        young, old = facts.ages
        line = say("kinds.line", carries=carried(kind), low=low, high=high, young=young, old=old)
        click.echo(f"    {words(line)}")


def _json(name: str, kind: Any) -> dict[str, Any]:
    facts = kind.FACTS
    return {
        "name": name,
        "title": words(say(f"{name}.title")),
        "about": words(say(f"{name}.about")),
        "rules": words(kind.RULES),
        "answers": [
            {
                "alphabet": entry.alphabet,
                "symbols": None if entry.symbols is None else sorted(entry.symbols),
                "shortest": entry.shortest,
                "longest": entry.longest,
            }
            for entry in facts.answers
        ],
        "ages": list(facts.ages),
        "minutes": list(facts.band_minutes),
        "uses": sorted(facts.uses),
        "basis": facts.basis,
        "options": kind.Options.model_json_schema(),
    }

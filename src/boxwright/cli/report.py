"""How commands speak: data to stdout, everything else to stderr, one envelope for JSON."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import click

from boxwright import __version__
from boxwright.game.format import FORMAT
from boxwright.messages import words
from boxwright.problems import Finding, Message, Problem, plain, say


def tell(message: Message) -> None:
    """Say `message` to the person at the terminal, on stderr."""
    click.echo(words(message), err=True)


def show_problems(problems: Iterable[Problem]) -> None:
    """Show each problem with its place, and its remedy under it, on stderr."""
    for problem in problems:
        click.echo(f"{click.style(str(problem.where), bold=True)}: {words(problem.what)}", err=True)
        click.echo(f"    {words(say('cli.remedy'))} {words(problem.remedy)}", err=True)


def message_json(message: Message) -> dict[str, Any]:
    """Return a message as JSON: its id, its arguments, and its text in the source language."""
    return {"id": message.id, "args": plain(message.args), "text": words(message)}


def problem_json(problem: Problem) -> dict[str, Any]:
    """Return a problem as JSON."""
    return {
        "code": problem.code,
        "where": plain(problem.where),
        "what": message_json(problem.what),
        "remedy": message_json(problem.remedy),
        "edit": plain(problem.edit),
    }


def envelope(command: str, ok: bool, body: Mapping[str, Any]) -> str:
    """Return the one JSON object that a command prints with `--json`."""
    head = {"boxwright": __version__, "format": FORMAT, "command": command}
    of = {"of": body["of"]} if "of" in body else {}
    return json.dumps(head | of | {"ok": ok} | dict(body), ensure_ascii=False, indent=1)


SHOWN = 7
_MARKS = {"stop": "red", "fix": "yellow", "note": "cyan"}


def show_findings(
    findings: Sequence[Finding], aside: Sequence[Finding] = (), *, most: int = SHOWN
) -> None:
    """Show what the checks found, the gravest first and at most seven, on stdout.

    Those of them that stand `aside` are said to be dismissed.
    """
    if not findings:
        click.echo(words(say("check.clean")))
        return
    for finding in findings[:most]:
        _show_finding(finding, dismissed=finding in aside)
    if len(findings) > most:
        click.echo(words(say("check.more", n=len(findings) - most)))


def tell_aside(aside: Sequence[Finding]) -> None:
    """Say how many findings are not shown, if there are any."""
    if aside:
        click.echo(words(say("check.aside", n=len(aside))))


def _show_finding(finding: Finding, *, dismissed: bool) -> None:
    problem = finding.problem
    head = click.style(
        words(say(f"check.{finding.severity}")), fg=_MARKS[finding.severity], bold=True
    )
    basis = words(say(f"check.basis-{finding.basis.replace(' ', '-')}"))
    click.echo(f"{head} {words(problem.what)}")
    click.echo(f"    {words(say('cli.remedy'))} {words(problem.remedy)}")
    told = [str(problem.where), basis, finding.id]
    told += [words(say("check.dismissed"))] if dismissed else []
    click.echo(click.style(f"    {' · '.join(told)}", dim=True))

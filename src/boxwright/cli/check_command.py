"""`boxwright check GAME`: what could go wrong in the room."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from boxwright.cli.options import json_option, option, shelf_options
from boxwright.cli.report import envelope, problem_json, show_findings, tell_aside
from boxwright.messages import words
from boxwright.problems import Finding, evidence_json, plain, say
from boxwright.ready import to_forecast
from boxwright.second_process import SecondProcess


@click.command("check", help=words(say("check.help")))
@click.argument("game", type=click.Path(path_type=Path))
@option("--strict", is_flag=True)
@option("--all", "everything", is_flag=True)
@shelf_options()
@json_option()
def command(
    *,
    game: Path,
    strict: bool,
    everything: bool,
    kit: Path | None,
    room: Path | None,
    as_json: bool,
) -> int:
    """Check the current edition; 1 for a stop, with `--strict` also for a fix not dismissed."""
    # Before all else: it starts up while the game is read.
    with SecondProcess(to_forecast) as second:
        from boxwright.cli.editions import about_json, to_check
        from boxwright.game.dismissed import parted

        built, kept = to_check(game, kit, room, second)
    told, aside = parted(built.folder.path, built.findings)
    bad = {"stop", "fix"} if strict else {"stop"}
    ok = not any(finding.severity in bad for finding in told)
    if as_json:
        findings = [finding_json(one, dismissed=one in aside) for one in built.findings]
        about = about_json(built, built.findings)
        click.echo(envelope("check", ok, about | {"kept": kept, "findings": findings}))
    elif everything:
        show_findings(built.findings, aside, most=len(built.findings))
    else:
        show_findings(told)
        tell_aside(aside)
    return int(not ok)


def finding_json(finding: Finding, *, dismissed: bool) -> dict[str, Any]:
    """Return a finding as JSON."""
    return {
        "id": finding.id,
        **problem_json(finding.problem),
        "severity": finding.severity,
        "basis": finding.basis,
        "evidence": plain(evidence_json(finding.evidence)),
        "also": plain(finding.also),
        "set": finding.set,
        "because": finding.because,
        "dismissed": dismissed,
    }

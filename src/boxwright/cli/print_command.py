"""`boxwright print GAME`: write the print-outs as PDF, each read back."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from boxwright.cli.options import json_option, look_options, option, points, shelf_options
from boxwright.cli.report import envelope, tell
from boxwright.messages import typed, words
from boxwright.problems import has_stop, say

if TYPE_CHECKING:
    from boxwright.paper.earlier import Put
    from boxwright.paper.printouts import PrintOut
from boxwright.ready import to_press
from boxwright.second_process import SecondProcess


@click.command("print", help=words(say("printout.help")))
@click.argument("game", type=click.Path(path_type=Path))
@option("--only", metavar="CLUE")
@option("--out", type=click.Path(path_type=Path), default=Path("out"))
@look_options()
@shelf_options()
@json_option()
def command(
    *,
    game: Path,
    only: str | None,
    out: Path,
    paper: str,
    size: str | None,
    kit: Path | None,
    room: Path | None,
    as_json: bool,
) -> int:
    """Print the current edition; 1 where a check stops it, though the files are written."""
    # Before all else: it starts up while the game is read.
    with SecondProcess(to_press if only is None else None) as second:
        from boxwright.build.printing import files_of, printed_and_judged, put_into
        from boxwright.cli.editions import about_json, tell_findings, to_print

        found = to_print(game, kit, room, second)
        printed, weights = printed_and_judged(found, paper, points(size), only, second)
    files, stops = files_of(found, printed), has_stop(weights)
    others = put_into(out, found, files, whole=only is None)
    if as_json:
        listed = [_json(out / name, one) for name, one in files.items()]
        removed = [str(out / name) for name in others.removed]
        body = about_json(found, weights) | {"files": listed, "removed": removed}
        click.echo(envelope("print", not stops, body))
        return int(stops)
    for name, one in files.items():
        tell(say("printout.written", file=str(out / name), n=one.pages))
    _tell_others(others, out, typed("print", game, "--out", out))
    tell_findings(found, weights, game)
    return int(stops)


def _json(file: Path, printed: PrintOut) -> dict[str, Any]:
    return {
        "path": str(file),
        "pages": printed.pages,
        "reader": printed.reader,
        "sheets": printed.sheets,
        "sha256": printed.sha256,
    }


def _tell_others(others: Put, out: Path, command: str) -> None:
    """Say what happened to print-outs of the game that were in the folder already."""
    if others.removed:
        names = tuple(str(out / name) for name in others.removed)
        tell(say("printout.removed", files=names))
    if others.own:
        tell(say("printout.own", files=tuple(str(out / name) for name in others.own)))
    if others.older:
        tell(say("printout.older", folder=str(out), command=command))

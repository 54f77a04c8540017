"""`boxwright print GAME`: write the print-outs as PDF, each read back."""

from __future__ import annotations

from pathlib import Path

import click

from boxwright.cli.options import json_option, look_options, option, shelf_options
from boxwright.cli.report import envelope, tell
from boxwright.messages import words
from boxwright.problems import say


@click.command("print", help=words(say("printout.help")))
@click.argument("game", type=click.Path(path_type=Path))
@option("--only", metavar="CLUE")
@option("--out", type=click.Path(path_type=Path, file_okay=False), default=Path("out"))
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
    from boxwright.cli.editions import about_json, look_for, opened
    from boxwright.paper.printouts import print_outs

    built = opened(game, kit, room)
    printed_all = print_outs(built.folder, built.editions, look_for(built, paper, size), only)
    out.mkdir(parents=True, exist_ok=True)
    files = []
    for printed in printed_all:
        file = out / f"{built.edition.game.id}-{printed.name}.pdf"
        file.write_bytes(printed.pdf)
        files.append(
            {
                "path": str(file),
                "pages": printed.pages,
                "reader": printed.reader,
                "sheets": printed.sheets,
                "sha256": printed.sha256,
            }
        )
        if not as_json:
            tell(say("printout.written", file=str(file), n=printed.pages))
    if as_json:
        click.echo(envelope("print", not built.stops, about_json(built) | {"files": files}))
    elif built.findings:
        tell(say("build.findings", n=len(built.findings)))
    return int(built.stops)

"""`boxwright make KIND`: one sheet for one code, without a game around it."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Literal

import click

from boxwright.cli.options import LEVELS, json_option, look_options, option, size_for
from boxwright.cli.report import envelope, tell
from boxwright.messages import words
from boxwright.problems import Path as Steps
from boxwright.problems import Problem, Where, refuse, say

FORMS: Mapping[str, Literal["json", "pdf", "png", "svg"]] = {
    ".pdf": "pdf",
    ".png": "png",
    ".svg": "svg",
    ".json": "json",
}


@click.command("make", help=words(say("make.help")))
@click.argument("kind")
@option("--lock", metavar="LOCK")
@option("--code", about="make.option-code", required=True)
@option("--level", type=click.Choice(LEVELS), default="ordinary", show_default=True)
@option("--age", type=click.IntRange(4, 99), default=9, show_default=True)
@option("--option", "pairs", multiple=True, metavar="NAME=VALUE")
@option("--language", default="en", show_default=True)
@option("--seed", type=click.IntRange(0, 2**63 - 1), default=1, show_default=True)
@option("--title", default="")
@option("--out", about="make.option-out", type=click.Path(path_type=Path, dir_okay=False))
@look_options()
@json_option()
def command(*, out: Path | None, paper: str, size: str | None, as_json: bool, **asked: Any) -> int:
    """Make a sheet; write it as the ending of `--out` says, and as JSON with `--json`."""
    from boxwright.cli.one_sheet import made_sheet, printed
    from boxwright.paper.frame import Look
    from boxwright.problems import plain

    form = _form(out)
    made, mark = made_sheet(options=_options(asked.pop("pairs")), at=_at, **asked)
    body = {
        "kind": asked["kind"],
        "sheet": plain(made.sheet),
        "knows": plain(made.knows),
        "mark": list(mark.sheet),
    }
    if out is not None:
        look = Look(paper, size_for(size, (asked["age"],) * 2), asked["language"])  # type: ignore[arg-type]
        if form == "json":
            out.write_text(envelope("make", True, body) + "\n", encoding="utf-8")
            files = [out]
        else:
            files = _write(out, printed(made, mark, asked["title"], look, form))
        for file in files:
            tell(say("make.written", file=str(file)))
    if as_json or out is None:
        click.echo(envelope("make", True, body))
    return 0


def _form(out: Path | None) -> Literal["json", "pdf", "png", "svg"]:
    ending = ".json" if out is None else out.suffix.lower()
    if ending not in FORMS:
        refuse(Problem.of("make.form", Where("--out"), found=str(out), choices=tuple(FORMS)))
    return FORMS[ending]


def _write(out: Path, contents: list[bytes]) -> list[Path]:
    """Write one file, or several with a number in their names."""
    files = [out]
    if len(contents) > 1:
        files = [out.with_stem(f"{out.stem}-{at}") for at in range(1, len(contents) + 1)]
    for file, content in zip(files, contents, strict=True):
        file.write_bytes(content)
    return files


def _options(pairs: tuple[str, ...]) -> dict[str, Any]:
    """Return `--option NAME=VALUE` as a kind's options; values as JSON where they are JSON."""
    found: dict[str, Any] = {}
    for pair in pairs:
        name, equals, value = pair.partition("=")
        if not (name and equals):
            refuse(Problem.of("option.option-form", Where("--option"), text=pair[:60]))
        try:
            found[name.strip()] = json.loads(value)
        except ValueError:
            found[name.strip()] = value
    return found


def _at(path: Steps) -> Where:
    """Return where on the command line a part of the request stands."""
    if path[:1] == ("kind",):
        return Where("KIND", path)
    return Where("--option" if path[:1] == ("options",) else "--code", path)

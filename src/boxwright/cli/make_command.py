"""`boxwright make KIND`: one sheet for one code, without a game around it."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Literal

import click

from boxwright.cli.options import (
    LEVELS,
    Ages,
    Language,
    OneOf,
    json_option,
    look_options,
    option,
    points,
)
from boxwright.cli.report import envelope, tell
from boxwright.messages import speaks, words
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
@option("--level", type=OneOf(LEVELS), default="ordinary", show_default=True)
@option("--age", "--ages", "ages", type=Ages(), default="9", show_default=True, metavar="9-11")
@option("--option", "pairs", multiple=True, metavar="NAME=VALUE")
@option("--content", type=click.Path(path_type=Path), metavar="FILE.csv")
@option("--language", type=Language(), default="en", show_default=True)
@option("--seed", type=click.IntRange(0, 2**63 - 1), default=1, show_default=True)
@option("--title", default="")
@option("--out", about="make.option-out", type=click.Path(path_type=Path))
@look_options()
@json_option()
def command(
    *,
    out: Path | None,
    paper: str,
    size: str | None,
    as_json: bool,
    title: str,
    content: Path | None,
    **asked: Any,
) -> int:
    """Make a sheet; write it as the ending of `--out` says, and as JSON with `--json`."""
    from boxwright.game.ages import ages_fault
    from boxwright.paper.frame import Look, size_for
    from boxwright.paper.one_sheet import made_sheet, own_content, printed
    from boxwright.paper.writing import write_numbered
    from boxwright.problems import plain

    form, asked["kind"] = _form(out), asked["kind"].strip().lower()
    fault = ages_fault(asked["ages"], Where("--ages"))
    if fault is not None:
        refuse(fault)
    options, table = _options(asked.pop("pairs")), own_content(content, Where("--content"))
    made, mark = made_sheet(options=options, content=table, at=_at, **asked)
    body = {
        "kind": asked["kind"],
        "sheet": plain(made.sheet),
        "knows": plain(made.knows),
        "mark": list(mark.sheet),
    }
    if out is not None:
        look = Look(paper, points(size) or size_for(asked["ages"]), asked["language"])  # type: ignore[arg-type]
        if form == "json":
            contents = [(envelope("make", True, body) + "\n").encode()]
        else:
            title = title or words(say(f"{asked['kind']}.title"), look.lang)
            contents = printed(made, mark, title, look, form, Where(str(out)))
        for file in write_numbered(out, contents):
            tell(say("make.written", file=str(file)))
        if not speaks(look.lang):
            tell(say("make.english-words", language=look.lang))
    if as_json or out is None:
        click.echo(envelope("make", True, body))
    return 0


def _form(out: Path | None) -> Literal["json", "pdf", "png", "svg"]:
    ending = ".json" if out is None else out.suffix.lower()
    if ending not in FORMS:
        refuse(Problem.of("make.form", Where("--out"), found=str(out), choices=tuple(FORMS)))
    return FORMS[ending]


def _options(pairs: tuple[str, ...]) -> dict[str, Any]:
    """Return `--option NAME=VALUE` as a kind's options; values as JSON where they are JSON."""
    found: dict[str, Any] = {}
    for pair in pairs:
        name, equals, value = pair.partition("=")
        name, value = name.strip(), value.strip()
        if not (name and equals):
            refuse(Problem.of("option.option-form", Where("--option"), text=pair[:60]))
        try:
            found[name] = json.loads(value)
        except (ValueError, RecursionError):
            found[name] = value
    return found


def _at(path: Steps) -> Where:
    """Return where on the command line a part of the request stands."""
    typed = {"kind": "KIND", "options": "--option", "content": "--content"}
    return Where(typed.get(str(path[0]) if path else "", "--code"), path)

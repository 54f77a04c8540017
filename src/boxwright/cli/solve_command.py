"""`boxwright solve SHEET.json`: every answer that a sheet can be read as."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click

from boxwright.cli.options import json_option, option
from boxwright.cli.report import envelope, message_json, tell
from boxwright.messages import words
from boxwright.problems import Problem, Where, refuse, say

MOST = 10


@click.command("solve", help=words(say("solve.help")))
@click.argument("sheet", type=click.Path(path_type=Path, dir_okay=False))
@option("--most", type=click.IntRange(1, 1000), default=MOST, show_default=True)
@option("--working", is_flag=True)
@json_option()
def command(*, sheet: Path, most: int, working: bool, as_json: bool) -> int:
    """Solve a sheet from its printed facts alone; 1 unless it has exactly one answer."""
    kind_name, data = _read(sheet)
    found, complete = _solutions(kind_name, data, sheet, most)
    one = complete and len(found) == 1
    if as_json:
        answers = [
            {
                "alphabet": solution.answer.alphabet,
                "symbols": list(solution.answer.symbols),
                "working": [message_json(step.says) for step in solution.working],
            }
            for solution in found
        ]
        click.echo(envelope("solve", one, {"answers": answers, "complete": complete}))
        return int(not one)
    for solution in found:
        click.echo(" ".join(solution.answer.symbols))
        for step in solution.working if working else ():
            click.echo(f"    {words(step.says)}")
    if not complete:
        tell(say("solve.gave-up", n=len(found)))
    elif len(found) != 1:
        tell(say("solve.count", n=len(found)))
    return int(not one)


def _read(file: Path) -> tuple[str, dict[str, Any]]:
    """Return the kind and the data of a sheet's file, as `make --json` writes it."""
    where = Where(str(file), (), 1)
    try:
        data = json.loads(file.read_text(encoding="utf-8"))
    except OSError as error:
        why = error.strerror or str(error)
        refuse(Problem.of("solve.unreadable", Where(str(file)), file=str(file), why=why))
    except ValueError as error:
        line = getattr(error, "lineno", 1)
        refuse(Problem.of("solve.no-json", Where(str(file), (), line), file=str(file)))
    if not (isinstance(data, dict) and isinstance(data.get("kind"), str) and "sheet" in data):
        refuse(Problem.of("solve.no-sheet", where, file=str(file)))
    return data["kind"], data


def _solutions(name: str, data: dict[str, Any], file: Path, most: int) -> tuple[list[Any], bool]:
    """Return up to `most` solutions, and whether there are no others."""
    from boxwright.choose.sheets import kind_at
    from boxwright.puzzles.contract import GaveUp
    from boxwright.records import from_json

    kind = kind_at(name, lambda path: Where(str(file), path, 1))
    sheet: Any = from_json(kind.Sheet, data["sheet"], Where(str(file), ("sheet",), 1))
    knows: Any = from_json(kind.Knows, data.get("knows") or {}, Where(str(file), ("knows",), 1))
    found: list[Any] = []
    try:
        for solution in kind.solve(sheet, knows):
            if len(found) == most:
                return found, False
            found.append(solution)
    except GaveUp:
        return found, False
    return found, True

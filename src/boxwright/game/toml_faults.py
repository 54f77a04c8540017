"""What is wrong with the form of a TOML file, in our words and at the line where it began.

`tomllib` stops at the first fault and says it in an English of its own; a list or a text
that was never closed is felt only at the end, so its beginning is looked for.
"""

from __future__ import annotations

import re
import tomllib

from boxwright.problems import Problem, Where

_LOOK_BACK = 80
"""Lines to look back over for the beginning; each costs one reading of the file."""

_WITHOUT_SLIPS = ("open-text", "open-braces", "backslash", "twice")

_FAULTS = (  # not read by people
    ("Unterminated string", "open-text"),
    ("Expected \"'''\"", "open-text"),
    ('Expected \'"""\'', "open-text"),
    ("Expected '\"'", "open-text"),
    ('Expected "\'"', "open-text"),
    ("Illegal character '\\n'", "open-text"),
    ("Found invalid character '\\n'", "open-text"),
    ("Illegal character", "odd-sign"),
    ("Found invalid character", "odd-sign"),
    ("Unescaped '\\'", "backslash"),
    ("Escaped character is not", "backslash"),
    ("Invalid hex value", "backslash"),
    ("Expected '=' after a key", "no-equals"),
    ("Cannot declare", "twice"),
    ("Cannot overwrite", "twice"),
    ("Cannot mutate", "twice"),
    ("Cannot redefine", "twice"),
    ("Duplicate inline table key", "twice"),
    ("Invalid initial character for a key part", "no-key"),
    ("Unclosed array", "open-list"),
    ("Unclosed inline table", "open-braces"),
    ("Expected ']'", "open-head"),
    ("Invalid value", "no-value"),
    ("Expected newline or end of document", "more-on-line"),
    ("Invalid date or datetime", "no-date"),
    ("Invalid statement", "no-statement"),
)


def syntax_fault(text: str, name: str, said: str) -> Problem:
    """Return the Problem that `tomllib` tells of in `said`; its English stays inside."""
    # Late, since every command reads files and few files have faults.
    from boxwright.game.toml_slips import comma_missing

    at = re.search(r"\(at line (\d+), column (\d+)\)", said)
    lines = text.split("\n")
    line, column = (int(at[1]), int(at[2])) if at else _last_begun(lines)
    sort = next((ours for theirs, ours in _FAULTS if said.startswith(theirs)), "odd-form")
    if sort == "no-key" and lines[line - 1].rstrip().endswith("{"):
        sort = "open-braces"
    if at and sort == "open-list" and _goes_on(lines[line - 1], column):
        where = Where(name, (), line, column)
        return Problem.of("folder.quote-in-text", where, text=_shown(lines, line))
    bare = comma_missing(lines, line) if at and sort == "open-list" else None
    if bare is not None:
        return Problem.of("folder.no-comma", Where(name, (), bare), text=_shown(lines, bare))
    if at and sort.startswith("open-") and "\\n" not in said:
        line, column = _last_begun(lines[:line])
    if sort == "no-value" and not at and _opens_list(lines[line - 1]):
        sort = "open-list"
    where = Where(name, (), line, column)
    return _exact(sort, lines, where) or Problem.of(
        f"folder.{sort}", where, text=_shown(lines, line), line=line, column=column
    )


def _goes_on(line: str, column: int) -> bool:
    """Tell whether `line` is a text of a list that seems to end at `column`, and goes on."""
    text = line.strip()
    return text.startswith('"') and column > len(line) - len(line.lstrip()) + 1


def _exact(sort: str, lines: list[str], where: Where) -> Problem | None:
    """Return the Problem with the line that is right or came first, where that can be told."""
    from boxwright.game.toml_slips import first_of, slip_in

    number = where.line or 1
    shown = _shown(lines, number)
    if sort == "twice":
        first = first_of(lines, number)
        if first is None:
            return None
        code = "twice-head" if shown.startswith("[") else "twice-name"
        return Problem.of(f"folder.{code}", where, text=shown, first=first)
    slip = None if sort in _WITHOUT_SLIPS else slip_in(lines[number - 1])
    if slip is None:
        return None
    return Problem.of(f"folder.slip-{slip.sort}", where, text=shown, right=slip.line)


def _shown(lines: list[str], number: int) -> str:
    return lines[number - 1].strip()[:80]


def _last_begun(lines: list[str]) -> tuple[int, int]:
    """Find the statement that is still open at the end: all before it reads well."""
    for count in range(len(lines) - 1, max(-1, len(lines) - _LOOK_BACK), -1):
        try:
            tomllib.loads("\n".join(lines[:count]))
        except ValueError:
            continue
        return _first_written(lines, count)
    return len(lines), len(lines[-1]) + 1


def _first_written(lines: list[str], count: int) -> tuple[int, int]:
    """Return the first line from `count` on (from 0) that holds more than a comment."""
    for number in range(count, len(lines)):
        start = lines[number].lstrip()
        if start and not start.startswith("#"):
            return number + 1, len(lines[number]) - len(start) + 1
    return len(lines), 1


def _opens_list(line: str) -> bool:
    return "[" in line.partition("=")[2]

"""Finds which messages the code asks for, and with what to fill in."""

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from string import Formatter

from babel.messages.catalog import Message

from tools import catalogues

ID = re.compile(r"[a-z][a-z0-9-]*(?:\.[a-z0-9-]+)+")
REMEDY = ".remedy"
ANY = "[a-z0-9.-]+"
NOT_FILLED_IN = {"edit"}  # keywords of `Problem.of` that are its own


@dataclass(frozen=True)
class Call:
    """One place that asks for a message; `given` is None where only running it would tell."""

    place: str
    id: str
    given: frozenset[str] | None


@dataclass(frozen=True)
class Catalogue:
    """The English messages of one area; for each id, what its forms have blanks for."""

    area: str
    blanks: dict[str, frozenset[str]]


def blanks(pattern: str) -> frozenset[str]:
    """Return the names that a pattern in the style of `str.format` has blanks for.

    `boxwright` is not among them: every message knows it.
    """
    names = set()
    for _, name, spec, _ in Formatter().parse(pattern):
        if name is not None:
            names |= {re.split(r"[.\[]", name)[0]} | blanks(spec or "")
    return frozenset(names) - {"boxwright"}


def forms(message: Message) -> list[str]:
    """Return all forms of a message: one, or one for each number there is."""
    if isinstance(message.string, str):
        return [message.string]
    return list(message.string or [""])


def catalogue(source: Path) -> Catalogue:
    """Read one catalogue."""
    found = {}
    for message in catalogues.read(source):
        if message.id:
            name = message.id if isinstance(message.id, str) else message.id[0]
            found[name] = frozenset().union(*(blanks(form) for form in forms(message)))
    return Catalogue(source.stem, found)


def calls(name: str, source: str) -> Iterator[Call]:
    """Yield every message that a Python file asks for by a literal id."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Call) and node.args:
            asked = ast.unparse(node.func).rpartition("boxwright.")[2]
            ids = literal_ids(node.args[0])
            if asked in ("say", "problems.say"):
                endings: tuple[str, ...] = ("",)
            elif asked.endswith("Problem.of"):
                endings = ("", REMEDY)
            else:
                continue
            for id in ids:
                for ending in endings:
                    yield Call(f"{name}:{node.lineno}", id + ending, keywords(node))


def literal_ids(node: ast.expr) -> list[str]:
    """Return the ids that an argument may be, as far as they stand there."""
    if isinstance(node, ast.IfExp):
        return literal_ids(node.body) + literal_ids(node.orelse)
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return [node.value]
    return []


def keywords(node: ast.Call) -> frozenset[str] | None:
    """Return the names of a call's keywords; None if some come from a mapping."""
    names = {keyword.arg for keyword in node.keywords}
    if None in names:
        return None
    return frozenset(name for name in names if name) - NOT_FILLED_IN


def faults(found: Iterator[Call], known: dict[str, frozenset[str]]) -> Iterator[str]:
    """Yield what is wrong with calls: ids that are not there, blanks that stay empty."""
    for call in found:
        if call.id not in known:
            yield f"{call.place}: {call.id} is in no English catalogue"
        elif call.given is not None and known[call.id] - call.given:
            missing = ", ".join(sorted(known[call.id] - call.given))
            yield f"{call.place}: {call.id} has blanks that are not filled: {missing}"


def mentioned(source: str) -> tuple[set[str], list[str]]:
    """Return the ids that stand in a Python file, and the patterns of those made by f-strings."""
    ids, patterns, tree = set(), [], ast.parse(source)
    known = constants(tree)
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            ids |= {node.value} if ID.fullmatch(node.value) else set()
        elif isinstance(node, ast.JoinedStr):
            patterns += pattern(node, known)
    return ids, patterns


def constants(tree: ast.Module) -> dict[str, str]:
    """Return the texts that a module's own names stand for: `CODE = "lock.faulty"`."""
    return {
        name.id: node.value.value
        for node in tree.body
        if isinstance(node, ast.Assign)
        and isinstance(node.value, ast.Constant)
        and isinstance(node.value.value, str)
        for name in node.targets
        if isinstance(name, ast.Name)
    }


def pattern(node: ast.JoinedStr, known: dict[str, str]) -> list[str]:
    """Return the pattern of an f-string that can be an id; none for others.

    One that only adds the ending of remedies says nothing about which are used, nor does one
    of which nothing is fixed but its points.
    """
    parts = [fixed(part, known) for part in node.values]
    text = "".join(part for part in parts if part is not None)
    if text == REMEDY or not re.fullmatch(r"(?=.*[a-z])[a-z0-9.-]+", text):
        return []
    if "." not in text and not text.startswith("-"):
        return []
    return ["".join(ANY if part is None else re.escape(part) for part in parts)]


def fixed(part: ast.expr, known: dict[str, str]) -> str | None:
    """Return what one part of an f-string always says; None where that depends."""
    if isinstance(part, ast.Constant):
        return str(part.value)
    value = part.value if isinstance(part, ast.FormattedValue) else None
    return known.get(value.id) if isinstance(value, ast.Name) else None


def in_html(source: str) -> tuple[set[str], list[str]]:
    """Return the ids that stand in a page's template, and the patterns of those put together."""
    quoted = re.findall(r"""(?<!~ )["']([a-z0-9.-]+)["'](?! ?~)""", source)
    begun = re.findall(r"""["']([a-z0-9-]+\.[a-z0-9.-]*)["'] ?~""", source)
    return set(quoted), [re.escape(head) + ANY for head in begun]


def unused(known: dict[str, frozenset[str]], ids: set[str], patterns: list[str]) -> list[str]:
    """Return the ids of the catalogues that nothing asks for; a remedy goes with its problem."""
    asked = re.compile("|".join(patterns) or r"(?!)")
    found = []
    for name in known:
        problem = name.removesuffix(REMEDY)
        if not ({name, problem} & ids or asked.fullmatch(problem) or asked.fullmatch(name)):
            found.append(name)
    return found

"""Finds code that the making and the solving of a kind both run, by reading the sources.

From `make` and from `solve`, all names are followed through the modules of
`boxwright.puzzles` and the kind's own. Types without methods and published tables may be
shared; all else may not, for a fault in it would hide itself.
"""

from __future__ import annotations

import ast
import inspect
from collections.abc import Iterator
from functools import cache
from types import FunctionType, ModuleType
from typing import Any

TABLES = {"boxwright.puzzles.figures", "boxwright.puzzles.contract", "boxwright.puzzles.shelf"}
PACKAGE = "boxwright.puzzles"


def shared_code(kind: ModuleType) -> set[str]:
    """Return the names of functions and classes that both `make` and `solve` may reach."""
    reached = [set(_reach(kind, name)) for name in ("make", "solve")]
    return {name for name in reached[0] & reached[1] if name}


def _reach(kind: ModuleType, start: str) -> Iterator[str]:
    home = kind.__name__
    todo, seen = [vars(kind)[start]], set()
    while todo:
        thing = todo.pop()
        if id(thing) in seen or not _is_ours(thing, home):
            continue
        seen.add(id(thing))
        if not _is_plain_type(thing):
            yield f"{thing.__module__}.{thing.__qualname__}"
        todo += _mentions(thing)


def _is_ours(thing: Any, home: str) -> bool:
    module = getattr(thing, "__module__", "")
    ours = module == home or module.startswith(PACKAGE)
    thing = inspect.unwrap(thing) if callable(thing) else thing
    return ours and module not in TABLES and isinstance(thing, FunctionType | type)


def _is_plain_type(thing: Any) -> bool:
    """Tell whether this is a class in whose source no function stands."""
    return isinstance(thing, type) and not any(
        isinstance(node, ast.FunctionDef) for node in ast.walk(_source(thing))
    )


def _mentions(thing: Any) -> list[Any]:
    """Return what the names in a source stand for, as far as its module knows them."""
    known = vars(inspect.getmodule(thing))
    found = []
    for node in ast.walk(_source(thing)):
        if isinstance(node, ast.Name) and node.id in known:
            found.append(known[node.id])
        elif isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
            owner = known.get(node.value.id)
            if isinstance(owner, ModuleType):
                found.append(getattr(owner, node.attr, None))
    return found


@cache
def _source(thing: Any) -> ast.AST:
    import textwrap

    return ast.parse(textwrap.dedent(inspect.getsource(inspect.unwrap(thing))))

"""What a model allows at a path: the keys it knows, and a value that would pass.

Faults name the nearest known key and show what to write; both follow from the models
themselves, so that a new field needs no second list.
"""

from __future__ import annotations

import types
from collections.abc import Iterator
from typing import Any, Literal, Union, get_args, get_origin

from annotated_types import Ge, Gt
from pydantic import BaseModel

from boxwright.game.model import ID_PATTERN, TAG_PATTERN
from boxwright.problems import Path, Step

_UNIONS = (Union, types.UnionType)


def known_keys(model: type[BaseModel], path: Path) -> tuple[str, ...]:
    """Return the keys that a table at `path` of a file of `model` may have."""
    keys: list[str] = []
    for kind in at_path(model, path):
        if isinstance(kind, type) and issubclass(kind, BaseModel):
            keys += (info.alias or name for name, info in kind.model_fields.items())
    return tuple(dict.fromkeys(keys))


def example(model: type[BaseModel], path: Path) -> str:
    """Return a value that could stand at `path`, as TOML writes it."""
    *parent, key = path
    for kind in at_path(model, tuple(parent)):
        if isinstance(kind, type) and issubclass(kind, BaseModel):
            for name, info in kind.model_fields.items():
                if key == (info.alias or name):
                    return _sample(info.annotation, tuple(info.metadata))
    return '"…"'


def _plain(kind: Any) -> Iterator[Any]:
    """Yield the types that `kind` stands for, unions and annotations opened."""
    origin = get_origin(kind)
    if origin in _UNIONS:
        for branch in get_args(kind):
            yield from _plain(branch)
    elif hasattr(kind, "__metadata__"):
        yield from _plain(kind.__origin__)
    else:
        yield kind


def at_path(kind: Any, path: Path) -> list[Any]:
    """Return the types that may stand at `path` below `kind`, unions opened."""
    found = list(_plain(kind))
    for step in path:
        found = [deeper for one in found for deeper in _inner(one, step)]
    return found


def _inner(kind: Any, step: Step) -> Iterator[Any]:
    origin, args = get_origin(kind), get_args(kind)
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        for name, info in kind.model_fields.items():
            if step == (info.alias or name):
                yield from _plain(info.annotation)
    elif origin is dict:
        yield from _plain(args[1])
    elif origin is tuple and args and isinstance(step, int):
        yield from _plain(args[0] if args[-1] is ... else args[min(step, len(args) - 1)])


def _sample(kind: Any, metadata: tuple[Any, ...] = ()) -> str:
    if hasattr(kind, "__metadata__"):
        return _sample(kind.__origin__, (*metadata, *kind.__metadata__))
    origin, args = get_origin(kind), get_args(kind)
    if origin in _UNIONS:
        return _sample(args[0], metadata)
    if origin is Literal:
        return f'"{args[0]}"' if isinstance(args[0], str) else str(args[0])
    if origin is tuple:
        inner = args[:1] if args[-1] is ... else args
        return f"[{', '.join(_sample(one) for one in inner)}]"
    if kind is str:
        return _text_sample(metadata)
    if kind in (int, float):
        return _number_sample(metadata)
    return "true" if kind is bool else "{ … }"


def _text_sample(metadata: tuple[Any, ...]) -> str:
    patterns = [getattr(one, "pattern", None) for one in metadata]
    if ID_PATTERN in patterns:
        return '"some-id"'
    return '"N1"' if TAG_PATTERN in patterns else '"…"'


def _number_sample(metadata: tuple[Any, ...]) -> str:
    for one in metadata:
        if isinstance(one, Ge):
            return str(one.ge)
        if isinstance(one, Gt):
            return "100"
    return "1"

"""JSON Schema of the three files, so that an editor helps while they are written.

Drawn from the models themselves (draft 2020-12), with a few words of help for each key
from the catalogue `schema`. Committed copies stand in docs/schema.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pydantic import BaseModel

from boxwright.game import model
from boxwright.game.model import GameFile, KitFile, RoomFile
from boxwright.messages import words
from boxwright.problems import kebab, say
from boxwright.text import canonical_json

DIALECT = "https://json-schema.org/draft/2020-12/schema"
FILES: Mapping[str, type[BaseModel]] = {"game": GameFile, "kit": KitFile, "room": RoomFile}


def schema_name(file: str) -> str:
    """Return the name of a schema's own file: `game.schema.json`."""
    return f"{file}.schema.json"


def schema_of(file: str, language: str = "en") -> dict[str, Any]:
    """Return the JSON Schema of `file` (game, kit, room), its help in `language`."""
    schema = FILES[file].model_json_schema(by_alias=True)
    tables = schema.pop("$defs", {})
    _helped(FILES[file], schema, language)
    for name, table in tables.items():
        _helped(getattr(model, name), table, language)
    _portable(tables)
    _portable(schema)
    return {"$schema": DIALECT, **schema, "$defs": tables}


def schema_text(file: str, language: str = "en") -> str:
    """Return the schema of `file` as its file holds it."""
    return canonical_json(schema_of(file, language))


def _helped(kind: type[BaseModel], table: dict[str, Any], language: str) -> None:
    """Put words of help on a table and its keys, in place of names made from code."""
    table["title"] = words(say(f"schema.{kebab(kind.__name__)}.table"), language)
    table.pop("description", None)
    for key, entry in table.get("properties", {}).items():
        entry.pop("title", None)
        told = _help(kind, key, language)
        if told is not None:
            entry["description"] = told


def _help(kind: type[BaseModel], key: str, language: str) -> str | None:
    """Return the help on `key`, said for `kind` or for what it builds on."""
    for one in kind.__mro__:
        message = say(f"schema.{kebab(one.__name__)}.{key.replace('_', '-')}")
        if words(message, language) != message.id:
            return words(message, language)
    return None


def _portable(node: Any) -> None:
    r"""Make rules mean to every reader of JSON Schema what they mean to pydantic.

    Keys that match no pattern are refused, as they are here. Patterns with `\W` and `\d`
    differ from one engine to the next for letters beyond a to z, so lengths stand in.
    """
    if isinstance(node, dict):
        if "patternProperties" in node:
            node.setdefault("additionalProperties", False)
        if "\\W" in node.get("pattern", "") and isinstance(node["pattern"], str):
            del node["pattern"]
            node |= {"minLength": 2, "maxLength": 12}
        for inner in node.values():
            _portable(inner)
    elif isinstance(node, list):
        for inner in node:
            _portable(inner)

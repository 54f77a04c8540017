"""What an editor is told of the files is what the models say of them."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from boxwright.game.schema import FILES, schema_name, schema_of, schema_text

COMMITTED = Path(__file__).resolve().parents[2] / "docs" / "schema"
SAMPLE = Path(__file__).with_name("sample")


def sample(file: str) -> dict[str, Any]:
    return tomllib.loads((SAMPLE / f"{file}.toml").read_text(encoding="utf-8"))


def faults(file: str, data: dict[str, Any]) -> list[str]:
    validator = jsonschema.Draft202012Validator(schema_of(file))
    return [error.message for error in validator.iter_errors(data)]


@pytest.mark.parametrize("file", sorted(FILES))
def test_the_committed_copy_is_up_to_date(file: str) -> None:
    committed = (COMMITTED / schema_name(file)).read_text(encoding="utf-8")
    assert committed == schema_text(file)


@pytest.mark.parametrize("file", sorted(FILES))
def test_it_is_a_valid_schema(file: str) -> None:
    jsonschema.Draft202012Validator.check_schema(schema_of(file))


@pytest.mark.parametrize("file", sorted(FILES))
def test_a_sound_file_passes(file: str) -> None:
    assert faults(file, sample(file)) == []


@pytest.mark.parametrize("file", sorted(FILES))
def test_every_key_has_words_of_help(file: str) -> None:
    schema = json.loads(schema_text(file))
    for table in (schema, *schema["$defs"].values()):
        assert "schema." not in table["title"]
        for key, entry in table.get("properties", {}).items():
            assert entry.get("description", "").endswith("."), key


@pytest.mark.parametrize(
    ("file", "path", "value"),
    [
        ("game", ("boxes", "Trunk"), {"name": "x"}),
        ("game", ("boxes", "trunk", "colour"), "red"),
        ("game", ("boxes", "trunk", "name"), ""),
        ("game", ("locks", "count", "mechanism"), "springs"),
        ("game", ("locks", "count", "wheels"), 11),
        ("game", ("game", "ages"), [9]),
        ("game", ("game", "ages"), [9, 10, 11]),
        ("game", ("clues", "sheaves", "versions"), {}),
        ("kit", ("locks", "n1"), {}),
        ("kit", ("tools", "U1"), {"is_": "mirror"}),
        ("room", ("places", "shelf", "holds"), ["water"]),
        ("room", ("places", "shelf", "say"), "S"),
    ],
)
def test_what_the_models_refuse_it_refuses_too(
    file: str, path: tuple[str, ...], value: Any
) -> None:
    from pydantic import ValidationError

    from boxwright.game.faults import frozen

    data = sample(file)
    node = data
    for step in path[:-1]:
        node = node[step]
    node[path[-1]] = value
    assert faults(file, data)
    with pytest.raises(ValidationError):
        FILES[file].model_validate(frozen(data))

"""The current editions of a folder: what changed since, and what to build to have them again."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from boxwright.build import Built, build
from boxwright.build.current import SEEDS, Stale, keep, kept, last_asked
from boxwright.choose.store import CURRENT, EDITIONS
from boxwright.game.choosing import Wishes
from boxwright.problems import Refused
from tests.games import base


@pytest.fixture
def game(tmp_path: Path) -> Path:
    """A game whose printed set was made for two groups."""
    folder = base(tmp_path)
    built = build(asked := last_asked(folder))
    keep(built, asked)
    return folder


def changed(folder: Path, name: str) -> None:
    file = folder / name
    file.write_bytes(file.read_bytes() + b"\n")


def stale(folder: Path) -> Stale:
    found = kept(folder)
    assert isinstance(found, Stale)
    return found


def test_the_files_that_changed_since_are_named(game: Path) -> None:
    assert isinstance(kept(game), Built)
    changed(game, "kit.toml")
    table = next((game / "content").glob("*.csv"))
    changed(game, f"content/{table.name}")
    assert stale(game).changed == (f"content/{table.name}", "kit.toml")


def test_a_file_that_is_gone_or_new_has_changed_too(game: Path) -> None:
    (game / "room.toml").unlink()
    (game / "content" / "more.csv").write_text("term,meaning\n", encoding="utf-8")
    assert stale(game).changed == ("content/more.csv", "room.toml")


def test_a_set_that_did_not_keep_its_parts_is_only_known_to_be_of_another_state(game: Path) -> None:
    current = game / EDITIONS / CURRENT
    value = json.loads(current.read_text(encoding="utf-8"))
    del value["parts"]
    current.write_text(json.dumps(value), encoding="utf-8")
    changed(game, "kit.toml")
    assert stale(game).changed == ()


def test_the_same_set_is_made_again_unless_new_codes_are_asked_for(
    game: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = kept(game)
    assert isinstance(before, Built)
    assert build(last_asked(game)).edition.codes == before.edition.codes
    assert last_asked(game).wishes == Wishes()
    monkeypatch.setattr("secrets.randbelow", lambda most: most - 1)
    assert last_asked(game, new=True).chance.seed == SEEDS - 1
    assert last_asked(game).chance.seed == before.edition.seed


def test_new_codes_can_be_drawn_where_the_old_ones_cannot_be_read(game: Path) -> None:
    (game / EDITIONS / CURRENT).write_text("{", encoding="utf-8")
    with pytest.raises(Refused):
        last_asked(game)
    assert build(last_asked(game, new=True)).edition.codes

"""A game in a language that Boxwright has no words for is told that English stands in."""

from __future__ import annotations

from pathlib import Path

import pytest

from boxwright.problems import Excerpt
from tests.games import base, built, found, remedy, said

CODE = "text.language"
ENGLISH = 'language = "en"'


def test_a_game_in_german_is_noted_with_its_line(tmp_path: Path) -> None:
    game = base(tmp_path, (ENGLISH, 'language = "de"'))
    (finding,) = found(game, CODE)
    assert (finding.severity, finding.basis) == ("note", "computed")
    assert finding.evidence == Excerpt("de", (0, 2))
    where = finding.problem.where
    assert where.path == ("game", "language")
    assert where.line is not None
    lines = (game / "game.toml").read_text(encoding="utf-8").splitlines()
    assert lines[where.line - 1].startswith('language = "de"')
    assert "de" in said(finding)
    assert "English" in said(finding)


def test_so_is_one_in_portuguese_as_in_brazil(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (ENGLISH, 'language = "pt-BR"')), CODE)
    assert "pt-BR" in said(finding)


@pytest.mark.parametrize("language", ["en", "en-GB", "EN"])
def test_english_of_any_region_is_fine(tmp_path: Path, language: str) -> None:
    assert found(base(tmp_path, (ENGLISH, f'language = "{language}"')), CODE) == []


def test_it_does_not_stop_the_game(tmp_path: Path) -> None:
    assert not built(base(tmp_path, (ENGLISH, 'language = "de"'))).stops


def test_its_advice_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (ENGLISH, 'language = "de"'))
    assert 'language = "en"' in remedy(found(game, CODE)[0])
    base(tmp_path, ('language = "de"', ENGLISH))
    assert found(game, CODE) == []

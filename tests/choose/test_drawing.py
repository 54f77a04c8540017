"""Codes drawn keep clear of those that are given, and are no word that anybody could foretell."""

from __future__ import annotations

import re
from pathlib import Path

from boxwright.build import read, settled
from boxwright.choose.asking import read_contents
from boxwright.choose.chance import Chance
from boxwright.choose.codes import near
from boxwright.choose.drawing import draw_codes
from boxwright.choose.fitting import fit
from boxwright.game.arrange import arrange
from boxwright.game.choosing import Wishes
from boxwright.game.mechanisms import Code
from tests.games import trunk

SEEDS = range(1, 13)
NUMBERS = ("buckle", "ribbon", "right-catch")


def drawn(game: Path, seed: int, arrangement: str | None = None) -> dict[str, Code]:
    """Return the codes alone: no sheets are made."""
    folder = read(game)
    arranged = settled(arrange(folder, Wishes(arrangement=arrangement)))
    fitted, contents = fit(folder, arranged), read_contents(folder, arranged)
    return draw_codes(folder, arranged, fitted, contents, Chance(seed))


def test_a_code_that_is_given_last_keeps_those_drawn_before_it_away(tmp_path: Path) -> None:
    game = trunk(tmp_path)
    text = (game / "game.toml").read_text(encoding="utf-8")
    block = re.search(r"\[locks\.buckle\].*?\n\n", text, re.DOTALL)
    assert block is not None
    behind = text.replace(block[0], "").replace("# ITEMS", f"{block[0]}# ITEMS")
    (game / "game.toml").write_text(behind, encoding="utf-8")
    for seed in SEEDS:
        codes = drawn(game, seed, "brisk")
        assert list(codes["buckle"]) == ["7", "5", "2"]
        assert not any(near(codes["buckle"], codes[one]) for one in NUMBERS[1:] if one in codes)


def test_where_only_one_word_would_do_letters_are_drawn_instead(tmp_path: Path) -> None:
    """Four options give A to D, and of these hardly a word can be made."""
    given = 'code = "one of BDAC CADB DBCA ACDB CBDA BADC DACB CDBD ADBA BCAB"'
    game = trunk(tmp_path, (given, ""))
    codes = {drawn(game, seed)["middle-catch"] for seed in SEEDS}
    assert len(codes) > len(SEEDS) / 2
    assert {letter for code in codes for letter in code} <= set("ABCD")

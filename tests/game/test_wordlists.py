"""Lists of words: common ones, a teacher's own, none that is unsuitable."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

import pytest

from boxwright.game.wordlists import (
    common_words,
    order_by_use,
    own_words,
    suitable,
    undrawn,
    unsuitable_inside,
)
from boxwright.problems import Refused

LIST = files("boxwright.game").joinpath("undrawn", "en.txt")


def test_common_words_are_capitals_the_commonest_first() -> None:
    found = common_words("en", 20_000)
    assert found.index("THE") < found.index("WATER") < found.index("FROST")
    assert all(word.isascii() and word.isalpha() and word.isupper() for word in found)
    assert len(found) == len(set(found))


def test_other_languages_keep_their_letters() -> None:
    assert "GRÜN" in common_words("de", 2_000)
    assert "ВОДА" in common_words("ru", 2_000)


def test_a_language_without_a_list_is_told_with_those_that_have_one() -> None:
    with pytest.raises(Refused) as caught:
        common_words("xx")
    assert caught.value.problems[0].code == "wordlist.no-language"


def test_words_for_no_class_are_left_out_and_ordinary_ones_kept() -> None:
    assert suitable(["class", "shit", "Grass", "fucking", "cup"]) == ("CLASS", "GRASS", "CUP")


def test_words_that_upset_children_are_never_drawn_but_may_be_written() -> None:
    upsetting = {"BLOOD", "DEATH", "WAR", "GUNS", "CORPSE", "DRUG", "IDIOT"}
    assert upsetting <= undrawn()
    assert not upsetting & set(common_words())
    assert suitable(["blood"]) == ("BLOOD",)  # as a lesson on the heart has it


def test_words_that_look_like_upsetting_ones_are_drawn() -> None:
    assert {"ROBIN", "WARM", "BEGUN", "DIET", "GRAVEL", "SKILL"} <= set(common_words())


def test_the_list_of_upsetting_words_is_english_alone() -> None:
    assert "WAR" in common_words("de", 2_000)  # "was"
    assert undrawn("de") == undrawn("fr")


def test_every_line_of_that_list_is_words_in_capitals_each_once() -> None:
    lines = LIST.read_text("utf-8").splitlines()
    words = [word for line in lines if not line.startswith("#") for word in line.split()]
    assert all(word.isalpha() and word.isupper() and word.isascii() for word in words)
    assert sorted(words) == sorted(set(words))


def test_what_is_no_word_is_left_out() -> None:
    assert suitable(["frost", "it's", "4th", "", "frost", "a\u0308rger"]) == ("FROST", "ÄRGER")


def test_random_letters_are_looked_at_from_both_ends() -> None:
    assert unsuitable_inside("XSHITX")
    assert unsuitable_inside("XTIHSX")
    assert unsuitable_inside("XDOOLB")
    assert not unsuitable_inside("FROST")


def test_an_own_list_is_read_line_by_line_or_by_its_first_column(tmp_path: Path) -> None:
    file = tmp_path / "words.csv"
    file.write_text("\ufeffterm,meaning\nfrost,cold # a comment\n\nStorm,wind\n# all\n", "utf-8")
    assert own_words(file) == ("TERM", "FROST", "STORM")


@pytest.mark.parametrize(
    ("content", "code"),
    [(None, "no-file"), (b"caf\xe9", "not-utf8"), (b"# nothing\n12\n", "no-words")],
)
def test_a_list_that_cannot_be_used_is_told(
    tmp_path: Path, content: bytes | None, code: str
) -> None:
    file = tmp_path / "words.txt"
    if content is not None:
        file.write_bytes(content)
    with pytest.raises(Refused) as caught:
        own_words(file)
    assert caught.value.problems[0].code == f"wordlist.{code}"


def test_own_words_can_be_ordered_by_how_common_they_are() -> None:
    assert order_by_use(["ZZXQ", "FROST", "WATER"]) == ("WATER", "FROST", "ZZXQ")

"""Messages: ids become words at the edge, and nothing is ever lost on the way."""

from __future__ import annotations

import pytest

from boxwright.messages import STARTED_AS, speaks, typed, words
from boxwright.problems import Message, say


def test_a_list_is_joined_as_the_catalogue_asks() -> None:
    assert words(say("text.or", head="A, B", last="C")) == "A, B or C"


def test_an_unknown_id_still_says_what_it_knows() -> None:
    assert words(say("nowhere.at-all", lock="wind")) == "nowhere.at-all lock=wind"


def test_a_language_without_a_catalogue_falls_back_to_english() -> None:
    assert words(say("text.comma"), "eo") == ", "


def test_messages_with_equal_arguments_are_equal_and_hash_alike() -> None:
    assert {say("a.b", x=1), Message("a.b", {"x": 1})} == {say("a.b", x=1)}


def test_a_message_may_fill_the_blank_of_another() -> None:
    assert words(say("text.and", head=say("text.comma"), last="x")) == ",  and x"


@pytest.mark.parametrize(
    ("language", "spoken"),
    [("en", True), ("EN", True), ("en-GB", True), ("de", False), ("", False)],
)
def test_a_language_is_spoken_where_it_has_catalogues(language: str, spoken: bool) -> None:
    assert speaks(language) is spoken


def test_a_command_is_shown_as_one_starts_the_program_here(monkeypatch: pytest.MonkeyPatch) -> None:
    new = say("folder.missing.remedy")
    assert ": boxwright new FOLDER" in words(new)
    assert typed("check", "my game") == "boxwright check 'my game'"
    monkeypatch.setenv(STARTED_AS, "python3 go.py --")
    assert ": python3 go.py -- new FOLDER" in words(new)
    assert typed("check", "my game") == "python3 go.py -- check 'my game'"

"""The head, the minutes, the goals and the story change, and remarks between them stay."""

from __future__ import annotations

import pytest

from boxwright.messages import words
from tests.game.commands.conftest import Player


def test_the_head_changes_line_by_line(play: Player) -> None:
    lines = play.lines(
        "game.describe", title="The Paper Mill at Night", ages=[8, 10], hints=3, licence=None,
        authors=["A colleague", "Another"],
    )  # fmt: skip
    assert sorted(lines) == sorted([
        '- title = "The Paper Mill"', '+ title = "The Paper Mill at Night"',
        "- ages = [9, 11]", "+ ages = [8, 10]",
        '- hints = "auto"', "+ hints = 3",
        '- licence = "CC-BY-4.0"',
        '- authors = ["A colleague"]', '+ authors = ["A colleague", "Another"]',
    ])  # fmt: skip


def test_only_what_is_new_in_the_head_is_said_to_have_changed(play: Player) -> None:
    head = play.data()["game"]
    play("game.describe", title="The Night Mill", ages=head["ages"], licence=head["licence"])
    said = play.history.now().undo
    assert said is not None
    assert words(said) == "Change about the game: the title"


def test_what_must_stand_in_the_head_stays(play: Player) -> None:
    problem = play.refused("game.describe", title=None)
    assert (problem.code, problem.where.path) == ("folder.missing-key", ("title",))
    assert play.refused("game.describe", ages=[11, 8]).where.path == ("ages",)
    assert play.refused("game.describe", language="E").where.path == ("language",)


def test_minutes_are_set_each_by_itself(play: Player) -> None:
    assert play.lines("times.set", settle=3, tidy=2) == ["+ settle = 3", "+ tidy = 2"]
    assert play.lines("times.set", settle=None) == ["- settle = 3"]
    assert play.refused("times.set", briefing=45).code == "game.no-time-to-play"


def test_minutes_can_be_set_where_none_were(play: Player) -> None:
    text = play.text().replace("[time]\nbell_to_bell = 45\n\n", "")
    (play.folder / "game.toml").write_text(text)
    assert play.lines("times.set", settle=3) == ["+ [time]", "+ settle = 3", "+ "]


def test_a_paragraph_changes_and_the_remark_beside_another_stays(play: Player) -> None:
    told = ["The recipe lies in {trunk}.", {"when": "pouch", "text": "Look into {pouch}."}]
    lines = play.lines("story.write", opening=told)
    assert lines == [
        '-   { when = "pouch", text = "Beside it lies {pouch}. Write {{x}} for x." },',
        '+   { when = "pouch", text = "Look into {pouch}." },',
    ]


REMARKED = """opening = [
  "One.",  # the first
  "Two.",  # the second
  "Three."  # the third
]
"""


@pytest.mark.parametrize(
    ("told", "lines"),
    [
        (["One.", "New.", "Two.", "Three."], ['+   "New.",']),
        (["New.", "One.", "Two.", "Three."], ['+   "New.",']),
        (["One.", "Two.", "Three.", "New."],
         ['-   "Three."  # the third', '+   "Three.",  # the third', '+   "New.",']),
        (["Two.", "Three."], ['-   "One.",  # the first']),
        (["One.", "Three."], ['-   "Two.",  # the second']),
        (["One.", "Two."], ['-   "Three."  # the third']),
        (["One.", "Two!", "Three."], ['-   "Two.",  # the second', '+   "Two!",  # the second']),
    ],
)  # fmt: skip
def test_a_paragraph_comes_or_goes_with_its_own_remark(
    play: Player, told: list[str], lines: list[str]
) -> None:
    text = play.text()
    old = text[text.index("opening = [") : text.index("closing =")]
    (play.folder / "game.toml").write_text(text.replace(old, REMARKED))
    assert [one for one in play.lines("story.write", opening=told) if one[0] in "+-"] == lines


@pytest.mark.parametrize("authors", ["BC", "AC", "AB", "AXBC", "XABC", "ABCX", "X", "A"])
def test_a_list_in_one_line_stays_in_one(play: Player, authors: str) -> None:
    play("game.describe", authors=["A", "B", "C"])
    play("game.describe", authors=list(authors))
    said = ", ".join(f'"{one}"' for one in authors)
    assert f"\nauthors = [{said}]\n" in play.text()


def test_a_long_story_gets_a_line_for_each_paragraph(play: Player) -> None:
    long = "The wheel turned all night, and nobody had set it going. " * 2
    play("story.write", unfinished=[long.strip(), "So it ends."])
    assert f'\nunfinished = [\n  "{long.strip()}",\n  "So it ends.",\n]\n' in play.text()
    assert play.lines("story.write", unfinished=[])[-1] == "- ]"


def test_a_name_that_is_not_in_the_game_is_told(play: Player) -> None:
    problem = play.refused("story.write", closing=["See {nothing}."])
    assert (problem.code, problem.where.path) == ("game.unknown-name", ("closing", 0))
    problem = play.refused("story.write", opening=[{"when": "none", "text": "x"}])
    assert problem.where.path == ("opening", 0, "when")


def test_goals_come_change_and_go(play: Player) -> None:
    assert play("goal.add", text="Say what paper is made of.") == "say-what-paper"
    assert play("goal.add", text="Say what paper is good for.") == "say-what-paper-2"
    assert play.lines("goal.change", goal="fibre", text="Tell wood from pulp.") == [
        '- fibre = "Name the steps from wood to paper."',
        '+ fibre = "Tell wood from pulp."',
    ]
    play("goal.remove", goal="fibre")
    data = play.data()
    assert "goals" not in data["clues"]["mill-words"]
    assert data["story"]["debrief"] == [{"ask": "Which step comes after {brass-key}?"}]
    assert play.refused("goal.remove", goal="fibre").code == "change.no-goal"

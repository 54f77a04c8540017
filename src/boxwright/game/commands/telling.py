"""What a game is and tells: its title page, its minutes, its goals and its story."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from boxwright.game.commands.asked import Asked, Short, filed, given
from boxwright.game.commands.command import Command
from boxwright.game.commands.desk import Desk
from boxwright.game.commands.things import field_said, put
from boxwright.game.draft import GAME
from boxwright.game.model import LANGUAGE_PATTERN, Age, Ask, Count, Id, Minutes, Name, Text, When
from boxwright.problems import Message, Problem, Where, refuse, say

Language = Annotated[str, StringConstraints(pattern=LANGUAGE_PATTERN, max_length=35)]
Told = Annotated[tuple[Text | When, ...], Field(max_length=40)]
GOAL_WORDS = 3
"""How many words of a goal its id is made from."""


class GameDescribe(Asked):
    """What the head of the game says; what is None goes back to what is usual."""

    title: Name | None = None
    summary: Text | None = None
    language: Language | None = None
    licence: Short | None = None
    authors: Annotated[tuple[Name, ...], Field(max_length=40)] | None = None
    ages: tuple[Age, Age] | None = None
    groups: tuple[Count, Count] | None = None
    pupils: tuple[Count, Count] | None = None
    hints: Literal["auto"] | Annotated[int, Field(ge=0, le=99)] | None = None


class TimesSet(Asked):
    """Minutes; what is None goes back to what is usual."""

    bell_to_bell: Annotated[int, Field(ge=5, le=600)] | None = None
    settle: Minutes | None = None
    briefing: Minutes | None = None
    debrief: Minutes | None = None
    tidy: Minutes | None = None


class StoryWrite(Asked):
    """Parts of the story, each as a whole: paragraphs, some only when a thing is in play."""

    opening: Told | None = None
    closing: Told | None = None
    unfinished: Told | None = None
    debrief: Annotated[tuple[Ask, ...], Field(max_length=40)] | None = None


class GoalAdd(Asked):
    """A new goal; its id is made from `name`, else from its first words."""

    text: Text
    name: Name | None = None


class GoalChange(Asked):
    """Other words for a goal."""

    goal: Id
    text: Text


class GoalRemove(Asked):
    """A goal that goes, also from the clues and questions that name it."""

    goal: Id


def _describe(desk: Desk, asked: GameDescribe) -> Message:
    head, wanted = desk.table(GAME, "game"), given(asked)
    changed = tuple(field for field, value in wanted.items() if head.get(field) != value)
    put(head, wanted)
    return say("change.described", fields=tuple(map(field_said, changed or wanted)))


def _times(desk: Desk, asked: TimesSet) -> Message:
    put(desk.table(GAME, "time"), given(asked))
    return say("change.times-set")


def _write(desk: Desk, asked: StoryWrite) -> Message:
    parts = {key: filed(value) or None for key, value in given(asked).items()}
    put(desk.table(GAME, "story"), parts)
    return say("change.story-written")


def _add(desk: Desk, asked: GoalAdd) -> Message:
    goals = desk.table(GAME, "goals")
    words = " ".join(asked.text.split()[:GOAL_WORDS])
    id = desk.fresh_id(asked.name or words, "goal", goals)
    goals[id] = asked.text
    return say("change.goal-added", id=id)


def _goal(desk: Desk, id: str) -> None:
    goals = desk.table(GAME, "goals")
    if id not in goals:
        choices = tuple(goals) or (say("game.none-yet"),)
        refuse(Problem.of("change.no-goal", Where(GAME), id=id, choices=choices))


def _change(desk: Desk, asked: GoalChange) -> Message:
    _goal(desk, asked.goal)
    desk.table(GAME, "goals")[asked.goal] = asked.text
    return say("change.goal-changed", id=asked.goal)


def _remove(desk: Desk, asked: GoalRemove) -> Message:
    _goal(desk, asked.goal)
    game = desk.data(GAME)
    del game["goals"][asked.goal]
    for clue in game.get("clues", {}).values():
        goals = clue.get("goals", [])
        put(clue, {"goals": [one for one in goals if one != asked.goal] or None})
    for ask in game.get("story", {}).get("debrief", []):
        if ask.get("goal") == asked.goal:
            del ask["goal"]
    return say("change.goal-removed", id=asked.goal)


COMMANDS = (
    Command("game.describe", GameDescribe, _describe),
    Command("times.set", TimesSet, _times),
    Command("story.write", StoryWrite, _write),
    Command("goal.add", GoalAdd, _add),
    Command("goal.change", GoalChange, _change),
    Command("goal.remove", GoalRemove, _remove),
)

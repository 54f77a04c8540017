"""What the page says of the rule, of the way to go about it, and of the figures."""

from __future__ import annotations

from collections.abc import Mapping

from boxwright.problems import Message, say
from boxwright.puzzles.shade_by_rule_sheet import Squares


def rule(squares: Squares) -> Message:
    """Say the rule: the teacher's own words, that a statement is true, or a number rule."""
    if squares.number_rule is not None:
        number = squares.n or 0
        rule_id = f"shade-by-rule.rule-{squares.number_rule}"
        return say(rule_id, number=number, second=2 * number, third=3 * number)
    if squares.rule:
        return say("shade-by-rule.rule-own", rule=squares.rule)
    return say("shade-by-rule.rule-true")


def figures(squares: Squares) -> Message:
    """Say how many figures of which sort appear."""
    if squares.sort == "digits":
        return say("shade-by-rule.digits", n=squares.figures)
    return say("shade-by-rule.letters", n=squares.figures)


def words_of(squares: Squares) -> Mapping[str, Message]:
    """Return `how` to go about it, the `rule`, `up`, and what to `find`."""
    how = "statements" if squares.statements else "numbers"
    return {
        "how": say(f"shade-by-rule.how-{how}"),
        "rule": rule(squares),
        "up": say("shade-by-rule.up"),
        "find": say("shade-by-rule.find", figures=figures(squares), order=_order(squares)),
    }


def _order(squares: Squares) -> Message:
    if squares.figures == 1:
        return say("shade-by-rule.order-one")
    return say("shade-by-rule.order-line" if squares.lines == 1 else "shade-by-rule.order-lines")


def spans(places: list[int]) -> tuple[Message, ...]:
    """Say places (from 0) as columns (from 1), those in a row together: `2 to 6`."""
    runs: list[list[int]] = []
    for place in places:
        if runs and place == runs[-1][1] + 1:
            runs[-1][1] = place
        else:
            runs.append([place, place])
    return tuple(
        say("shade-by-rule.column", at=first + 1)
        if first == last
        else say("shade-by-rule.columns", first=first + 1, last=last + 1)
        for first, last in runs
    )

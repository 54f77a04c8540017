"""What a teacher may choose for a grid to shade, and choices that do not go together."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel

from boxwright.problems import Problem, Where, say
from boxwright.puzzles.shade_by_rule_content import width
from boxwright.puzzles.shade_by_rule_numbers import FEWEST, enough
from boxwright.puzzles.shade_by_rule_sheet import LARGEST, WITH_N, NumberRule

LONGEST_RULE = 60
LONGEST_WORD = 20.0  # text sizes: a line of the rule in large print


class Options(BaseModel, frozen=True, extra="forbid", strict=True):
    """What a teacher may choose.

    With a table of statements: the `rule` that a statement fits ("It floats on water.");
    left out, it is that the statement is true. Without a table: a `number_rule`, and the
    number `n` that it is about, which is else chosen by level.
    """

    rule: str = ""
    number_rule: Literal["none", NumberRule] = "none"
    n: int | None = None


def clash(options: Options, listed: bool) -> Problem | None:
    """Return the problem that options do not go together, or not with the content."""
    if options.number_rule == "none":
        if not listed:
            return Problem.of("shade-by-rule.no-table", Where("", ("content",)))
        if options.n is not None:
            return Problem.of("shade-by-rule.n-unused", _option("n"), found=options.n)
        return _long_rule(options.rule)
    if listed:
        return Problem.of("shade-by-rule.two-rules", _option("number_rule"))
    if options.rule.strip():
        return Problem.of("shade-by-rule.rule-unused", _option("rule"))
    return _wrong_n(options.number_rule, options.n)


def _option(name: str) -> Where:
    return Where("", ("options", name))


def _long_rule(rule: str) -> Problem | None:
    """Return the problem that a rule, or a word of it, has no room in large print."""
    words = rule.split()
    found = len(" ".join(words))
    if found > LONGEST_RULE:
        return Problem.of("shade-by-rule.long-rule", _option("rule"), n=found, most=LONGEST_RULE)
    broad = next((word for word in words if width(word) > LONGEST_WORD), None)
    if broad is None:
        return None
    return Problem.of("shade-by-rule.long-word", _option("rule"), word=broad)


def _wrong_n(number_rule: NumberRule, n: int | None) -> Problem | None:
    rule = say(f"shade-by-rule.name-{number_rule}")
    if n is None:
        return None
    if number_rule not in WITH_N:
        return Problem.of("shade-by-rule.n-not-needed", _option("n"), rule=rule, found=n)
    if not enough(number_rule, n):
        return Problem.of(
            "shade-by-rule.n", _option("n"), rule=rule, found=n, least=FEWEST, largest=LARGEST
        )
    return None

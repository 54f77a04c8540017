"""A way made over to another kind keeps what the new one takes, and gets what it wants."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from boxwright.build import read
from boxwright.choose.chance import Chance
from boxwright.choose.offers import offers
from boxwright.choose.other_kind import MadeOver, made_over
from boxwright.content.lesson import asked_of
from boxwright.content.listing import tables_of
from boxwright.content.tables import Content, Table
from tests.games import EXAMPLES

MILL = EXAMPLES / "tide-mill"
WORDS = Content({
    "terms": Table("words.csv", ("term", "meaning"), ({"term": "sluice", "meaning": "a gate"},))
})  # fmt: skip


def contents() -> dict[str, Content]:
    return {one.name: one.content for one in tables_of(MILL, {}) if one.content is not None}


def over(
    kind: str, like: MadeOver, tables: Mapping[str, Content] | None = None, code: str = "241"
) -> MadeOver:
    folder = read(MILL)
    (offer,) = [one for one in offers(folder, "sluice", code, Chance(1)) if one.name == kind]
    own = contents() if tables is None else tables
    return made_over(folder, offer, like, own, "ordinary", Chance(1))


def test_options_that_the_new_kind_has_not_go_and_common_ones_stay() -> None:
    like = MadeOver(None, {"pictures": 24, "family": "beetles"})
    assert over("count-sheet", like).options == {"pictures": 24, "family": "beetles"}
    assert over("nonogram", like).options == {}


def test_a_common_option_with_a_value_that_the_new_kind_does_not_take_goes() -> None:
    assert over("logic-grid", MadeOver(None, {"scene": "library"})).options == {}
    assert over("logic-grid", MadeOver(None, {"scene": "boats"})).options == {"scene": "boats"}


def test_a_kind_gets_the_first_table_that_serves_it() -> None:
    assert over("quiz-index", MadeOver("floats.csv")).content == "tides.csv"
    assert over("shade-by-rule", MadeOver("tides.csv")).content == "floats.csv"


def test_a_table_that_serves_stays_and_one_that_nothing_draws_on_goes() -> None:
    both = contents() | {"another.csv": contents()["tides.csv"]}
    assert over("quiz-index", MadeOver("tides.csv"), both).content == "tides.csv"
    assert over("quiz-index", MadeOver({"questions": "tides.csv"}), both).content == "tides.csv"
    assert over("nonogram", MadeOver("tides.csv")).content is None


def test_a_table_of_words_serves_a_puzzle_that_asks_questions() -> None:
    tables = {"words.csv": asked_of(WORDS, "en")}
    assert over("quiz-index", MadeOver(), tables).content == "words.csv"
    assert over("quiz-index", MadeOver(), {"words.csv": WORDS}).content is None


def test_a_choice_that_the_kind_wants_is_made_where_there_is_no_table() -> None:
    options = over("shade-by-rule", MadeOver(), {}).options
    assert options["number_rule"] != "none"
    assert over("shade-by-rule", MadeOver()).options == {}


@pytest.mark.parametrize("options", [{}, {"ground": "waves"}])
def test_a_kind_that_cannot_carry_the_code_is_made_over_all_the_same(
    options: dict[str, Any],
) -> None:
    assert over("route-map", MadeOver("tides.csv", options)) == MadeOver(None, {})

"""A text made to say something else keeps all that need not change, however it is written."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxwright.game.text_edit import rewritten

HEADED = """[boxes.a]
name = "x"  # its name

[boxes.b]
name = "y"

# ITEMS

[items.c]
z = 1
"""
INLINE = """# all boxes
boxes = { a = { name = "x" }, b = { name = "y" } }
items = { c = { z = 1 } }
"""
LINES = """[boxes]
a = { name = "x" }  # its name
b = { name = "y" }

[items]
c.z = 1
"""
DOTTED = """boxes.a.name = "x"  # its name
boxes.b.name = "y"
items.c.z = 1
"""
QUOTED = """["boxes".'a']
"name" = "x" # its name
[ boxes . "b" ]
name="y"
[items."c"]
z=1"""
MIXED = """[boxes]
[boxes.a]
name = "x"
[items.c]
z = 1
[boxes.b]
name = "y"
"""
FORMS = {"headed": HEADED, "inline": INLINE, "lines": LINES, "dotted": DOTTED, "quoted": QUOTED,
         "mixed": MIXED}  # fmt: skip
OLD = {"boxes": {"a": {"name": "x"}, "b": {"name": "y"}}, "items": {"c": {"z": 1}}}


def filled(data: Any) -> Any:
    """Leave out tables without members, which a text need not mention."""
    if not isinstance(data, dict):
        return data
    inner = {key: filled(value) for key, value in data.items()}
    return {key: value for key, value in inner.items() if value != {}}


TABLE = st.dictionaries(
    st.sampled_from(["name", "z", "place", "odd key"]),
    st.sampled_from(["x", "y", 1, True, 2.5])
    | st.lists(st.sampled_from(["x", "y" * 90]), max_size=3)
    | st.dictionaries(st.sampled_from(["k", "l"]), st.just("v"), min_size=1, max_size=2),
    max_size=3,
)
DATA = st.fixed_dictionaries(
    {},
    optional={
        "boxes": st.dictionaries(st.sampled_from(["a", "b", "new"]), TABLE, max_size=3),
        "items": st.dictionaries(st.sampled_from(["c", "d"]), TABLE, max_size=2),
        "time": TABLE,
        "locks": st.dictionaries(st.sampled_from(["e", "f"]), TABLE, max_size=2),
    },
)


@pytest.mark.parametrize("form", FORMS)
def test_the_forms_all_say_the_same(form: str) -> None:
    assert tomllib.loads(FORMS[form]) == OLD
    assert rewritten(FORMS[form], OLD) == FORMS[form]


@given(st.sampled_from(sorted(FORMS)), DATA)
def test_any_text_can_be_made_to_say_anything(form: str, new: dict[str, Any]) -> None:
    after = rewritten(FORMS[form], new)
    assert filled(tomllib.loads(after)) == filled(new)


@given(DATA, DATA)
def test_what_was_written_here_is_written_the_same_again(
    one: dict[str, Any], two: dict[str, Any]
) -> None:
    text = rewritten("", one)
    assert filled(tomllib.loads(rewritten(text, two))) == filled(two)
    assert rewritten(text, tomllib.loads(text)) == text
    assert "\n\n\n" not in rewritten(text, two)


def test_remarks_of_what_stays_stay() -> None:
    new: dict[str, Any] = {"boxes": {"a": {"name": "x"}, "n": {"name": "n"}}}
    assert rewritten(FORMS["headed"], new) == (
        '[boxes.a]\nname = "x"  # its name\n\n[boxes.n]\nname = "n"\n\n# ITEMS\n'
    )

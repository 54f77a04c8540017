"""A planted mistake is found by the checks that every game passes, and gone when mended."""

from __future__ import annotations

import pytest

from boxwright.build.planted import MISTAKES, planted
from boxwright.game.examples import examples
from boxwright.game.history import tag_of

CODES = {"word": "lock.cannot-show", "ring": "reach.locked-behind-itself"}


@pytest.mark.parametrize("name", sorted(MISTAKES))
def test_it_is_found_and_following_its_remedy_clears_it(name: str) -> None:
    example = examples()["tide-mill"]
    before = tag_of(example)
    found = planted(example, MISTAKES[name], mended=False)
    assert found.found[0].problem.code == CODES[name]
    assert found.found[0].severity == "stop"
    assert found.built.stops
    mended = planted(example, MISTAKES[name], mended=True)
    assert mended.found == ()
    assert not mended.built.stops
    assert len(mended.done) == len(found.done) + 1
    assert tag_of(example) == before


def test_the_word_is_mended_with_one_that_the_remedy_names() -> None:
    found = planted(examples()["tide-mill"], MISTAKES["word"], mended=True)
    assert found.built.edition.codes["water"] == tuple(found.done[-1].value)

"""Every kind on the shelf gives what a kind owes; a kind that is not filled in does not."""

from __future__ import annotations

import pytest

from boxwright.puzzles import shelf
from boxwright.puzzles.shelf import HERE, load
from tests.puzzles.owed import (
    CHECKS,
    Trial,
    check_every_leaf_is_drawn,
    check_what_is_not_refused_is_made,
)

# The teacher's own pages owe nothing that can be computed; their tests are their own.
PROVEN = [name for name, kind in shelf.all_kinds() if not kind.FACTS.own]
SKELETON = HERE / "skeleton" / "my_kind.py"


@pytest.mark.parametrize("check", CHECKS)
@pytest.mark.parametrize("name", PROVEN)
def test_a_kind_on_the_shelf(name: str, check: str) -> None:
    CHECKS[check](Trial(name, shelf.kind(name)))


@pytest.mark.long
@pytest.mark.parametrize("name", PROVEN)
def test_a_thousand_requests_are_made(name: str) -> None:
    check_what_is_not_refused_is_made(Trial(name, shelf.kind(name)), 1000)


@pytest.mark.long
@pytest.mark.parametrize("name", PROVEN)
def test_every_single_leaf_is_drawn(name: str) -> None:
    check_every_leaf_is_drawn(Trial(name, shelf.kind(name)), 10_000)


@pytest.mark.parametrize("check", CHECKS)
def test_the_skeleton_fails_until_it_is_filled_in(check: str) -> None:
    trial = Trial("my-kind", load("my-kind", SKELETON))
    with pytest.raises((AssertionError, NotImplementedError)):
        CHECKS[check](trial)


def test_the_skeleton_is_never_listed() -> None:
    assert "my-kind" not in shelf.names()
    assert shelf.names()

"""What hangs together with a thing."""

from __future__ import annotations

from boxwright.game.arrange import Wishes, arrange
from boxwright.game.arranged import Arranged, ArrangedGame
from boxwright.game.ties import Tie, ties
from tests.game.test_nesting import opened


def game(wishes: Wishes | None = None) -> ArrangedGame:
    """Return the example as it is played."""
    arranged = arrange(opened(), wishes)
    assert isinstance(arranged, Arranged)
    return arranged.games[0].game


def test_a_lock_names_its_box_and_the_clue_to_its_code() -> None:
    assert ties(game(), "water") == (Tie("chest", "closed"), Tie("float-or-sink", "tells-code"))


def test_a_lock_with_a_key_names_the_key() -> None:
    assert Tie("brass-key", "opens") in ties(game(), "latch")


def test_a_box_names_everything_that_helps_to_open_it() -> None:
    assert set(ties(game(), "chest")) == {
        Tie("float-or-sink", "lets-in"),
        Tie("brass-key", "lets-in"),
    }


def test_a_clue_names_where_it_leads_and_what_it_needs() -> None:
    harder = game(Wishes(level="harder"))
    assert ties(harder, "boat-shed") == (Tie("hatch", "leads-to"), Tie("torch", "needed"))


def test_an_item_names_what_it_opens_and_who_leads_to_it() -> None:
    assert ties(game(), "brass-key") == (Tie("latch", "opened"), Tie("find-key", "tells-place"))


def test_what_is_not_in_play_hangs_together_with_nothing() -> None:
    assert ties(game(), "torch") == ()

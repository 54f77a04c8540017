"""The story card: what is read aloud at the start, and how long that takes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil

from boxwright.checks.play_time import ALOUD_WORDS_A_MINUTE
from boxwright.paper.outs.printing import Printing
from boxwright.paper.page import Page
from boxwright.problems import Message, say
from boxwright.puzzles.contract import Reader

READER: Reader = "teacher"
ORDER = 6
MOST_SECONDS = 120  # from here on, minutes say it better
SLOWLY = 150  # words a minute, for a class that listens: common practice, no source


def pages(printing: Printing) -> Iterator[Page]:
    """Yield the card; nothing where there is no story to begin with."""
    opening = printing.edition.game.story.opening
    if not opening:
        return
    yield printing.page(
        "story",
        title=printing.edition.game.title,
        alt="",
        sheet={"paragraphs": opening},
        labels={
            "aloud": printing.said(aloud(opening)),
            "then": printing.text("printout.story-then"),
        },
        prints=opening,
        reader=READER,
        flows=True,
    )


def aloud(paragraphs: Sequence[str]) -> Message:
    """Say how long it takes to read `paragraphs` aloud, and on what that rests."""
    count = sum(len(paragraph.split()) for paragraph in paragraphs)
    quick, slow = (count / pace for pace in (ALOUD_WORDS_A_MINUTE, SLOWLY))
    if slow < MOST_SECONDS / 60:
        code, low, high = "printout.story-aloud", _fives(quick * 60), _fives(slow * 60)
        high = max(high, low + 5)
    else:
        code, low, high = "printout.story-aloud-minutes", round(quick), ceil(slow)
    return say(code, words=count, quick=low, slow=high, slowly=SLOWLY, quickly=ALOUD_WORDS_A_MINUTE)


def _fives(seconds: float) -> int:
    """Return seconds to the nearest five, at least five."""
    return max(5, round(seconds / 5) * 5)

"""What every kind of sheet owes, as types; `puzzles.shelf` holds the kinds to it.

A kind is a module of `boxwright.puzzles` with these names, and a Typst file of the
same stem with `#let draw(part, sheet, words, look)`. `make` gives the sheet (printed
facts alone) and what it knows (what pupils bring along); neither holds the answer.
`solve` shares no code with `make` beyond types and published tables.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import field
from typing import Any, Literal, NamedTuple, Protocol

from pydantic import BaseModel
from pydantic.config import JsonDict

from boxwright.content.tables import Content
from boxwright.dice import Dice
from boxwright.frozen import frozen_value
from boxwright.game.model import Level, RoomFile
from boxwright.problems import Message, Path, Problem

Alphabet = Literal["digits", "letters", "moves", "faces", "numbers", "text", "place"]
Reader = Literal["pupils", "ink", "teacher"]
Use = Literal["pencil", "scissors", "torch", "mirror", "film", "scanner", "colour", "hearing"]

PICTURES: JsonDict = {"from": "pictures"}
"""What the schema of an option says that names pictures of the teacher's."""


@frozen_value
class Answer:
    """What a sheet leads to: `("4", "2", "7")` in digits, `("up", "left")` in moves."""

    alphabet: Alphabet
    symbols: tuple[str, ...]


@frozen_value
class Carries:
    """Answers that a kind can carry: `symbols` None means every symbol of the alphabet."""

    alphabet: Alphabet
    symbols: frozenset[str] | None
    shortest: int
    longest: int

    def holds(self, answer: Answer) -> bool:
        """Tell whether `answer` is among them."""
        return (
            answer.alphabet == self.alphabet
            and self.shortest <= len(answer.symbols) <= self.longest
            and (self.symbols is None or self.symbols.issuperset(answer.symbols))
        )


@frozen_value
class Part:
    """One printed piece; `ink` is unseen until the torch is on it; `apart` may lie elsewhere."""

    name: str
    reader: Reader = "pupils"
    apart: bool = False


@frozen_value
class Need:
    """A table that a kind draws on: its name, the least rows, and the columns it must have."""

    table: str
    least_rows: int
    columns: tuple[str, ...]


@frozen_value
class Facts:
    """What a kind is good for, before anything is made.

    `band_minutes` is for choosing alone; a forecast reads `effort`.
    `prints_symbols`: the code's symbols stand on the sheet by design.
    `own`: written by the teacher for a fixed code; nothing about it can be proven.
    """

    answers: tuple[Carries, ...]
    ages: tuple[int, int]
    band_minutes: tuple[int, int]
    skill: frozenset[str]
    uses: frozenset[Use] = frozenset({"pencil"})
    content: tuple[Need, ...] = ()
    parts: tuple[Part, ...] = (Part("sheet"),)
    language: Literal["none", "words", "english"] = "none"
    basis: Literal["computed", "declared"] = "computed"
    prints_symbols: bool = False
    own: bool = False

    def carries(self, answer: Answer) -> bool:
        """Tell whether some entry of `answers` holds `answer`."""
        return any(entry.holds(answer) for entry in self.answers)

    @property
    def laid_on(self) -> bool:
        """Whether parts of this kind are laid on each other, so that no printer may scale."""
        readers = {part.reader for part in self.parts}
        return "film" in self.uses or "ink" in readers or "teacher" in readers


@frozen_value
class Given:
    """What a kind may draw on besides the answer and its options.

    `pictures` are the teacher's own, by their names under pictures/: width and height in
    any one unit, for only their ratio counts.
    """

    ages: tuple[int, int] = (9, 12)
    language: str = "en"
    level: Level = "ordinary"
    content: Content = field(default_factory=Content)
    room: RoomFile | None = None
    host: Any | None = None
    pictures: Mapping[str, tuple[float, float]] = field(default_factory=dict)


@frozen_value
class NoKnows:
    """Nothing need be known: the sheet says it all."""


class NoOptions(BaseModel, frozen=True, extra="forbid"):
    """A kind without options."""


class Made(NamedTuple):
    """A sheet, and what pupils must know to solve it."""

    sheet: Any
    knows: Any


class Step(NamedTuple):
    """One step of a working: what is seen, and the paths into the sheet's JSON where."""

    says: Message
    at: tuple[Path, ...] = ()


class Solution(NamedTuple):
    """One answer that a sheet can be read as, and how one gets there."""

    answer: Answer
    working: tuple[Step, ...] = ()


class Mistake(NamedTuple):
    """A likely wrong answer, what it means, and whether pupils could notice it themselves."""

    answer: Answer
    means: Message
    noticed: bool


class Effort(NamedTuple):
    """What a sheet costs: words to read, marks to make, steps, how deep each rests on the last."""

    words: int
    marks: int
    steps: int
    depth: int
    skill: str


class GaveUp(Exception):  # noqa: N818 - a result of searching, not a fault
    """A solver stopped looking; nothing more is known beyond `bound` (a count it names)."""

    def __init__(self, bound: int) -> None:
        """Keep how far the search went."""
        super().__init__(f"gave up after {bound}")
        self.bound = bound


class Kind(Protocol):
    """A kind of sheet, as a module."""

    FACTS: Facts
    RULES: Message

    @property
    def Options(self) -> type[BaseModel]: ...  # noqa: N802, D102

    @property
    def Sheet(self) -> type: ...  # noqa: N802, D102

    @property
    def Knows(self) -> type: ...  # noqa: N802, D102

    def refuse(self, answer: Answer, options: Any, given: Given) -> Problem | None:
        """Say at little cost why this cannot be made, naming nearest kinds that can; else None.

        A kind knows no files: the problem's `where` has an empty `file`, and a path under
        the version (`("options", "ground")`); the caller, who knows both, fills them in.
        """

    def make(self, answer: Answer, options: Any, given: Given, dice: Dice) -> Made:
        """Make a sheet for `answer`; raises only for faults of our own."""

    def solve(self, sheet: Any, knows: Any) -> Iterator[Solution]:
        """Yield every distinct answer of `sheet`; raises GaveUp at a bound."""

    def describe(self, sheet: Any, part: str) -> Message:
        """Say what `part` shows, for those who do not see it; never the answer."""

    def words(self, sheet: Any, part: str) -> Mapping[str, Message]:
        """Return the sentences that `part`'s template draws, under the names it asks for."""

    def hints(self, sheet: Any, knows: Any, solution: Solution) -> tuple[Message, Message, Message]:
        """Give three hints from this sheet's own working; the third names a place on it."""

    def mistakes(self, sheet: Any, knows: Any, solution: Solution) -> Iterator[Mistake]:
        """Yield likely wrong answers and what each means."""

    def effort(self, sheet: Any) -> Effort:
        """Say what solving costs."""

"""What every kind owes, as checks that take any kind: those on the shelf, or one in the making.

Each check fails by an assertion, or by whatever the kind raises.
"""

from __future__ import annotations

import copy
import csv
import json
import random
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from statistics import mean
from types import ModuleType
from typing import Any, Literal, cast, get_args, get_origin

from boxwright import records
from boxwright.content.tables import Content, Table
from boxwright.dice import Dice
from boxwright.game.model import LEVELS, Level
from boxwright.messages import words as said
from boxwright.paper.frame import PAPERS, SIZES, Look
from boxwright.paper.page import Page, page_for
from boxwright.paper.readback import read_back
from boxwright.paper.render import MisprintError, render
from boxwright.problems import Message, Problem, Refused, say
from boxwright.puzzles.contract import Answer, Carries, Given, Kind, Made, Solution
from tests.puzzles.shared_code import shared_code

HERE = Path(__file__).parent
SYMBOLS = {
    "digits": "0123456789",
    "letters": "ABCDEFGHIJKLMNOPQRSTUVWXYZ",
    "text": "ABCDEFGHIJKLMNOPQRSTUVWXYZ",
    "moves": ("up", "down", "left", "right"),
    "faces": ("red", "blue", "green", "yellow"),
    "numbers": tuple(map(str, range(40))),
    "place": ("SILL", "CHAIR", "BOARD"),
}
# A kind may refuse most codes: of those for a round on a map, one in seven turns at each move.
ATTEMPTS = 400
LONGEST_MAKE = 5.0  # seconds of this process; a loop without end would be found by this


@dataclass(frozen=True)
class Request:
    """One thing to make."""

    answer: Answer
    options: Any
    given: Given
    seed: str


@dataclass(frozen=True)
class Trial:
    """A kind, its id, and the folder with its sheet of two answers."""

    name: str
    kind: Kind
    doubles: Path = HERE / "two_answers"

    def request(self, seed: str, level: Level | None = None) -> Request:
        """Return a random request that the kind does not refuse."""
        for attempt in range(ATTEMPTS):
            chance = random.Random(f"{self.name} {seed} {attempt}")
            entry = chance.choice(self.kind.FACTS.answers)
            length = chance.randint(entry.shortest, entry.longest)
            given = self.given(chance, chance.choice(LEVELS) if level is None else level)
            answer = self.answer(entry, length, chance)
            request = Request(answer, self.options(chance), given, f"{seed} {attempt}")
            if self.kind.refuse(answer, request.options, given) is None:
                return request
        raise AssertionError(f"{ATTEMPTS} requests that the facts allow, and every one was refused")

    def answer(self, entry: Carries, length: int, chance: random.Random) -> Answer:
        """Return a random answer of `length`."""
        choices = sorted(entry.symbols) if entry.symbols else list(SYMBOLS[entry.alphabet])
        return Answer(entry.alphabet, tuple(chance.choice(choices) for _ in range(length)))

    def options(self, chance: random.Random) -> Any:
        """Return options, some of them chosen where there are named choices."""
        chosen = {
            name: chance.choice(get_args(field.annotation))
            for name, field in self.kind.Options.model_fields.items()
            if get_origin(field.annotation) is Literal and chance.random() < 0.5
        }
        return self.kind.Options(**chosen)

    def given(self, chance: random.Random, level: Level) -> Given:
        """Return a class of pupils, and the tables that are needed."""
        low, high = self.kind.FACTS.ages
        youngest = chance.randint(low, high)
        tables = {need.table: table(need.table) for need in self.kind.FACTS.content}
        return Given((youngest, min(high, youngest + 2)), "en", level, Content(tables))

    def make(self, request: Request) -> Made:
        """Make what was asked for."""
        answer, options, given = request.answer, request.options, request.given
        return self.kind.make(answer, options, given, Dice(request.seed))

    def made(self, seed: str, level: Level | None = None) -> tuple[Request, Made, Solution]:
        """Make a random request and solve it."""
        request = self.request(seed, level)
        made = self.make(request)
        return request, made, next(self.kind.solve(made.sheet, made.knows))

    def pages(self, sheet: Any) -> list[Page]:
        """Return the pages of all parts."""
        module = cast(ModuleType, self.kind)
        return [
            page_for(module, sheet, part.name, title=said(say(f"{self.name}.title")), lang="en")
            for part in self.kind.FACTS.parts
        ]


def table(name: str) -> Table:
    """Return an invented table of the kind `name`, as a teacher may have it."""
    file = f"{name}.csv"
    with (HERE / "tables" / file).open(encoding="utf-8", newline="") as lines:
        read = csv.DictReader(lines)
        rows = tuple(read)
    return Table(file, tuple(read.fieldnames or ()), rows)


def is_said(message: Message) -> bool:
    """Tell whether a catalogue has the message, and all blanks are filled."""
    text = said(message)
    nested = [arg for arg in flat(tuple(message.args.values())) if isinstance(arg, Message)]
    return not text.startswith(message.id) and all(is_said(arg) for arg in nested)


def flat(value: Any) -> Iterator[Any]:
    """Yield what stands in a tuple of tuples."""
    if isinstance(value, tuple):
        for item in value:
            yield from flat(item)
    else:
        yield value


def tells(text: str, answer: Answer) -> bool:
    """Tell whether a text gives away an answer: three symbols or more as one run.

    Shorter ones may stand in any sentence by chance (`12 rows`), so they are not held
    against a text that says how large a sheet is; as a word of its own they are.
    """
    joined = "".join(answer.symbols).casefold()
    bare = "".join(sign for sign in text.casefold() if sign.isalnum())
    return len(joined) >= 3 and (joined in bare or joined[::-1] in bare)


def check_it_comes_back_from_json_with_its_one_answer(trial: Trial) -> None:
    for n in range(12):
        request, made, _ = trial.made(f"json {n}")
        kinds = (trial.kind.Sheet, trial.kind.Knows)
        again: list[Any] = [
            records.from_json(kind, json.loads(json.dumps(records.to_json(value))))
            for kind, value in zip(kinds, made, strict=True)
        ]
        assert again == list(made)
        answers = [solution.answer for solution in trial.kind.solve(*again)]
        assert answers == [request.answer]


def check_the_same_dice_make_the_same_sheet(trial: Trial) -> None:
    request = trial.request("again")
    assert trial.make(request) == trial.make(request)


def check_what_is_not_refused_is_made(trial: Trial, count: int = 150) -> None:
    for n in range(count):
        request = trial.request(f"made {n}")
        start = time.process_time()
        trial.make(request)
        assert time.process_time() - start < LONGEST_MAKE, request


def check_what_it_cannot_carry_is_refused(trial: Trial) -> None:
    entry = max(trial.kind.FACTS.answers, key=lambda entry: entry.longest)
    given = trial.given(random.Random(1), "ordinary")
    long = trial.answer(entry, entry.longest + 1, random.Random(1))
    for answer in (long, Answer(entry.alphabet, ())):
        problem = trial.kind.refuse(answer, trial.kind.Options(), given)
        assert isinstance(problem, Problem)
        assert is_said(problem.what)
        assert is_said(problem.remedy)


def check_the_sheet_of_two_answers_has_two(trial: Trial) -> None:
    file = trial.doubles / f"{trial.name}.json"
    assert file.is_file(), f"a sheet with two answers is missing: {file}"
    double = json.loads(file.read_text(encoding="utf-8"))
    sheet: Any = records.from_json(trial.kind.Sheet, double["sheet"])
    knows: Any = records.from_json(trial.kind.Knows, double["knows"])
    found = sorted(solution.answer.symbols for solution in trial.kind.solve(sheet, knows))
    assert found == sorted(tuple(symbols) for symbols in double["answers"])
    assert len(found) == 2


def check_a_part_that_lies_apart_is_needed(trial: Trial) -> None:
    _, made, solution = trial.made("apart")
    for part in trial.kind.FACTS.parts:
        if part.apart:
            values = records.to_json(made.sheet) | {part.name.replace("-", "_"): None}
            sheet: Any = records.from_json(trial.kind.Sheet, values)
            answers = [found.answer for found in trial.kind.solve(sheet, made.knows)]
            assert answers != [solution.answer], f"solved without {part.name}"


def check_the_description_keeps_the_answer(trial: Trial) -> None:
    for n in range(30):
        request, made, _ = trial.made(f"described {n}")
        for part in trial.kind.FACTS.parts:
            message = trial.kind.describe(made.sheet, part.name)
            assert is_said(message)
            assert not tells(said(message), request.answer)


def check_a_higher_level_costs_more(trial: Trial) -> None:
    costs = []
    for level in LEVELS:
        sheets = [trial.make(trial.request(f"level {n}", level)).sheet for n in range(12)]
        efforts = [trial.kind.effort(sheet) for sheet in sheets]
        costs.append(
            tuple(mean(getattr(e, k) for e in efforts) for k in ("steps", "marks", "depth"))
        )
    assert costs == sorted(set(costs))


def check_it_fits_every_page(trial: Trial) -> None:
    for entry in trial.kind.FACTS.answers:
        for level in ("easier", "hardest"):
            chance = random.Random(f"{entry} {level}")
            answer = trial.answer(entry, entry.longest, chance)
            request = Request(answer, trial.kind.Options(), trial.given(chance, level), "page")
            if trial.kind.refuse(answer, request.options, request.given):
                continue
            pages = trial.pages(trial.make(request).sheet)
            for paper in PAPERS:
                for size in SIZES:
                    render(pages, Look(paper, size))


def check_the_printed_page_reads_back(trial: Trial) -> None:
    look = Look("a4", 12)
    for n in range(3):
        pages = trial.pages(trial.made(f"read {n}")[1].sheet)
        assert read_back(render(pages, look), pages, look) == []


def check_every_leaf_is_drawn(trial: Trial, each: int = 3) -> None:
    """Change one value, and the picture must change, or the template refuse it.

    Of values that differ in their place in a list alone, no more than `each` are changed.
    """
    sheet = trial.made("leaf", "easier")[1].sheet
    parts = trial.kind.FACTS.parts
    pupils = {part.name.replace("-", "_") for part in parts if part.reader != "teacher"}
    data = records.to_json(sheet)
    before = picture(trial, sheet)
    assert before is not None
    alike: dict[Any, list[tuple[Any, Any]]] = {}
    for path, value in leaves(data):
        if path[0] in pupils:
            fields = tuple(key for key in path if isinstance(key, str))
            alike.setdefault(fields, []).append((path, value))
    chance = random.Random("leaves")
    chosen = [
        leaf for group in alike.values() for leaf in chance.sample(group, min(each, len(group)))
    ]
    assert chosen
    dull = [
        path
        for path, value in chosen
        if picture(trial, changed(trial, data, path, value)) == before
    ]
    assert dull == []


def picture(trial: Trial, sheet: Any) -> list[bytes] | None:
    """Return the pupils' pages as pictures; None where the template refuses them."""
    pages = [page for page in trial.pages(sheet) if page.reader != "teacher"]
    try:
        return render(pages, Look("a4", 12), "png", ppi=60)
    except (MisprintError, Refused):
        return None


def leaves(value: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[tuple[Any, ...], Any]]:
    """Yield every plain value in JSON with its path."""
    if isinstance(value, dict):
        for key, item in value.items():
            yield from leaves(item, (*path, key))
    elif isinstance(value, list):
        for index, item in enumerate(value):
            yield from leaves(item, (*path, index))
    elif value is not None:
        yield path, value


def changed(trial: Trial, data: Any, path: tuple[Any, ...], value: Any) -> Any:
    """Return the sheet with another value at `path`; where names are fixed, another name."""
    try:
        return records.from_json(trial.kind.Sheet, put(data, path, another(value)))
    except Refused as refused:
        (problem,) = refused.problems
        expected = problem.what.args["expected"]
        assert isinstance(expected, Message)
        choices = flat(expected.args["choices"])
        other = next(choice for choice in choices if choice != value)
        return records.from_json(trial.kind.Sheet, put(data, path, other))


def another(value: Any) -> Any:
    """Return a value of the same type that is not this one."""
    if isinstance(value, bool):
        return not value
    if isinstance(value, str):
        return ("B" if value[:1] != "B" else "C") + value[1:]
    return value + 1


def put(data: Any, path: tuple[Any, ...], value: Any) -> Any:
    """Return a copy of JSON with `value` at `path`."""
    twin = copy.deepcopy(data)
    place = twin
    for key in path[:-1]:
        place = place[key]
    place[path[-1]] = value
    return twin


def check_the_hints_lead_on(trial: Trial) -> None:
    for n in range(20):
        request, made, solution = trial.made(f"hint {n}")
        hints = trial.kind.hints(made.sheet, made.knows, solution)
        texts = [said(hint) for hint in hints]
        assert len(set(texts)) == 3
        assert all(is_said(hint) for hint in hints)
        assert hints[2].args, "the third hint names a place on this very sheet"
        assert not any(tells(text, request.answer) for text in texts)


def check_mistakes_are_no_answers(trial: Trial) -> None:
    found = 0
    for n in range(20):
        request, made, solution = trial.made(f"mistake {n}")
        mistakes = list(trial.kind.mistakes(made.sheet, made.knows, solution))
        answers = [mistake.answer for mistake in mistakes]
        assert request.answer not in answers
        assert len(set(answers)) == len(answers)
        assert all(answer.alphabet == request.answer.alphabet for answer in answers)
        assert all(is_said(mistake.means) for mistake in mistakes)
        found += len(mistakes)
    assert found, "no usual mistake on twenty sheets"


def check_the_working_says_where(trial: Trial) -> None:
    for n in range(5):
        _, made, solution = trial.made(f"working {n}")
        data = records.to_json(made.sheet)
        assert solution.working
        for step in solution.working:
            assert is_said(step.says)
            for path in step.at:
                place = data
                for key in path:
                    place = place[key]


def check_its_words_are_there(trial: Trial) -> None:
    assert is_said(trial.kind.RULES)
    assert is_said(say(f"{trial.name}.title"))
    assert is_said(say(f"{trial.name}.about"))
    _, made, _ = trial.made("words")
    for part in trial.kind.FACTS.parts:
        assert all(is_said(message) for message in trial.kind.words(made.sheet, part.name).values())


def check_solving_shares_no_code_with_making(trial: Trial) -> None:
    assert shared_code(cast(ModuleType, trial.kind)) == set()
    assert trial.make(trial.request("no code"))


CHECKS: dict[str, Callable[[Trial], None]] = {
    name.removeprefix("check_"): check
    for name, check in sorted(globals().items())
    if name.startswith("check_")
}

"""Hidden pictures: every code, every level, no guess, no two grounds alike, and fair words."""

from __future__ import annotations

from itertools import combinations, product
from statistics import median
from typing import get_args

import pytest

from boxwright import records
from boxwright.dice import Dice
from boxwright.game.model import LEVELS, Level
from boxwright.messages import words as said
from boxwright.problems import Message
from boxwright.puzzles import nonogram
from boxwright.puzzles.contract import Answer, Given, Made, Mistake, NoKnows, Solution
from boxwright.puzzles.figures import DIGITS, LETTERS, Sort
from boxwright.puzzles.nonogram_grounds import GROUNDS, drawn
from boxwright.puzzles.nonogram_maker import picture_for
from boxwright.puzzles.nonogram_mending import PAGE_HEIGHT, PAGE_WIDTH, fits
from boxwright.puzzles.nonogram_solver import pictures

SINGLE_DIGITS = [(digit,) for digit in DIGITS]
PAIRS = list(product(DIGITS, repeat=2))
SINGLE_LETTERS = [(letter,) for letter in LETTERS]


def drawn_codes(signs: str, length: int, count: int) -> list[tuple[str, ...]]:
    dice = Dice(f"{signs} {length}")
    return [tuple(dice.pick(signs) for _ in range(length)) for _ in range(count)]


def make(code: str | tuple[str, ...], level: Level = "ordinary", seed: int = 1) -> Made:
    symbols = tuple(code)
    answer = Answer("digits" if symbols[0] in DIGITS else "letters", symbols)
    return nonogram.make(answer, nonogram.Options(), Given(level=level), Dice(seed))


def only(made: Made) -> Solution:
    (solution,) = nonogram.solve(made.sheet, made.knows)
    return solution


def squares_of(made: Made) -> nonogram.Squares:
    assert made.sheet.sheet is not None
    return made.sheet.sheet  # type: ignore[no-any-return]


@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize(
    "codes",
    [
        pytest.param(SINGLE_DIGITS, id="every digit"),
        pytest.param(PAIRS, id="every pair of digits"),
        pytest.param(drawn_codes(DIGITS, 3, 200), id="triples of digits", marks=pytest.mark.long),
        pytest.param(drawn_codes(DIGITS, 3, 20), id="some triples of digits"),
        pytest.param(drawn_codes(DIGITS, 4, 100), id="fours of digits", marks=pytest.mark.long),
        pytest.param(drawn_codes(DIGITS, 4, 10), id="some fours of digits"),
        pytest.param(SINGLE_LETTERS, id="every letter"),
        pytest.param(drawn_codes(LETTERS, 2, 100), id="pairs of letters", marks=pytest.mark.long),
        pytest.param(drawn_codes(LETTERS, 2, 12), id="some pairs of letters"),
        pytest.param(drawn_codes(LETTERS, 3, 100), id="triples of letters", marks=pytest.mark.long),
        pytest.param([*drawn_codes(LETTERS, 3, 8), tuple("MWM"), tuple("QQQ")], id="broad letters"),
    ],
)
def test_each_code_has_one_picture_and_needs_no_guess(
    codes: list[tuple[str, ...]], level: Level
) -> None:
    for code in codes:
        made = make(code, level)
        squares = squares_of(made)
        (found,) = pictures(squares.rows, squares.columns)
        assert found.guesses == 0
        assert only(made).answer.symbols == code


@pytest.mark.parametrize("ground", sorted(GROUNDS))
def test_every_ground_can_be_asked_for(ground: str) -> None:
    answer = Answer("digits", ("4", "2"))
    options = nonogram.Options(ground=ground)  # type: ignore[arg-type]
    made = nonogram.make(answer, options, Given(), Dice(3))
    assert only(made).answer == answer


def test_the_grounds_that_can_be_chosen_are_those_that_are_drawn() -> None:
    choices = get_args(nonogram.Options.model_fields["ground"].annotation)
    assert choices == ("auto", *sorted(GROUNDS))


def test_about_half_of_a_ground_is_dark() -> None:
    for name in GROUNDS:
        shares = []
        for seed in range(40):
            rows = drawn(name, Dice(seed), 16, 12)
            shares.append(sum(row.bit_count() for row in rows) / (16 * 12))
        assert 0.3 < median(shares) < 0.75, name


Shown = tuple[list[int], list[int], int]


def shown(code: tuple[str, ...], level: Level, seed: str) -> Shown:
    """Return a picture's rows, the strokes of its figures, and its width."""
    sort: Sort = "digits" if code[0] in DIGITS else "letters"
    mould, picture = picture_for(code, sort, level, None, Dice(seed))
    dark = mould.tone == "dark"
    pairs = zip(mould.kept, mould.dark, strict=True)
    return picture.rows, [d if dark else k & ~d for k, d in pairs], mould.width


def equal_share(one: Shown, other: Shown) -> float:
    """Return which share of squares is equal in two pictures laid upon each other.

    Aligned at the top left; squares that are stroke of a figure in either do not count.
    """
    whole = (1 << min(one[2], other[2])) - 1
    seen = equal = 0
    for row, row2, stroke, stroke2 in zip(one[0], other[0], one[1], other[1], strict=False):
        counted = whole & ~stroke & ~stroke2
        seen += counted.bit_count()
        equal += (counted & ~(row ^ row2)).bit_count()
    return equal / seen


@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("length", [1, 2, 3, 4])
def test_grounds_of_different_codes_differ(length: int, level: Level) -> None:
    codes = dict.fromkeys(drawn_codes(DIGITS, length, 36))
    shows = [shown(code, level, f"ground {n}") for n, code in enumerate(codes)]
    assert median(equal_share(a, b) for a, b in combinations(shows, 2)) <= 0.6


@pytest.mark.parametrize("level", LEVELS)
def test_grounds_of_one_code_differ_from_throw_to_throw(level: Level) -> None:
    shows = [shown(("4", "2"), level, f"throw {n}") for n in range(36)]
    assert median(equal_share(a, b) for a, b in combinations(shows, 2)) <= 0.6


def test_figures_come_dark_and_light() -> None:
    for level in LEVELS:
        tones = [picture_for(p, "digits", level, None, Dice(f"{p}"))[0].tone for p in PAIRS[::4]]
        assert 0.25 < tones.count("dark") / len(tones) < 0.75


@pytest.mark.parametrize("length", [1, 2, 3, 4])
def test_each_level_costs_more_than_the_one_below(length: int) -> None:
    """Held against codes one by one: all but one in twenty must rise with every level."""
    rising = 0
    for n, code in enumerate(drawn_codes(DIGITS, length, 20)):
        efforts = [nonogram.effort(make(code, level, n).sheet) for level in LEVELS]
        keys = [(effort.steps, effort.marks, effort.depth) for effort in efforts]
        rising += keys == sorted(set(keys))
    assert rising >= 19


@pytest.mark.parametrize("level", LEVELS)
def test_numbers_leave_room_for_squares_in_large_print(level: Level) -> None:
    for code in [*drawn_codes(DIGITS, 4, 6), *drawn_codes(LETTERS, 3, 6), tuple("WWW")]:
        squares = squares_of(make(code, level))
        assert fits(squares.rows, squares.columns)
        assert max(map(len, squares.columns)) <= 7
        assert len(squares.columns) * 6 < PAGE_WIDTH
        assert len(squares.rows) * 6 < PAGE_HEIGHT


def test_four_figures_stand_in_two_rows_once_they_are_large_and_the_sheet_says_so() -> None:
    made = make("1234", "hardest")
    assert squares_of(made).lines == 2
    assert "top row first" in said(nonogram.words(made.sheet, "sheet")["find"])
    assert "left to right" in said(nonogram.words(make("1234", "easier").sheet, "sheet")["find"])


def test_the_sheet_says_how_many_figures_of_which_sort() -> None:
    assert "1 digit," in said(nonogram.words(make("7").sheet, "sheet")["find"])
    assert "3 letters," in said(nonogram.words(make("FOG").sheet, "sheet")["find"])


def test_nought_is_explained_where_it_stands() -> None:
    for seed in range(12):
        made = make("7", "easier", seed)
        squares = squares_of(made)
        has_empty = (0,) in squares.rows + squares.columns
        assert ("0 means" in said(nonogram.words(made.sheet, "sheet")["how"])) is has_empty


def test_the_worked_line_is_for_those_who_may_not_know_such_puzzles() -> None:
    answer = Answer("digits", ("7",))
    young, old = (
        nonogram.make(answer, nonogram.Options(), Given(ages=ages), Dice(1)).sheet.sheet
        for ages in ((9, 10), (13, 14))
    )
    assert young is not None
    assert old is not None
    assert (young.example, old.example) == ((3, 1), ())
    assert "example" not in nonogram.words(nonogram.Sheet(old), "sheet")


def test_the_sheet_holds_no_picture_and_no_answer() -> None:
    fields = set(records.to_json(make("427").sheet)["sheet"])
    assert fields == {"rows", "columns", "sort", "figures", "lines", "example"}


def test_the_working_leads_to_the_picture_step_by_step() -> None:
    made = make("42")
    squares = squares_of(made)
    (found,) = pictures(squares.rows, squares.columns)
    told: dict[tuple[int, int], str] = {}
    for look in found.looks:
        for places, sign in ((look.dark, "#"), (look.light, ".")):
            for place in places:
                at = (look.line, place) if look.way == "rows" else (place, look.line)
                assert at not in told
                told[at] = sign
    rebuilt = [
        "".join(told[y, x] for x in range(len(squares.columns))) for y in range(len(squares.rows))
    ]
    assert tuple(rebuilt) == found.grid
    assert len(only(made).working) == len(found.looks) + 1


def numbers_of(message: Message) -> set[int]:
    found: set[int] = set()
    todo: list[object] = list(message.args.values())
    while todo:
        value = todo.pop()
        if isinstance(value, int):
            found.add(value)
        elif isinstance(value, tuple):
            todo += value
        elif isinstance(value, Message):
            todo += value.args.values()
    return found


def test_the_third_hint_names_squares_that_are_dark() -> None:
    for seed in range(12):
        made = make(("4", "2"), LEVELS[seed % 4], seed)
        solution = only(made)
        hint = nonogram.hints(made.sheet, made.knows, solution)[2]
        line, spans = hint.args["line"], hint.args["squares"]
        assert isinstance(line, Message)
        assert isinstance(spans, tuple)
        squares = squares_of(made)
        grid = next(iter(pictures(squares.rows, squares.columns))).grid
        at = int(str(line.args["number"])) - 1
        text = grid[at] if line.id == "nonogram.row" else "".join(row[at] for row in grid)
        for span in spans:
            assert isinstance(span, Message)
            places = numbers_of(span)
            dark = text[min(places) - 1 : max(places)]
            assert dark == "#" * len(dark)


def mistakes(code: str, level: Level, seed: int = 1) -> dict[str, list[Mistake]]:
    made = make(code, level, seed)
    found: dict[str, list[Mistake]] = {}
    for mistake in nonogram.mistakes(made.sheet, NoKnows(), only(made)):
        name = mistake.means.id.removeprefix("nonogram.mistake-")
        found.setdefault(name, []).append(mistake)
    return found


def test_reading_backwards_is_a_usual_mistake_that_nobody_notices() -> None:
    (mistake,) = mistakes("427", "ordinary")["backwards"]
    assert mistake.answer.symbols == ("7", "2", "4")
    assert not mistake.noticed


def test_two_rows_are_read_in_the_wrong_order() -> None:
    found = mistakes("1234", "hardest")
    assert found["downwards"][0].answer.symbols == ("1", "3", "2", "4")
    assert found["bottom-first"][0].answer.symbols == ("3", "4", "1", "2")


def test_a_picture_on_its_head_turns_six_into_nine() -> None:
    (mistake,) = mistakes("68", "easier")["upside-down"]
    assert mistake.answer.symbols == ("8", "9")
    assert mistake.noticed


def test_a_mirrored_picture_turns_two_into_five() -> None:
    found = mistakes("2", "easier")
    assert {m.answer.symbols for m in found["mirrored"]} == {("5",)}


def test_one_wrong_square_turns_eight_into_a_look_alike_and_the_square_is_named() -> None:
    found = mistakes("8", "easier")["square"]
    assert {m.answer.symbols[0] for m in found} == {"0", "6", "9"}
    made = make("8", "easier")
    for mistake in found:
        row, column = mistake.means.args["row"], mistake.means.args["column"]
        assert 1 <= int(str(row)) <= len(squares_of(made).rows)
        assert 1 <= int(str(column)) <= len(squares_of(made).columns)
        assert f"row {row}, column {column}" in said(mistake.means)


def test_a_picture_without_figures_is_no_answer() -> None:
    blank = nonogram.Sheet(nonogram.Squares(((0,),) * 8, ((0,),) * 8, "digits", 1, 1, ()))
    assert list(nonogram.solve(blank, NoKnows())) == []

"""Rounds on a map: codes that turn, lists that fit one way, the teacher's own places, the page."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxwright.content.tables import Content, Table
from boxwright.dice import Dice
from boxwright.game.model import LEVELS, Level
from boxwright.messages import words
from boxwright.paper.frame import PAPERS, SIZES, Look, PaperName, Size
from boxwright.paper.page import Page, page_for
from boxwright.paper.readback import read_back
from boxwright.paper.render import render
from boxwright.problems import Problem
from boxwright.puzzles import route_map
from boxwright.puzzles.contract import Answer, GaveUp, Given, Made
from boxwright.puzzles.route_map_mistakes import as_the_walker_turns
from boxwright.puzzles.route_map_sheet import Knows, Meaning, Place, Point, RouteMap, Sheet, Stop
from boxwright.puzzles.route_map_solver import move_between, readings
from boxwright.puzzles.shelf import kind

PLACES = [
    ("Fire station", "Red engines wait here"),
    ("School", "A bell rings before lessons"),
    ("Bakery", "It smells of fresh bread"),
    ("Library", "You may take books home"),
    ("Swimming pool", "Bring a towel"),
    ("Town hall", "The mayor works here"),
    ("Post office", "Stamps are sold here"),
    ("Market", "Farmers sell apples and eggs"),
    ("Harbour", "Boats are tied up"),
    ("Museum", "Old things stand behind glass"),
    ("Park", "Ducks swim on a pond"),
    ("Hospital", "Nurses work day and night"),
    ("Bus stop", "A timetable hangs on a pole"),
    ("Theatre", "A curtain goes up"),
    ("Zoo", "Monkeys live here"),
    ("Windmill", "Grain becomes flour"),
    ("Old bridge", "You cross the river on foot"),
]
Rows = list[tuple[str, str]]


def turning(length: int) -> list[tuple[str, ...]]:
    """Every code of a length that turns at each move."""
    pairs = (("up", "down"), ("left", "right"))
    return [
        code
        for first in (0, 1)
        for code in product(*(pairs[(first + at) % 2] for at in range(length)))
    ]


def table(rows: Rows) -> Content:
    cells = tuple({"place": place, "hint": hint} for place, hint in rows)
    lines = tuple(range(2, len(rows) + 2))
    return Content({"places": Table("towns.csv", ("place", "hint"), cells, lines)})


def moves(code: str) -> Answer:
    return Answer("moves", tuple(code.split()))


def refused(code: str, content: Content | None = None, level: Level = "ordinary") -> Problem | None:
    about = Given(level=level, content=content or Content())
    return route_map.refuse(moves(code), route_map.Options(), about)


def made(
    code: str, level: Level = "ordinary", seed: int = 1, content: Content | None = None
) -> Made:
    about = Given(level=level, content=content or Content())
    return route_map.make(moves(code), route_map.Options(), about, Dice(seed))


def map_of(sheet: Sheet) -> RouteMap:
    assert sheet.sheet is not None
    return sheet.sheet


def answers(sheet: Sheet, knows: Knows) -> list[str]:
    return [" ".join(one.answer.symbols) for one in route_map.solve(sheet, knows)]


# --- codes -----------------------------------------------------------------------------


@pytest.mark.parametrize("level", LEVELS)
@given(length=st.integers(2, 8), data=st.data(), seed=st.integers(0, 10**6))
@settings(max_examples=5)
def test_a_code_that_turns_has_a_map_with_one_way(
    level: Level, length: int, data: st.DataObject, seed: int
) -> None:
    code = " ".join(data.draw(st.sampled_from(turning(length))))
    assert refused(code) is None
    sheet, knows = made(code, level, seed)
    assert answers(sheet, knows) == [code]
    (reading,) = readings(map_of(sheet), knows)
    assert len(set(reading.places)) == length


@pytest.mark.long
@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("length", range(2, 9))
def test_every_code_that_turns_has_a_map(level: Level, length: int) -> None:
    for seed, code in enumerate(turning(length)):
        sheet, knows = made(" ".join(code), level, seed)
        assert answers(sheet, knows) == [" ".join(code)]


@pytest.mark.parametrize("code", ["up up", "left up down left", "up right left", "right right up"])
def test_two_moves_in_one_line_are_refused_with_a_code_that_works(code: str) -> None:
    problem = refused(code)
    assert problem is not None
    assert problem.code.startswith("route-map.straight")
    example = str(problem.what.args["example"])
    assert example in words(problem.remedy)
    assert refused(example) is None
    assert len(example.split()) == len(code.split())


# --- the list and the way --------------------------------------------------------------


@pytest.mark.parametrize(
    ("there", "move"),
    [
        ((50, 10), "up"),
        ((60, 11), "up"),
        ((61, 10), None),
        ((90, 60), "right"),
        ((90, 61), None),
        ((50, 90), "down"),
        ((10, 42), "left"),
        ((50, 50), None),
    ],
)
def test_a_way_is_told_up_to_fifteen_degrees(there: tuple[int, int], move: str | None) -> None:
    assert move_between(Point(50.0, 50.0), Point(*map(float, there))) == move


@pytest.mark.parametrize("level", LEVELS)
def test_by_trying_every_row_of_places_there_is_no_other_way(level: Level) -> None:
    """A second solver: all triples of places, held against the list one by one."""
    whole = map_of(made("up left down", level, 4).sheet)
    found = set()
    for row in product(whole.places, repeat=3):
        if all(_true_of(stop, place) for stop, place in zip(whole.stops, row, strict=True)):
            points = [whole.start, *(place.at for place in row)]
            found.add(tuple(map(_compass, points, points[1:])))
    assert found == {("up", "left", "down")}


def _true_of(stop: Stop, place: Place) -> bool:
    if stop.name:
        return (stop.name,) == place.label
    if stop.sort and stop.sort != place.sort:
        return False
    return all(one in place.things for one in stop.has) and not any(
        one in place.things for one in stop.lacks
    )


def _compass(one: Point, two: Point) -> str:
    across, down = two.x - one.x, two.y - one.y
    if abs(across) > abs(down):
        return "right" if across > 0 else "left"
    return "down" if down > 0 else "up"


@pytest.mark.parametrize("level", ["ordinary", "harder", "hardest"])
def test_a_line_of_the_list_has_look_alikes(level: Level) -> None:
    """Else a glance at one thing would do."""
    for seed in range(5):
        whole = map_of(made("up right up left down", level, seed).sheet)
        for stop in whole.stops:
            told: list[str] = [stop.sort] if stop.sort else []
            told += stop.has
            alike = [p for p in whole.places if any(one in (p.sort, *p.things) for one in told)]
            assert len(alike) >= 2 or stop.lacks


def test_a_line_that_fits_all_places_ends_in_giving_up_not_in_waiting() -> None:
    whole = map_of(made("up right up right up right up right", "hardest").sheet)
    vague = replace(whole, stops=(Stop(),) * 8)
    with pytest.raises(GaveUp):
        list(readings(vague, Knows()))


def test_the_walkers_left_is_a_usual_mistake() -> None:
    assert as_the_walker_turns(("down", "left", "up")) == ("down", "right", "right")
    sheet, knows = made("down left up", "easier")
    (solution,) = route_map.solve(sheet, knows)
    found = {one.answer.symbols: one for one in route_map.mistakes(sheet, knows, solution)}
    assert ("down", "right", "right") in found
    assert ("up", "right", "down") in found


def test_the_third_hint_tells_where_a_stop_lies() -> None:
    sheet, knows = made("up left", "harder", 3)
    (solution,) = route_map.solve(sheet, knows)
    text = words(route_map.hints(sheet, knows, solution)[2])
    assert "of the map" in text
    assert text[0] in "12"


# --- the teacher's own places ----------------------------------------------------------


@pytest.mark.parametrize("level", LEVELS)
def test_own_places_are_named_where_it_is_easy_and_hinted_at_where_it_is_hard(level: Level) -> None:
    content = table(PLACES)
    code = "up left down right up left"
    assert refused(code, content, level) is None
    sheet, knows = made(code, level, 2, content)
    assert answers(sheet, knows) == [code]
    names, hints = map(set, zip(*PLACES, strict=True))
    for stop in map_of(sheet).stops:
        assert (stop.hint in hints) if level in ("harder", "hardest") else (stop.name in names)
    assert route_map.basis(sheet) == ("declared" if level in ("harder", "hardest") else "computed")
    assert len(map_of(sheet).places) >= 6 + 8


@pytest.mark.parametrize("end", ["", ".", "!", "?", ".”", "?)"])
def test_a_hint_that_is_a_sentence_is_not_gone_on_with_by_a_colon(end: str) -> None:
    sheet, knows = made(
        "up left", "harder", 1, table([(name, hint + end) for name, hint in PLACES])
    )
    (solution,) = route_map.solve(sheet, knows)
    told = [words(step.says) for step in solution.working]
    told.append(words(route_map.hints(sheet, knows, solution)[2]))
    goes_on = (": it lies ", ": look ") if not end else (f"{end} It lies ", f"{end} Look ")
    assert all(any(one in line for one in goes_on) for line in told)
    assert f"{end}:" not in "".join(told) or not end


def test_a_hint_that_means_two_places_gives_two_ways() -> None:
    sheet, knows = made("up left", "harder", 1, table(PLACES))
    whole = map_of(sheet)
    (reading,) = readings(whole, knows)
    first, second = reading.places
    twin = replace(first, at=Point(second.at.x, whole.start.y), label=("Twin",))
    further = Knows((*knows.hints, Meaning(whole.stops[0].hint, "Twin")))
    corner = replace(first, at=Point(first.at.x, second.at.y))
    moved = [corner if place == first else place for place in whole.places]
    start = replace(whole, start=Point(first.at.x, whole.start.y), places=(*moved, twin))
    assert sorted(answers(Sheet(start), further)) == ["left up", "up left"]


@pytest.mark.parametrize(
    ("rows", "code", "level", "says"),
    [
        (PLACES[:9], "route-map.few-places", "easier", ("9", "10", "towns.csv")),
        ([*PLACES, ("school", "x")], "route-map.place-twice", "easier", ("19", "3")),
        ([*PLACES, ("Farm", "Bring a towel")], "route-map.hint-twice", "harder", ("19", "6")),
        ([("Electromagnetism", ""), *PLACES], "route-map.long-name", "easier", ("line 2", "12")),
        ([(p, "") for p, _ in PLACES], "route-map.few-hints", "hardest", ("0", "2")),
        ([("Farm", "y" * 61), *PLACES], "route-map.long-hint", "easier", ("61", "60", "line 2")),
    ],
)
def test_what_is_wrong_with_a_table_is_told_with_its_line(
    rows: Rows, code: str, level: Level, says: tuple[str, ...]
) -> None:
    problem = refused("up left", table(rows), level)
    assert problem is not None
    assert problem.code == code
    assert problem.where.path == ("content",)
    text = words(problem.what) + words(problem.remedy)
    assert all(one in text for one in says)


def test_a_table_without_a_column_of_places_is_told() -> None:
    content = Content({"places": Table("towns.csv", ("town",), ({"town": "Port"},), (2,))})
    problem = refused("up left", content)
    assert problem is not None
    assert problem.code == "route-map.no-column"


def test_names_that_find_no_room_are_refused_and_fewer_moves_help() -> None:
    rows = [(f"{'MW' * 5}{at:02}", "") for at in range(16)]
    problem = refused("up right up right up right up right", table(rows))
    assert problem is not None
    assert problem.code == "route-map.no-room"
    assert refused("up right", table(rows)) is None


@given(
    st.lists(
        st.text("abdeilmnorstuwABMW ", min_size=3, max_size=22).filter(
            lambda name: all(len(part) <= 12 for part in name.split()) and name.strip()
        ),
        min_size=12,
        max_size=18,
    ),
    st.integers(2, 6),
    st.integers(0, 99),
)
@settings(max_examples=6)
def test_a_table_that_is_not_refused_is_made(names: list[str], length: int, seed: int) -> None:
    content = table([(name, f"hint {at}") for at, name in enumerate(names)])
    code = " ".join(turning(length)[seed % 2**length])
    for level in ("ordinary", "harder"):
        if refused(code, content, level) is None:
            assert answers(*made(code, level, seed, content)) == [code]


# --- the page --------------------------------------------------------------------------


LONG_CODE = "up right up right up right up right"


def page(made: Made) -> Page:
    return page_for(kind("route-map"), made.sheet, "sheet", title="A round", lang="en")


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("paper", PAPERS)
def test_the_longest_code_fits_every_page(paper: PaperName, size: Size) -> None:
    pages = [page(made(LONG_CODE, level, 5)) for level in LEVELS]
    own = [page(made("up left down right", "harder", 5, table(PLACES)))]
    assert render(pages + own, Look(paper, size))


def test_the_largest_print_reads_back() -> None:
    look = Look("us-letter", 18)
    pages = [page(made(LONG_CODE, "easier")), page(made(LONG_CODE, "ordinary", 1, table(PLACES)))]
    assert read_back(render(pages, look), pages, look) == []


def test_the_key_draws_the_way() -> None:
    sheet, knows = made("up left down")
    (solution,) = route_map.solve(sheet, knows)
    drawn = route_map.solved(sheet, knows, solution)
    assert drawn["moves"] == ["up", "left", "down"]
    start = map_of(sheet).start
    assert drawn["way"][0] == [start.x, start.y]  # type: ignore[index]

"""Counting pictures: every code it takes, what it refuses and why, and what may be overlooked."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given as for_all
from hypothesis import settings
from hypothesis import strategies as st
from PIL import Image
from scipy import ndimage

from boxwright.dice import Dice
from boxwright.game.model import LEVELS, Level
from boxwright.game.pictures import read_pictures
from boxwright.messages import words as said
from boxwright.paper.frame import Look
from boxwright.paper.page import page_for
from boxwright.problems import Problem
from boxwright.puzzles import count_sheet
from boxwright.puzzles.contract import Answer, GaveUp, Given, Made, NoKnows
from boxwright.puzzles.count_sheet import Options, Sheet
from boxwright.puzzles.drawn import DRAWN
from boxwright.puzzles.picture_field import MOST_PICTURES, Field, Placed, Sort
from boxwright.puzzles.shelf import kind
from tests.puzzles.printed_field import blots, field_in, page_of

CODES = st.lists(st.sampled_from("123456789"), min_size=1, max_size=4).map(tuple)
OWN = {"oak leaf.png": (300.0, 200.0), "ash.jpg": (90.0, 300.0), "elm.svg": (10.0, 10.0)}


def digits(code: str) -> Answer:
    return Answer("digits", tuple(code))


def make(code: str, level: Level = "ordinary", seed: int = 1, **options: Any) -> Made:
    given = Given(level=level, pictures=OWN)
    assert count_sheet.refuse(digits(code), Options(**options), given) is None
    return count_sheet.make(digits(code), Options(**options), given, Dice(seed))


def field_of(made: Made) -> Field:
    assert isinstance(made.sheet, Sheet)
    assert made.sheet.sheet is not None
    return made.sheet.sheet


def answers(field: Field) -> list[str]:
    found = count_sheet.solve(Sheet(field), NoKnows())
    return sorted("".join(solution.answer.symbols) for solution in found)


def refused(code: str, given: Given | None = None, **options: Any) -> Problem:
    problem = count_sheet.refuse(digits(code), Options(**options), given or Given(pictures=OWN))
    assert problem is not None
    return problem


def three(*placed: Placed) -> Field:
    """Return a field in which flowers with three petals are asked for, 16 mm each."""
    sorts = tuple(Sort(name, 16.0, 16.0) for name in ("flower-three", "flower-four", "balloon-box"))
    return Field(170.0, 136.0, ("flower-three",), sorts, placed)


def flower(x: float, y: float = 20.0, name: str = "flower-three", turn: int = 0) -> Placed:
    return Placed(name, x, y, turn)


# --- what is made -----------------------------------------------------------------------


@settings(max_examples=60)
@for_all(CODES, st.sampled_from(LEVELS), st.integers(0, 10**6), st.booleans())
def test_a_plain_count_of_each_asked_picture_is_the_code(
    code: tuple[str, ...], level: Level, seed: int, own: bool
) -> None:
    options = Options(own=tuple(OWN)) if own else Options()
    given = Given(level=level, pictures=OWN)
    if count_sheet.refuse(Answer("digits", code), options, given):
        assert len(code) > len(OWN)
        return
    made = count_sheet.make(Answer("digits", code), options, given, Dice(seed))
    field = field_of(made)
    counted = Counter(it.picture for it in field.placed)
    assert tuple(str(counted[name]) for name in field.asked) == code
    assert [solution.answer.symbols for solution in count_sheet.solve(*made)] == [code]


@settings(max_examples=40)
@for_all(CODES, st.sampled_from(LEVELS), st.integers(0, 10**6))
def test_no_two_pictures_come_nearer_than_two_millimetres(
    code: tuple[str, ...], level: Level, seed: int
) -> None:
    field = field_of(
        count_sheet.make(Answer("digits", code), Options(), Given(level=level), Dice(seed))
    )
    size = {sort.name: sort for sort in field.sorts}
    for one, other in combinations(field.placed, 2):
        wide = (size[one.picture].width + size[other.picture].width) / 2
        high = (size[one.picture].height + size[other.picture].height) / 2
        across, down = abs(one.x - other.x) - wide, abs(one.y - other.y) - high
        assert max(across, down) >= 2.0
    for it in field.placed:
        half = size[it.picture].width / 2
        assert half < it.x < field.width - half
        assert half < it.y < field.height - half


@pytest.mark.parametrize("level", LEVELS)
def test_there_are_always_others_among_those_asked_for(level: Level) -> None:
    for seed, code in enumerate(("1", "9", "19", "427", "9999")):
        field = field_of(make(code, level, seed))
        assert {it.picture for it in field.placed} > set(field.asked)
        assert len(set(field.asked)) == len(code)
        assert len(field.placed) <= MOST_PICTURES


def test_the_harder_the_more_alike() -> None:
    families = {
        level: {DRAWN[sort.name].family for sort in field_of(make("4273", level)).sorts}
        for level in LEVELS
    }
    assert [len(families[level]) for level in LEVELS] == [3, 2, 1, 1]
    easier, hardest = (field_of(make("4273", level)) for level in ("easier", "hardest"))
    assert len(hardest.placed) > len(easier.placed)


def test_pictures_are_turned_only_as_far_as_they_stay_themselves() -> None:
    turns: dict[str, set[int]] = {}
    for seed in range(12):
        for it in field_of(make("999", "easier", seed)).placed:
            turns.setdefault(DRAWN[it.picture].family, set()).add(it.turn)
    assert max(map(abs, turns["balloons"])) <= 8
    assert max(turns["flowers"]) > 180
    assert max(turns["beetles"]) > 180


def test_as_many_pictures_lie_there_as_the_teacher_asks_for() -> None:
    assert len(field_of(make("427", pictures=30)).placed) == 30
    assert len(field_of(make("427", "hardest", pictures=14)).placed) == 14


def test_only_the_family_that_the_teacher_asks_for() -> None:
    field = field_of(make("427", "easier", family="beetles"))
    assert {DRAWN[sort.name].family for sort in field.sorts} == {"beetles"}


def test_the_teachers_own_pictures_keep_their_shape_and_stand_upright() -> None:
    made = make("42", own=tuple(OWN))
    field = field_of(made)
    assert {sort.name for sort in field.sorts} == set(OWN)
    for sort in field.sorts:
        width, height = OWN[sort.name]
        assert sort.width / sort.height == pytest.approx(width / height, rel=0.01)
    assert {it.turn for it in field.placed} == {0}
    assert set(count_sheet.pictures(made.sheet, "sheet")) == set(OWN)
    assert count_sheet.pictures(make("42").sheet, "sheet") == ()


def test_where_all_own_pictures_are_asked_for_nothing_else_lies_there() -> None:
    field = field_of(make("423", "hardest", own=tuple(OWN)))
    assert len(field.placed) == 9


# --- what is refused, and what helps ----------------------------------------------------


def test_a_nought_is_refused_and_other_kinds_are_named() -> None:
    problem = refused("407")
    assert problem.code == "drawn.nought"
    assert "nonogram" in said(problem.remedy)
    assert "count-sheet" not in said(problem.remedy)


def test_a_code_that_is_too_long_is_refused_as_such_even_with_a_nought() -> None:
    assert refused("40701").code.startswith("kind.")
    assert refused("42734").code.startswith("kind.")


@pytest.mark.parametrize(
    ("code", "options", "problem", "path"),
    [
        ("427", {"pictures": 13}, "drawn.pictures-few", ("options", "pictures")),
        ("42", {"own": ("elm.svg", "Elm.svg")}, "drawn.own-unknown", ("options", "own", 1)),
        ("42", {"own": ("elm.svg", "elm.svg")}, "drawn.own-twice", ("options", "own")),
        ("4", {"own": ("elm.svg",)}, "drawn.own-few", ("options", "own")),
        ("4273", {"own": tuple(OWN)}, "drawn.own-few", ("options", "own")),
        (
            "42",
            {"own": tuple(OWN), "family": "beetles"},
            "drawn.own-and-family",
            ("options", "family"),
        ),
        ("427", {"own": tuple(OWN), "pictures": 20}, "count-sheet.no-others", ("options", "own")),
    ],
)
def test_a_wish_that_cannot_be_had_is_refused_at_its_place(
    code: str, options: dict[str, Any], problem: str, path: tuple[str | int, ...]
) -> None:
    found = refused(code, **options)
    assert found.code == problem
    assert found.where.path == path


def test_following_a_remedy_helps() -> None:
    least = refused("427", pictures=13).remedy.args["least"]
    assert isinstance(least, int)
    assert make("427", pictures=least)
    more = refused("427", own=tuple(OWN), pictures=20).remedy.args["least"]
    assert more == 4
    assert make("427", own=tuple(OWN))
    assert "elm.svg" in said(refused("42", own=("elm.svg", "Elm.svg")).remedy)


def test_a_picture_much_longer_than_broad_is_refused() -> None:
    given = Given(pictures={"rope.png": (900.0, 100.0), "elm.svg": (1.0, 1.0)})
    problem = refused("42", given, own=("rope.png", "elm.svg"))
    assert problem.code == "drawn.own-long"
    assert problem.where.path == ("options", "own", 0)


def test_without_any_pictures_the_folder_is_named() -> None:
    assert refused("42", Given(), own=("a.png", "b.png")).code == "drawn.own-none"


# --- what pupils may see ----------------------------------------------------------------


def test_pictures_apart_are_counted_one_by_one() -> None:
    assert answers(three(flower(20), flower(60), flower(100, name="flower-four"))) == ["2"]


def test_two_of_a_sort_that_touch_may_be_taken_for_one() -> None:
    assert answers(three(flower(20), flower(60), flower(77.9))) == ["2", "3"]
    assert answers(three(flower(20), flower(60), flower(78))) == ["3"]


def test_three_in_a_blot_may_be_one_or_two_or_three() -> None:
    assert answers(three(flower(20), flower(36), flower(52))) == ["1", "2", "3"]


def test_a_picture_under_another_sort_may_be_overlooked() -> None:
    covered = three(flower(20), flower(60), flower(66, name="flower-four"))
    assert answers(covered) == ["1", "2"]


def test_a_picture_cut_by_the_frame_may_be_overlooked() -> None:
    assert answers(three(flower(20), flower(7))) == ["1", "2"]
    assert answers(three(flower(20), flower(60, 130))) == ["1", "2"]


def test_a_balloon_on_its_side_is_not_sure_to_be_seen_as_one() -> None:
    field = replace(three(flower(20, name="balloon-box")), asked=("balloon-box",))
    assert answers(field) == ["1"]
    lying = Placed("balloon-box", 60.0, 20.0, 90)
    assert answers(replace(field, placed=(*field.placed, lying))) == ["1", "2"]
    tilted = Placed("balloon-box", 60.0, 20.0, 352)
    assert answers(replace(field, placed=(*field.placed, tilted))) == ["2"]


def test_none_and_ten_open_no_wheel() -> None:
    assert answers(three(flower(20, name="flower-four"))) == []
    ten = [flower(10 + 18 * (at % 5), 20 + 40 * (at // 5)) for at in range(10)]
    assert answers(three(*ten)) == []
    assert answers(three(*ten[:9])) == ["9"]


def test_a_picture_asked_for_twice_has_one_count() -> None:
    field = replace(three(flower(20), flower(36)), asked=("flower-three", "flower-three"))
    assert answers(field) == ["11", "22"]


def test_too_many_ways_to_count_are_given_up() -> None:
    names = tuple(list(DRAWN)[:6])
    sorts = tuple(Sort(name, 12.0, 12.0) for name in names)
    blots = [
        Placed(name, 10.0 + 12 * at, 10.0 + 20 * row, 0)
        for row, name in enumerate(names)
        for at in range(9)
    ]
    with pytest.raises(GaveUp):
        list(count_sheet.solve(Sheet(Field(170.0, 136.0, names, sorts, tuple(blots))), NoKnows()))


# --- hints and mistakes -----------------------------------------------------------------


@settings(max_examples=40)
@for_all(CODES, st.sampled_from(LEVELS), st.integers(0, 10**6))
def test_the_third_hint_is_true_of_the_sheet(
    code: tuple[str, ...], level: Level, seed: int
) -> None:
    made = count_sheet.make(Answer("digits", code), Options(), Given(level=level), Dice(seed))
    field = field_of(made)
    (solution,) = count_sheet.solve(*made)
    hint = count_sheet.hints(made.sheet, made.knows, solution)[2]
    place: Any = hint.args["place"]
    part = place.id.removeprefix("drawn.place-")
    picture: Any = hint.args["picture"]
    those = [it for it in field.placed if f"drawn.{it.picture}" == picture.id]
    inside = {
        "left": [it for it in those if it.x < field.width / 2],
        "right": [it for it in those if it.x > field.width / 2],
        "top": [it for it in those if it.y < field.height / 2],
        "bottom": [it for it in those if it.y > field.height / 2],
    }
    if part in inside:
        assert hint.args["n"] == len(inside[part])
    else:
        assert part.startswith("highest-")
        highest = min(those, key=lambda it: it.y)
        third = ("left", "middle", "right")[int(3 * highest.x / field.width)]
        assert (hint.args["n"], part) == (1, f"highest-{third}")


def test_mistakes_tell_of_look_alikes_and_of_one_too_few() -> None:
    made = make("35", "harder")
    (solution,) = count_sheet.solve(*made)
    found = {
        "".join(mistake.answer.symbols): mistake.means.id
        for mistake in count_sheet.mistakes(*made, solution)
    }
    assert found["53"] == "count-sheet.mistake-backwards"
    assert found["46"] == "count-sheet.mistake-samples"
    assert {"count-sheet.missed", "count-sheet.twice"} <= set(found.values())
    assert {"count-sheet.both", "count-sheet.instead"} & set(found.values())


def test_the_key_fills_every_box_and_points_at_every_counted_picture() -> None:
    made = make("427")
    (solution,) = count_sheet.solve(*made)
    key = count_sheet.solved(*made, solution)
    assert key["counts"] == ["4", "2", "7"]
    assert [key["boxes"].count(number) for number in (1, 2, 3)] == [4, 2, 7]


# --- the teacher's own pictures, printed ------------------------------------------------


def picture_files(folder: Path) -> dict[str, bytes]:
    """Return a wide drawing, a square one, and a photo that was taken with the camera upright."""
    square = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path d="M1 1h7v7h-7z"/></svg>'
    )
    wide = square.replace("0 0 9 9", "0 0 20 9").replace("h7v7h-7z", "h18v7h-18z")
    photo = Image.new("L", (300, 200), 90)
    exif = photo.getexif()
    exif[0x0112] = 6
    photo.save(folder / "Upright photo 1.JPG", exif=exif)
    return {
        "wide.svg": wide.encode(),
        "Square one.svg": square.encode(),
        "Upright photo 1.JPG": (folder / "Upright photo 1.JPG").read_bytes(),
    }


def test_own_pictures_of_any_name_and_shape_are_printed_as_they_are(tmp_path: Path) -> None:
    files = picture_files(tmp_path)
    for name, content in files.items():
        (tmp_path / "pictures").mkdir(exist_ok=True)
        (tmp_path / "pictures" / name).write_bytes(content)
    found, problems = read_pictures(tmp_path)
    assert not problems
    given = Given(pictures={name: one.size() for name, one in found.items()})
    made = count_sheet.make(digits("43"), Options(own=tuple(files)), given, Dice(1))
    field = field_of(made)
    photo = next(sort for sort in field.sorts if sort.name.startswith("Upright"))
    assert photo.height == pytest.approx(1.5 * photo.width, rel=0.01)
    page = page_for(kind("count-sheet"), made.sheet, "sheet", title="Own pictures", lang="en")
    (grey,) = page_of([replace(page, files={f"pictures/{n}": c for n, c in files.items()})], Look())
    pieces, count = blots(field_in(grey).grey)
    assert count == len(field.placed)
    sides = [
        (s[1].stop - s[1].start) / (s[0].stop - s[0].start) for s in ndimage.find_objects(pieces)
    ]
    amounts = Counter(it.picture for it in field.placed)
    for name, ratio in {
        "wide.svg": 18 / 7,
        "Square one.svg": 1,
        "Upright photo 1.JPG": 2 / 3,
    }.items():
        assert sum(abs(side - ratio) < 0.06 for side in sides) == amounts[name]

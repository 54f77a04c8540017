"""Unseen ink: the dots alone make the code, on a sheet of its own or on another clue's."""

from __future__ import annotations

from collections import Counter
from dataclasses import astuple, replace
from math import hypot
from typing import Any

import pytest
from hypothesis import given as for_all
from hypothesis import settings
from hypothesis import strategies as st

from boxwright.dice import Dice
from boxwright.game.model import LEVELS, Level
from boxwright.messages import words as said
from boxwright.paper.fits import object_boxes
from boxwright.paper.frame import PAPERS, SIZES, Box, Look
from boxwright.paper.opened import opened
from boxwright.paper.page import page_for
from boxwright.paper.readback import read_back
from boxwright.paper.render import render
from boxwright.puzzles import count_sheet, unseen_ink
from boxwright.puzzles.contract import Answer, GaveUp, Given, Made, NoKnows
from boxwright.puzzles.picture_field import Field, Placed, Sort
from boxwright.puzzles.shelf import kind
from boxwright.puzzles.unseen_ink import Options
from boxwright.puzzles.unseen_ink_parts import LEAD, Card, Dot, Guide, Ink, Sheet

CODES = st.lists(st.sampled_from("123456789"), min_size=1, max_size=4).map(tuple)


def digits(code: str | tuple[str, ...]) -> Answer:
    return Answer("digits", tuple(code))


def make(code: str, level: Level = "ordinary", host: Any = None, seed: int = 1) -> Made:
    given = Given(level=level, host=host)
    assert unseen_ink.refuse(digits(code), Options(), given) is None
    return unseen_ink.make(digits(code), Options(), given, Dice(seed))


def host_for(code: str, seed: int = 1, level: Level = "ordinary") -> count_sheet.Sheet:
    made = count_sheet.make(digits(code), count_sheet.Options(), Given(level=level), Dice(seed))
    assert isinstance(made.sheet, count_sheet.Sheet)
    return made.sheet


def answers(sheet: Sheet) -> list[str]:
    found = unseen_ink.solve(sheet, NoKnows())
    return sorted("".join(solution.answer.symbols) for solution in found)


def plain_count(field: Field, asked: tuple[str, ...], dots: tuple[Dot, ...]) -> str:
    """Count once more, in the plainest way: each dot goes to the nearest box."""
    size = {sort.name: sort for sort in field.sorts}

    def far(dot: Dot, it: Placed) -> float:
        across = max(0.0, abs(dot.x + dot.right - it.x) - size[it.picture].width / 2)
        return hypot(across, max(0.0, abs(dot.y + dot.down - it.y) - size[it.picture].height / 2))

    owners = {
        min(range(len(field.placed)), key=lambda at: far(dot, field.placed[at])) for dot in dots
    }
    amounts = Counter(field.placed[at].picture for at in owners)
    return "".join(str(amounts[name]) for name in asked)


# --- on a sheet of its own --------------------------------------------------------------


@settings(max_examples=60)
@for_all(CODES, st.sampled_from(LEVELS), st.integers(0, 10**6))
def test_the_dots_give_the_code_and_a_plainer_count_agrees(
    code: tuple[str, ...], level: Level, seed: int
) -> None:
    made = make("".join(code), level, seed=seed)
    sheet = made.sheet
    assert answers(sheet) == ["".join(code)]
    assert plain_count(sheet.sheet, sheet.sheet.asked, sheet.ink.dots) == "".join(code)


@settings(max_examples=30)
@for_all(CODES, st.sampled_from(LEVELS), st.integers(0, 10**6))
def test_some_of_each_asked_picture_have_no_dot(
    code: tuple[str, ...], level: Level, seed: int
) -> None:
    field = make("".join(code), level, seed=seed).sheet.sheet
    amounts = Counter(it.picture for it in field.placed)
    assert all(amounts[name] > int(symbol) for name, symbol in zip(field.asked, code, strict=True))


@pytest.mark.parametrize("code", ["1", "9", "11", "427", "9999"])
def test_without_the_ink_there_are_many_codes(code: str) -> None:
    sheet = make(code).sheet
    found = answers(replace(sheet, ink=None))
    assert code in found
    assert len(found) > 1
    assert len(answers(replace(sheet, ink=None, guide=None))) == len(found)


def test_dots_under_other_pictures_lead_astray_but_not_the_solver() -> None:
    sheet = make("427", "hardest").sheet
    assert len(sheet.ink.dots) > 4 + 2 + 7


@settings(max_examples=40)
@for_all(CODES, st.integers(0, 10**6), st.floats(-0.9, 0.9), st.floats(-0.9, 0.9))
def test_a_hand_that_traces_nearly_a_millimetre_off_changes_nothing(
    code: tuple[str, ...], seed: int, right: float, down: float
) -> None:
    sheet = make("".join(code), seed=seed).sheet
    off = tuple(
        replace(dot, right=dot.right + right, down=dot.down + down) for dot in sheet.ink.dots
    )
    assert plain_count(sheet.sheet, sheet.sheet.asked, off) == "".join(code)


def test_the_guide_shows_the_pupils_field_and_the_same_dots() -> None:
    sheet = make("427").sheet
    assert sheet.guide.field == sheet.sheet
    assert sheet.guide.dots == sheet.ink.dots


def test_a_guide_that_would_have_the_teacher_trace_something_else_gives_no_answer() -> None:
    sheet = make("427").sheet
    fewer = replace(sheet.guide, dots=sheet.guide.dots[1:])
    turned = replace(sheet.sheet.placed[0], turn=sheet.sheet.placed[0].turn + 1)
    other = replace(sheet.sheet, placed=(turned, *sheet.sheet.placed[1:]))
    assert answers(replace(sheet, guide=fewer)) == []
    assert answers(replace(sheet, guide=replace(sheet.guide, field=other))) == []
    assert answers(replace(sheet, ink=replace(sheet.ink, width=171.0))) == []


# --- what a dot may belong to -----------------------------------------------------------


def two(*dots: Dot, apart: float = 24.0) -> Sheet:
    """Return a sheet with a beetle at 40, 40 and one below it; the upper sort is asked for."""
    sorts = (Sort("beetle-bar", 16.0, 16.0), Sort("beetle-spot", 16.0, 16.0))
    upper = Placed("beetle-bar", 40.0, 40.0, 0)
    placed = (upper, replace(upper, x=90.0), Placed("beetle-spot", 40.0, 40.0 + apart, 0))
    field = Field(170.0, 136.0, ("beetle-bar",), sorts, placed)
    always = Dot(90.0, 40.0, 0.0, 9.6)
    ink = Ink(170.0, 136.0, (always, *dots))
    return Sheet(field, ink, Guide(field, ink.dots))


def test_a_dot_right_under_a_picture_is_that_pictures() -> None:
    assert answers(two(Dot(40.0, 40.0, 0.0, 9.6))) == ["2"]
    assert answers(two(Dot(40.0, 64.0, 0.0, 9.6))) == ["1"]


def test_a_dot_halfway_between_two_may_be_eithers() -> None:
    assert answers(two(Dot(40.0, 40.0, 0.0, 12.0))) == ["1", "2"]


def test_a_dot_is_sure_from_a_lead_of_two_millimetres_on() -> None:
    between = 24.0 - 16.0
    near = (between - LEAD) / 2
    assert answers(two(Dot(40.0, 40.0, 0.0, 8 + near))) == ["2"]
    assert answers(two(Dot(40.0, 40.0, 0.0, 8 + near + 0.1))) == ["1", "2"]


def test_a_dot_under_black_print_or_far_from_all_may_go_unseen() -> None:
    assert answers(two(Dot(40.0, 40.0, 3.0, 3.0))) == ["1", "2"]
    assert answers(two(Dot(40.0, 40.0, 0.0, -14.0))) == ["1", "2"]


def test_two_dots_at_one_picture_mark_it_once() -> None:
    assert answers(two(Dot(40.0, 40.0, 0.0, 9.6), Dot(40.0, 40.0, 9.6, 0.0))) == ["2"]


def test_a_dot_that_moves_with_one_picture_but_lies_at_another_may_be_eithers() -> None:
    """Where the page has room, places are drawn farther apart, and this dot with them."""
    assert answers(two(Dot(40.0, 64.0, 0.0, -14.4))) == ["1", "2"]


def test_too_many_unsure_dots_are_given_up() -> None:
    unsure = [Dot(40.0, 40.0, at / 10, 12.0) for at in range(20)]
    with pytest.raises(GaveUp):
        answers(two(*unsure))


# --- on another clue's sheet ------------------------------------------------------------


@settings(max_examples=50)
@for_all(CODES, CODES, st.sampled_from(LEVELS), st.integers(0, 10**6))
def test_a_sheet_that_is_there_takes_every_code_that_is_not_refused(
    own: tuple[str, ...], hosts: tuple[str, ...], level: Level, seed: int
) -> None:
    host = host_for("".join(hosts), seed, level)
    given = Given(level=level, host=host)
    problem = unseen_ink.refuse(digits(own), Options(), given)
    if problem is not None:
        assert problem.code in ("unseen-ink.host-few", "unseen-ink.host-full")
        return
    sheet = unseen_ink.make(digits(own), Options(), given, Dice(seed)).sheet
    assert sheet.guide.field == host.sheet
    assert answers(sheet) == ["".join(own)]
    assert plain_count(host.sheet, sheet.sheet.asked, sheet.ink.dots) == "".join(own)  # type: ignore[arg-type]


def test_pupils_get_a_card_and_the_other_sheet_stays_as_it_is() -> None:
    host = host_for("869")
    sheet = make("42", host=host).sheet
    assert isinstance(sheet.sheet, Card)
    assert {sort.name for sort in sheet.sheet.sorts} == set(sheet.sheet.asked)
    assert "another sheet" in said(unseen_ink.words(sheet, "sheet")["how"])
    assert "another clue" in said(unseen_ink.words(sheet, "guide")["lay"])
    host_answers = [s.answer.symbols for s in count_sheet.solve(host, NoKnows())]
    assert host_answers == [("8", "6", "9")]


def test_counting_all_of_the_other_sheet_never_gives_the_code() -> None:
    for seed in range(20):
        host = host_for("869", seed, "hardest")
        sheet = make("431", "hardest", host, seed).sheet
        assert host.sheet is not None
        amounts = Counter(it.picture for it in host.sheet.placed)
        for name, symbol in zip(sheet.sheet.asked, "431", strict=True):
            assert amounts[name] > int(symbol)


def test_without_ink_or_guide_the_card_opens_nothing() -> None:
    sheet = make("42", host=host_for("869")).sheet
    assert len(answers(replace(sheet, ink=None))) > 1
    assert answers(replace(sheet, guide=None)) == []


def test_a_sheet_of_another_kind_takes_no_dots() -> None:
    nonogram = kind("nonogram").make(digits("4"), kind("nonogram").Options(), Given(), Dice(1))
    problem = unseen_ink.refuse(digits("42"), Options(), Given(host=nonogram.sheet))
    assert problem is not None
    assert problem.code == "unseen-ink.host-kind"
    assert "count-sheet" in said(problem.remedy)
    assert problem.where.path == ("on",)


def test_a_code_too_large_for_the_other_sheet_is_told_how_much_there_is() -> None:
    problem = unseen_ink.refuse(digits("99"), Options(), Given(host=host_for("11", level="easier")))
    assert problem is not None
    assert problem.code == "unseen-ink.host-few"
    most: Any = problem.what.args["most"]
    assert (
        unseen_ink.refuse(digits(most), Options(), Given(host=host_for("11", level="easier")))
        is None
    )


def test_options_of_a_sheet_of_its_own_are_refused_on_anothers() -> None:
    problem = unseen_ink.refuse(digits("42"), Options(pictures=24), Given(host=host_for("869")))
    assert problem is not None
    assert (problem.code, problem.where.path) == (
        "unseen-ink.host-options",
        ("options", "pictures"),
    )


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("size", SIZES)
def test_card_and_guide_fit_every_page(paper: Any, size: Any) -> None:
    look = Look(paper, size)
    host = host_for("8697", level="hardest")
    for code in ("1", "1432"):
        sheet = make(code, "hardest", host).sheet
        pages = [
            page_for(
                kind("unseen-ink"), sheet, part, title="A title as long as one line", lang="en"
            )
            for part in ("sheet", "guide")
        ]
        assert read_back(render(pages, look), pages, look) == []


def frame_of(pdf: bytes, at: int) -> Box:
    """Return the frame of a page's field, read off the PDF: its largest object."""
    with opened(pdf) as document:
        return max(object_boxes(document[at]), key=lambda box: box.width * box.height)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("title", ["Ink", "A title that is so long that it takes two lines"])
@pytest.mark.parametrize("hosted", [False, True])
def test_edge_on_edge_the_frames_of_guide_and_sheet_coincide(
    paper: Any, size: Any, title: str, hosted: bool
) -> None:
    host = host_for("8697", level="hardest") if hosted else None
    sheet = make("1432", "hardest", host).sheet
    under = ("count-sheet", host) if hosted else ("unseen-ink", sheet)
    pages = [
        page_for(kind(name), made, part, title=title, lang="en")
        for name, made, part in ((*under, "sheet"), ("unseen-ink", sheet, "guide"))
    ]
    pdf = render(pages, Look(paper, size))
    upper, lower = frame_of(pdf, 0), frame_of(pdf, 1)
    assert upper.width > 100
    for one, other in zip(astuple(upper), astuple(lower), strict=True):
        assert one == pytest.approx(other, abs=0.01)


# --- what is refused, said, and guessed -------------------------------------------------


def test_a_nought_is_refused_and_a_number_of_pictures_that_is_too_small() -> None:
    nought = unseen_ink.refuse(digits("40"), Options(), Given())
    assert nought is not None
    assert nought.code == "drawn.nought"
    few = unseen_ink.refuse(digits("427"), Options(pictures=16), Given())
    assert few is not None
    assert few.code == "drawn.pictures-few"
    least = few.remedy.args["least"]
    assert least == 4 + 2 + 7 + 3 + 1
    made = unseen_ink.make(digits("427"), Options(pictures=17), Given(), Dice(1))
    assert answers(made.sheet) == ["427"]


def test_the_guide_warns_of_the_torch_and_leaves_the_last_word_to_the_school() -> None:
    text = said(unseen_ink.words(make("427").sheet, "guide")["care"])
    assert "eyes" in text
    assert "school" in text
    assert "eyes" in said(unseen_ink.words(make("427").sheet, "sheet")["how"])


def test_counting_without_the_torch_is_a_usual_mistake() -> None:
    made = make("23", "easier")
    (solution,) = unseen_ink.solve(*made)
    field = made.sheet.sheet
    amounts = Counter(it.picture for it in field.placed)
    found = {m.answer.symbols: m.means.id for m in unseen_ink.mistakes(*made, solution)}
    assert found[tuple(str(amounts[name]) for name in field.asked)] == "unseen-ink.mistake-all"
    assert ("3", "2") in found


def test_the_key_points_at_every_picture_that_counts() -> None:
    made = make("427")
    (solution,) = unseen_ink.solve(*made)
    key = unseen_ink.solved(*made, solution)
    assert key["counts"] == ["4", "2", "7"]
    assert [key["boxes"].count(number) for number in (1, 2, 3)] == [4, 2, 7]

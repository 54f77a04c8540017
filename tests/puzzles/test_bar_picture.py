"""Bars in a picture: a reader finds one code on every page, at any size, askew and in grey."""

from __future__ import annotations

import random
from dataclasses import replace
from itertools import groupby
from typing import Any, get_args

import numpy as np
import pypdfium2
import pytest
import zxingcpp
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from boxwright.dice import Dice
from boxwright.game.model import LEVELS, Level
from boxwright.messages import words
from boxwright.paper.frame import PAPERS, SIZES, Look, PaperName, Size
from boxwright.paper.page import Page, page_for
from boxwright.paper.readback import read_back
from boxwright.paper.render import render
from boxwright.puzzles import bar_picture
from boxwright.puzzles.bar_picture_maker import LEAST_MODULE, LONGEST, QUIET, Code, encoded
from boxwright.puzzles.bar_picture_mistakes import miscopies
from boxwright.puzzles.bar_picture_reader import says_nothing
from boxwright.puzzles.bar_picture_solver import said
from boxwright.puzzles.bar_picture_tables import CAPITALS, DIGITS, Picture, Scene, Strip
from boxwright.puzzles.contract import Alphabet, Answer, Given, Made, NoKnows
from boxwright.puzzles.shelf import kind
from boxwright.text import POINTS_PER_INCH

SCENES: tuple[Scene, ...] = get_args(Scene)
MOST_ASKEW = 3  # degrees


def made(
    text: str,
    level: Level = "ordinary",
    seed: int = 1,
    alphabet: Alphabet = "letters",
    **options: Any,
) -> Made:
    chosen = bar_picture.Options(**options)
    return bar_picture.make(Answer(alphabet, tuple(text)), chosen, Given(level=level), Dice(seed))


def picture_of(made: Made) -> Picture:
    assert made.sheet.sheet is not None
    return made.sheet.sheet  # type: ignore[no-any-return]


def page(made: Made) -> Page:
    return page_for(kind("bar-picture"), made.sheet, "sheet", title="A drawing", lang="en")


def raster(made: Made, look: Look, ppi: int) -> Image.Image:
    document = pypdfium2.PdfDocument(render([page(made)], look))
    image: Image.Image = document[0].render(scale=ppi / POINTS_PER_INCH, grayscale=True).to_pil()
    return image


def read(image: Image.Image) -> list[str]:
    """All that a reader finds, in every bar code that it knows."""
    return [found.text for found in zxingcpp.read_barcodes(image)]


# --- what is made ----------------------------------------------------------------------


@pytest.mark.parametrize("level", LEVELS)
@given(text=st.text(CAPITALS + DIGITS, min_size=2, max_size=12), seed=st.integers(0, 10**6))
@settings(max_examples=15)
def test_one_strip_says_the_answer_and_no_reader_finds_anything_in_the_others(
    level: Level, text: str, seed: int
) -> None:
    whole = picture_of(made(text, level, seed, "text"))
    strips = [strip for band in whole.bands for strip in band.strips]
    assert [text for strip in strips for text in said(strip.runs)] == [text]
    assert sum(not says_nothing(strip.runs) for strip in strips) == 1


def tall(strip: Strip, pixels: int = 10) -> Image.Image:
    """The strip alone, as high as it is wide, white all around it."""
    width = round(sum(strip.runs) * pixels)
    image = Image.new("L", (width + 200, width + 200), 255)
    x = 0.0
    for at, run in enumerate(strip.runs):
        if at % 2 == 0:
            image.paste(0, (100 + round(x * pixels), 100, 100 + round((x + run) * pixels), width))
        x += run
    return image


@pytest.mark.parametrize("level", LEVELS)
def test_the_quick_look_agrees_with_a_search_for_all_codes_in_all_directions(level: Level) -> None:
    strips = [
        strip
        for seed in range(6)
        for band in picture_of(made("FROST", level, seed)).bands
        for strip in band.strips
    ]
    assert [says_nothing(one.runs) for one in strips] == [not read(tall(one)) for one in strips]


@pytest.mark.parametrize(
    ("code", "text"),
    [
        ("EAN13", "2001234567893"),
        ("UPCE", "01234565"),
        ("ITF", "427311"),
        ("Codabar", "A42731B"),
        ("Code93", "FROST"),
        ("DataBarOmni", "00012345678905"),
    ],
)
def test_bars_that_say_something_in_any_other_bar_code_are_seen(code: str, text: str) -> None:
    drawn = zxingcpp.create_barcode(text, zxingcpp.barcode_format_from_str(code))
    image = Image.fromarray(np.array(drawn.to_image(scale=1, add_quiet_zones=False)))
    row = [image.getpixel((x, image.height // 2)) for x in range(image.width)]
    from_bar = row[row.index(0) :]  # some codes begin with white
    assert not says_nothing([0.6 * len(list(run)) for _, run in groupby(from_bar)])


@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("code", get_args(Code))
def test_bars_are_wide_enough_and_white_stands_on_either_side(code: Code, level: Level) -> None:
    for seed in range(12):
        text = ("FROST" * 3)[: LONGEST[code] - seed % 3]
        whole = picture_of(made(text, level, seed, code=code))
        for band in whole.bands:
            for at, strip in enumerate(band.strips):
                if list(said(strip.runs)) == [text]:
                    narrow = min(strip.runs)
                    assert narrow >= LEAST_MODULE
                    left, right = _room(whole, band.strips, at)
                    assert min(left, right) >= QUIET * narrow


def _room(whole: Picture, strips: tuple[Strip, ...], at: int) -> tuple[float, float]:
    """The white on the left and on the right of a strip."""
    strip = strips[at]
    before = strips[at - 1].x + sum(strips[at - 1].runs) if at else 0.0
    after = strips[at + 1].x if at + 1 < len(strips) else whole.width
    return strip.x - before, after - strip.x - sum(strip.runs)


@pytest.mark.parametrize("level", LEVELS)
def test_nothing_overlaps_and_all_of_it_is_in_the_picture(level: Level) -> None:
    for seed in range(40):
        text = "QUIETLYSTORM"[: 2 + seed % 11]
        whole = picture_of(made(text, level, seed))
        for band in whole.bands:
            for at in range(len(band.strips)):
                assert min(_room(whole, band.strips, at)) >= 5


def test_a_wished_bar_code_is_used_and_one_that_is_too_long_is_refused_by_its_option() -> None:
    wish = bar_picture.Options(code="code-39")
    given = Given()
    assert bar_picture.refuse(Answer("letters", tuple("FROSTING")), wish, given) is None
    problem = bar_picture.refuse(Answer("letters", tuple("FROSTINGS")), wish, given)
    assert problem is not None
    assert problem.where.path == ("options", "code")
    assert "8" in words(problem.what)
    any_code = bar_picture.Options(code="auto")
    assert bar_picture.refuse(Answer("letters", tuple("FROSTINGS")), any_code, given) is None


# --- what is solved --------------------------------------------------------------------


@pytest.mark.parametrize("code", get_args(Code))
def test_one_bar_wrong_is_never_another_answer(code: Code) -> None:
    """Each bar or gap made a module wider in turn: unreadable, or the same by its table."""
    runs = [0.6 * width for width in encoded("FROST", code)]
    for at in range(len(runs)):
        wrong = [width + 0.6 * (at == place) for place, width in enumerate(runs)]
        assert set(said(wrong)) <= {"FROST"}


def test_a_code_that_does_not_fit_the_boxes_is_no_answer() -> None:
    sheet = made("FROST").sheet
    fewer = replace(sheet, sheet=replace(sheet.sheet, signs=4))
    digits = replace(sheet, sheet=replace(sheet.sheet, sort="digits"))
    assert list(bar_picture.solve(fewer, NoKnows())) == []
    assert list(bar_picture.solve(digits, NoKnows())) == []


def test_a_leading_nought_is_kept_and_its_loss_is_a_usual_mistake() -> None:
    sheet, knows = made("042", alphabet="digits")
    (solution,) = bar_picture.solve(sheet, knows)
    assert solution.answer.symbols == ("0", "4", "2")
    mistakes = {one.answer.symbols: one for one in bar_picture.mistakes(sheet, knows, solution)}
    assert mistakes["4", "2"].noticed


def test_look_alikes_are_miscopied_in_texts_alone() -> None:
    assert "B0ARD" in {one.text for one in miscopies("BOARD", "text")}
    assert "B0ARD" not in {one.text for one in miscopies("BOARD", "letters")}


# --- what is printed -------------------------------------------------------------------


def try_to_read(scene: Scene, level: Level, look: Look, seed: int) -> None:
    """Read one page upright, on its head, and askew and grey as in a poor photograph."""
    chance = random.Random(f"{scene} {level} {seed}")
    text = "".join(chance.choice(CAPITALS) for _ in range(chance.randint(2, 12)))
    sheet = made(text, level, seed, scene=scene)
    for ppi in (100, 150, 300):
        image = raster(sheet, look, ppi)
        assert read(image) == [text]
        turn = chance.uniform(-MOST_ASKEW, MOST_ASKEW)
        turned = image.rotate(turn, Image.Resampling.BICUBIC, fillcolor=255)
        assert read(turned.point(lambda grey: 60 + grey * 0.6)) == [text]
    assert read(raster(sheet, look, 100).rotate(180)) == [text]


@pytest.mark.parametrize(
    ("scene", "level", "look"),
    [
        ("garden", "hardest", Look("a4", 12)),
        ("library", "hardest", Look("us-letter", 18)),
        ("music-room", "harder", Look("us-letter", 12)),
        ("garden", "easier", Look("a4", 18)),
    ],
)
def test_a_reader_finds_the_one_code_at_any_size_askew_and_in_grey(
    scene: Scene, level: Level, look: Look
) -> None:
    try_to_read(scene, level, look, 1)


@pytest.mark.long
@pytest.mark.parametrize("scene", SCENES)
@pytest.mark.parametrize("level", LEVELS)
def test_a_reader_finds_the_one_code_of_many_pages(scene: Scene, level: Level) -> None:
    for seed in range(25):
        look = Look(("a4", "us-letter")[seed % 2], (12, 14, 18)[seed % 3])
        try_to_read(scene, level, look, seed)


def test_a_page_whose_code_is_smudged_is_found_by_reading_it_back() -> None:
    sheet = made("FROST")
    right = page(sheet)
    wrong = replace(right, codes=("FROSU",))
    look = Look("a4", 12)
    assert read_back(render([right], look), [right], look) == []
    codes = {problem.code for problem in read_back(render([right], look), [wrong], look)}
    assert codes == {"print.code-missing", "print.code-stray"}


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("paper", PAPERS)
def test_the_longest_answer_fits_every_page(paper: PaperName, size: Size) -> None:
    pages = [
        page(made("WINDOWSILLER", level, 2, "text", scene=scene))
        for scene, level in zip((*SCENES, "garden"), LEVELS, strict=True)
    ]
    assert render(pages, Look(paper, size))


def test_the_page_asks_for_a_reader_and_for_leave_to_use_it() -> None:
    for level in LEVELS:
        told = words(bar_picture.words(made("FROST", level).sheet, "sheet")["need"])
        assert "reader" in told
        assert "Ask an adult" in told


def test_the_text_stands_nowhere_on_the_page_but_in_bars() -> None:
    document = pypdfium2.PdfDocument(render([page(made("FROST", "hardest"))], Look()))
    assert "FROST" not in document[0].get_textpage().get_text_range().upper()


def test_the_key_rings_the_strip_that_says_it() -> None:
    sheet, knows = made("FROST", "hardest", 7)
    (solution,) = bar_picture.solve(sheet, knows)
    found: Any = bar_picture.solved(sheet, knows, solution)
    strip = picture_of(Made(sheet, knows)).bands[found["band"]].strips[found["strip"]]
    assert list(said(strip.runs)) == ["FROST"]

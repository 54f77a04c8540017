"""Every print-out of a game: complete, readable in every look, and silent about the codes."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from io import BytesIO
from itertools import combinations

import pikepdf
import pypdfium2
import pytest
import typst

from boxwright import messages
from boxwright.build import Asked, Built, build
from boxwright.choose.edition import Edition
from boxwright.game.mechanisms import entry
from boxwright.game.model import LockMake
from boxwright.paper.fits import object_boxes
from boxwright.paper.frame import PAPERS, SIZES, Look
from boxwright.paper.outs import (
    cautions,
    clues,
    handover,
    hints,
    how_to_open,
    labels,
    lines,
    set_up,
    sheets,
    story,
)
from boxwright.paper.outs.printing import Printing
from boxwright.paper.page import Page
from boxwright.paper.printouts import PrintOut, modules, print_outs
from boxwright.paper.render import render
from boxwright.text import mm_from_points
from tests.games import EXAMPLES

DEMO = EXAMPLES / "tide-mill"

TEACHERS = {"sheets", "story", "key", "set-up", "reset", "debrief", "handover"}
PUPILS = {
    "sheets-start", "sheets-in-trunk", "sheets-in-casket", "sheets-at-under-bench",
    "rules", "how-to-open", "count-in", "hints", "labels", "closing",
}  # fmt: skip
LONGEST = 60  # pages in all, at 18 pt


def text_of(pdf: bytes) -> str:
    return "\n".join(page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(pdf))


def loose(text: str) -> str:
    return re.sub(r"\s+", " ", text)


def codes(edition: Edition, printing: Printing) -> dict[str, str]:
    found = {}
    for lock, code in edition.codes.items():
        if len(code) >= 3:
            found[lock] = entry(printing.devices[lock]).write(printing.devices[lock], code)
    return found


def shows(text: str, code: str) -> bool:
    """Tell whether a code stands in a text as one run, in either direction."""
    ways = (code, code[::-1]) if " " not in code else (code,)
    return any(re.search(rf"(?<!\w){re.escape(way)}(?!\w)", loose(text)) for way in ways)


def test_each_is_there_and_for_the_right_reader(files: Mapping[str, PrintOut]) -> None:
    readers = {name: one.reader for name, one in files.items()}
    assert readers == dict.fromkeys(TEACHERS, "teacher") | dict.fromkeys(PUPILS, "pupils")


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("paper", PAPERS)
def test_all_print_and_read_back_on_every_paper_in_every_size(
    made: Built, paper: str, size: int
) -> None:
    look = Look(paper, size)  # type: ignore[arg-type]
    found = print_outs(made.folder, made.editions, look)
    assert {one.name for one in found} == TEACHERS | PUPILS
    assert sum(one.pages for one in found) <= LONGEST


def test_nothing_that_pupils_get_shows_a_code(
    files: Mapping[str, PrintOut], printing: Printing
) -> None:
    wanted = codes(printing.edition, printing)
    assert len(wanted) >= 4
    for name in PUPILS:
        text = text_of(files[name].pdf)
        assert [lock for lock, code in wanted.items() if shows(text, code)] == [], name


def test_the_key_and_the_set_up_card_show_every_code(
    files: Mapping[str, PrintOut], printing: Printing
) -> None:
    for name in ("key", "set-up"):
        text = text_of(files[name].pdf)
        for lock, code in codes(printing.edition, printing).items():
            if name == "set-up" or lock != "stairs":  # no clue leads to that one
                assert shows(text, code), (name, lock)


def test_every_page_with_a_code_has_the_teachers_strip(printing: Printing) -> None:
    wanted = codes(printing.edition, printing).values()
    for module in modules():
        found = getattr(module, "pages", None)
        for page in found(printing) if found else ():
            text = str(page.sheet) + " ".join(page.texts)
            if any(shows(text, code) for code in wanted):
                assert page.reader == "teacher", page.title
                assert "teacher" in page.words


def test_every_pile_is_one_place_and_the_office_gets_all(
    files: Mapping[str, PrintOut], printing: Printing
) -> None:
    piles = {name: one.sheets for name, one in files.items() if name.startswith("sheets-")}
    assert sum(piles.values()) == files["sheets"].sheets == len(printing.edition.sheets)
    assert files["sheets"].pages == 1 + len(list(sheets.pages(printing)))
    office = text_of(files["sheets"].pdf)
    assert "2 times" in loose(office)
    assert all(name in office for name in piles)


def test_the_key_goes_in_opening_order_and_draws_each_sheet_with_its_answer(
    files: Mapping[str, PrintOut], printing: Printing
) -> None:
    text = text_of(files["key"].pdf)
    heads = [text.index(f"{at} · {clue}") for at, clue in enumerate(printing.order, 1)]
    assert heads == sorted(heads)
    assert printing.order[-1] == "last", "it lies in the box that opens last"
    solved = clues.solved(printing, "floor").on_paper()
    assert solved is not None
    assert "".join(solved["figures"]) == printing.written("pad")


def test_no_pupils_page_is_handed_a_solution(printing: Printing) -> None:
    for page in sheets.pages(printing):
        assert "solved" not in page.data()


def test_the_hints_are_the_games_own_or_the_kinds_and_hold_no_code(printing: Printing) -> None:
    (page,) = hints.pages(printing)
    assert len(page.sheet["slips"]) == len(printing.edition.sheets)
    assert "Some shells are stripy." in page.prints
    assert page.sheet["count"] == 5


def test_a_game_without_hints_has_no_slips_and_says_so(made: Built, printing: Printing) -> None:
    game = replace(printing.edition.game, hints=0)
    silent = replace(printing, edition=replace(printing.edition, game=game))
    assert list(hints.pages(silent)) == []
    assert "no hints" in " ".join(modules_pages(silent, "rules")[0].prints)


def modules_pages(printing: Printing, name: str) -> list[Page]:
    module = next(one for one in modules() if one.__name__.endswith(f".{name}"))
    return list(module.pages(printing))


def test_each_sort_of_lock_has_a_card_with_all_its_stickers(printing: Printing) -> None:
    (page,) = how_to_open.pages(printing)
    cards = {card["title"]: card["stickers"] for card in page.sheet["cards"]}
    assert set(map(len, cards.values())) == {2}
    assert cards["Sealed envelope"] == ["Envelope 1", "Envelope 2"]
    assert len(cards) == 6


def test_every_sticker_has_a_label(printing: Printing) -> None:
    (page,) = labels.pages(printing)
    tags = [tag for mine in printing.edition.stickers.values() for tag in mine.values()]
    wanted = [tag.replace("ENV", "Envelope ") for tag in tags]
    assert wanted != tags
    assert sorted(one["sticker"] for one in page.sheet["labels"]) == sorted(wanted)


def test_cautions_are_those_that_apply(printing: Printing) -> None:
    said = {message.id.rpartition("-")[2] for message in cautions.cautions(printing.gear)}
    assert said == {
        "school", "locked", "search", "high", "socket", "drop", "ultraviolet", "small"
    }  # fmt: skip


def test_a_game_on_tables_for_the_old_is_cautioned_of_little(printing: Printing) -> None:
    game, folder = printing.edition.game, printing.folder
    boxes = {id: replace(box, place="table") for id, box in game.boxes.items()}
    items = {id: replace(item, tool=None) for id, item in game.items.items()}
    kept = {
        id: replace(one, parts=dict.fromkeys(one.parts, "start"))
        for id, one in printing.edition.sheets.items()
    }
    old = replace(game, boxes=boxes, items=items, ages=(14, 16))
    edition = replace(printing.edition, game=old, sheets=kept)
    said = [
        message.id for message in cautions.cautions(Printing(folder, edition, printing.look).gear)
    ]
    assert said == ["card.mind-school", "card.mind-locked"]


def test_the_story_tells_how_long_it_takes_aloud(printing: Printing) -> None:
    """183 words a minute aloud: Brysbaert 2019, Journal of Memory and Language 109, 104047."""
    told = replace(printing.edition.game.story, opening=("word " * 183,))
    game = replace(printing.edition.game, story=told)
    (page,) = story.pages(replace(printing, edition=replace(printing.edition, game=game)))
    assert "about 60 to 75 seconds" in page.words["aloud"]


def test_stickers_stand_beside_the_boxes_to_tick_for_each_group(
    files: Mapping[str, PrintOut],
) -> None:
    text = loose(text_of(files["set-up"].pdf))
    assert all(loose(tag) in text for tag in ("N1", "N2", "B1", "B2", "Y1", "Y2"))
    assert all(loose(name) in text for name in ("Envelope 1", "Envelope 2"))


def test_cards_hold_for_six_groups_without_stickers(printing: Printing) -> None:
    names = tuple(str(at + 1) for at in range(6))
    stickers: dict[str, dict[str, str]] = {name: {} for name in names}
    edition = replace(printing.edition, groups=names, stickers=stickers)
    found = print_outs(printing.folder, [edition], Look("a4", 14))
    assert {one.name for one in found} >= {"set-up", "reset", "key"}


def overlaps(pdf: bytes) -> Iterator[tuple[int, str, str]]:
    """Yield texts that lie on each other by a quarter of the smaller one, with their page."""
    for number, page in enumerate(pypdfium2.PdfDocument(pdf), 1):
        text = page.get_textpage()
        boxes = [text.get_rect(at) for at in range(text.count_rects())]
        for one, other in combinations(boxes, 2):
            wide = min(one[2], other[2]) - max(one[0], other[0])
            tall = min(one[3], other[3]) - max(one[1], other[1])
            if wide > 0 and tall > 0 and wide * tall > min(area(one), area(other)) / 4:
                yield number, text.get_text_bounded(*one), text.get_text_bounded(*other)


def area(box: tuple[float, float, float, float]) -> float:
    return (box[2] - box[0]) * (box[3] - box[1])


@pytest.mark.parametrize("look", [Look("a4", 12), Look("us-letter", 18)], ids=str)
def test_no_texts_of_the_demo_lie_on_each_other_and_a_long_code_has_a_line(look: Look) -> None:
    """It once broke, and ran into the signs beside it."""
    made = build(Asked(DEMO))
    printing = Printing(made.folder, made.edition, look)
    locks = made.edition.game.locks
    (moves,) = (id for id, lock in locks.items() if lock.mechanism == "direction")
    files = {one.name: one.pdf for one in print_outs(made.folder, made.editions, look)}
    lines = [line.strip() for line in text_of(files["key"]).splitlines()]
    assert printing.written(moves) in lines
    assert {name: list(overlaps(pdf)) for name, pdf in files.items()} == {
        name: [] for name in files
    }


def test_texts_that_lie_on_each_other_are_found() -> None:
    source = b"#place[Some words]#place(dx: 8pt)[Other words]"
    assert list(overlaps(typst.compile(source)))


def test_no_full_stop_of_the_teachers_own_is_doubled(made: Built, printing: Printing) -> None:
    folder = made.folder
    assert folder.room is not None
    assert folder.kit is not None
    stopped = folder.room.room.model_copy(update={"name": "Room 4, upper fl."})
    room = folder.room.model_copy(update={"room": stopped})
    locks = {
        tag: lock.model_copy(update={"faults": "It sticks."})
        for tag, lock in folder.kit.locks.items()
    }
    kit = folder.kit.model_copy(update={"locks": locks})
    game = replace(printing.edition.game, authors=("A. Weir jr.",), licence="All mine.")
    edition = replace(printing.edition, game=game)
    told = Printing(replace(folder, room=room, kit=kit), edition, printing.look)
    texts = [text for page in (*handover.pages(told), *set_up.pages(told)) for text in page.prints]
    for own in ("upper fl.", "It sticks.", "jr.", "All mine."):
        assert any(own in text for text in texts)
    assert [text for text in texts if re.search(r"[.!?][.!?]", text)] == []


def test_hints_and_meanings_begin_as_sentences_do(printing: Printing) -> None:
    (key,) = modules_pages(printing, "key")
    for entry_of_key in key.sheet["entries"]:
        mistakes = [one.partition(": ")[2] for one in entry_of_key["mistakes"]]
        for text in (*entry_of_key["hints"], *mistakes, entry_of_key["lies"]):
            assert not text[0].islower(), text


def test_the_debrief_tells_the_whole_way_to_an_answer_in_a_few_lines(printing: Printing) -> None:
    (page,) = modules_pages(printing, "debrief")
    longest = 0
    for clue, told in zip(printing.order, page.sheet["clues"], strict=True):
        solution = printing.solution(clue)
        assert solution is not None
        steps = [printing.said(step.says) for step in solution.working]
        longest = max(longest, len(steps))
        assert told["answer"] == clues.answer(printing, clue, solution)
        way_in, *way = told["how"]
        assert way_in == clues.hints(printing, clue)[0]
        assert (way[0], way[-1]) == (steps[0], steps[-1])
        assert len(way) == min(len(steps), 4)
    assert longest > 4


def test_without_a_kit_the_card_says_what_to_take(printing: Printing) -> None:
    bare: dict[str, dict[str, str]] = {group: {} for group in printing.edition.groups}
    edition = replace(printing.edition, stickers=bare)
    (card, _) = set_up.pages(replace(printing, edition=edition))
    shelf = next(
        block
        for part in card.sheet["parts"]
        for block in part["blocks"]
        if block["name"] == "shelf"
    )
    told = {
        line["text"]: " ".join(line["how"])
        for section in shelf["sections"]
        for line in section["lines"]
    }
    game, code = printing.edition.game, printing.written("first")
    assert "2 locks can close" in told["The travelling trunk"]
    assert f"can be set to {code}" in told["Lock with number wheels for the travelling trunk"]
    assert "its lock is part of it" in told["The key safe"].lower()
    assert "key for the travelling trunk" in told[lines.sentence(game.name_of("iron-key"))]
    fetched = [text for text in told if not text.startswith("Try ")]
    assert [text for text in fetched if not told[text]] == []


def test_a_reset_shows_each_code_where_its_lock_is_tested(printing: Printing) -> None:
    (card,) = modules_pages(printing, "reset")
    every = [
        line["code"]
        for part in card.sheet["parts"]
        for block in part["blocks"]
        if block["name"] == "locks"
        for section in block["sections"]
        for line in section["lines"]
    ]
    assert [code for code in every if code is None] == []
    assert printing.picture("first") in every


def test_a_full_stop_of_the_kits_own_is_not_doubled(printing: Printing) -> None:
    device = printing.devices["first"]
    make = LockMake(set_by="Turn the shackle, push it in.")
    said = [printing.said(one) for one in entry(device).setting(device, ("1", "2", "3"), make)]
    assert not any(".." in line for line in said)


def test_in_large_print_no_cut_line_runs_through_a_label(made: Built) -> None:
    look = Look("us-letter", 18)
    pages = list(labels.pages(Printing(made.folder, made.edition, look)))
    document = pypdfium2.PdfDocument(render(pages, look))
    page = document[0]
    found = [box for box in object_boxes(page) if box.width > look.body.width]
    cuts = {round(box.y + box.height / 2, 2) for box in found if box.height < 1}
    assert len(cuts) > 2
    text, tall = page.get_textpage(), page.get_height()
    for at in range(text.count_rects()):
        _, low, _, high = text.get_rect(at)
        upper, lower = mm_from_points(tall - high), mm_from_points(tall - low)
        assert [cut for cut in cuts if upper < cut < lower] == []


def test_every_file_tells_printers_and_readers_what_it_is(
    files: Mapping[str, PrintOut], printing: Printing
) -> None:
    for name, one in files.items():
        with pikepdf.open(BytesIO(one.pdf)) as document:
            wishes = document.Root["/ViewerPreferences"]
            assert str(wishes["/PrintScaling"]) == "/None", name
            assert str(wishes["/Duplex"]) == "/Simplex", name
            assert bool(document.Root["/MarkInfo"]["/Marked"])
            assert document.Root["/Lang"] == printing.language
            with document.open_metadata(set_pikepdf_as_editor=False) as metadata:
                assert metadata["dc:title"] == f"{printing.edition.game.title}: {name}"


@pytest.mark.parametrize(
    ("count", "said"), [(103, "35 to 40 seconds"), (301, "2 to 3 minutes"), (580, "3 to 4 minutes")]
)
def test_a_long_story_is_timed_in_minutes(count: int, said: str) -> None:
    assert f"about {said}" in messages.words(story.aloud(["word " * count]))

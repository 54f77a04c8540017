"""A remedy that is offered is applied as it stands: the finding goes, and nothing worse comes."""

from __future__ import annotations

import inspect
from pathlib import Path
from types import ModuleType
from typing import NamedTuple

import pytest

from boxwright import checks
from boxwright.build import Asked, build
from boxwright.game.commands import perform
from boxwright.game.history import History
from boxwright.problems import Edit, Finding, plain
from tests.checks.test_every_check import rows
from tests.games import base, built, found

Change = tuple[str, str]
FRONT = '[locks.front]\nmechanism = "number-wheels"'
DRUM = '[locks.drum]\nmechanism = "number-wheels"'
SIDE = 'mechanism = "direction"\nlength = [7, 7]'
LABEL = 'code = "one of BEAN LEAF ROOT"'
TIN = '[boxes.tin]\nname = "the tea tin"'
BASKET = (TIN, f'[boxes.basket]\nname = "the basket"\n\n{TIN}')
SEEDS = 'place = "chest"\nwins = true'
SPADE = ("[items.seeds]", '[items.spade]\nname = "a spade"\nplace = "jar"\n\n[items.seeds]')
KEY = 'name = "a tin key"\nplace = "jar"'
GLOW = 'place = "folder"\nneeds = ["torch"]'
STENCIL = 'level = "easier"\nkind = "nonogram"'
PUPILS = "pupils = [3, 4]"
NOBODY = "Nobody knows where she put the seeds for the new beds."
LONG = " ".join(["We go to it now."] * 190)
HINTS = 'hints = ["Look closely.", "Shine on it.", "Begin at the edge."]'
OWN_GLOW = (GLOW, f"{GLOW}\n{HINTS}")
N2 = '[locks.N2]\nmodel = "three-numbers"\nshelf_code = "000"\n'
FIXED_W1 = ("[locks.W1]", '[locks.W1]\nfixed = true\ncode = "BEAN"')
ON_VIEW = ('facilities = ["board"]', 'facilities = ["board"]\nfigures = ["214"]')
SHELF = 'say = "SHELF"\nheight_mm = 700'
SILL = 'say = "SILL"\nheight_mm = 900'
HOT_SHELF = (SHELF, f'{SHELF}\nnear = ["heat"]')
HOT_SILL = (SILL, f'{SILL}\nnear = ["heat"]')
LEDGE = 'name = "the ledge"\nheight_mm = 800\nholds = ["sheet", "small", "box"]'
LEDGE_TOO = ("[places.sill]", f"[places.ledge]\n{LEDGE}\n\n[places.sill]")
WALK = '[clues.walk]\ngives = "shelf"\n\n[clues.walk.versions.one]\nkind = "pigpen"'


def coded(lock: str, code: str) -> Change:
    return lock, f'{lock}\ncode = "{code}"'


class Case(NamedTuple):
    """A game with a fault: what the finding's code is, and the changes to each file."""

    code: str
    game: tuple[Change, ...] = ()
    kit: tuple[Change, ...] = ()
    room: tuple[Change, ...] = ()

    def written(self, folder: Path) -> Path:
        base(folder, *self.kit, file="kit.toml")
        base(folder, *self.room, file="room.toml")
        return base(folder, *self.game)


MENDED = {
    "a-box-that-is-only-named": Case("box.empty", (BASKET,)),
    "a-box-that-nothing-closes": Case("box.without-lock", (BASKET,)),
    "centimetres-in-the-game": Case(
        "box.tiny", (("inside_mm = [120, 80, 60]", "inside_mm = [12, 8, 6]"),)
    ),
    "centimetres-in-the-kit": Case(
        "box.tiny", kit=(("inside_mm = [380, 280, 180]", "inside_mm = [38, 28.5, 18]"),)
    ),
    "a-torch-that-no-clue-names": Case("clue.lacks-tool", ((GLOW, 'place = "folder"'),)),
    "nearly-one-code": Case("code.near", (coded(FRONT, "475"), coded(DRUM, "476"))),
    "a-word-that-is-near-another": Case(
        "code.near", (coded(FRONT, "475"), coded(DRUM, "one of 476 474"))
    ),
    "a-code-on-the-door": Case("code.on-view", (coded(DRUM, "214"),), room=(ON_VIEW,)),
    "a-weak-code": Case("code.weak", (coded(DRUM, "777"),)),
    "a-list-with-weak-codes": Case("code.weak", (coded(DRUM, "one of 777 123 482"),)),
    "a-prize-that-does-not-win": Case("game.no-end", ((SEEDS, 'place = "chest"'),)),
    "a-prize-on-the-table": Case("game.won-at-start", ((SEEDS, 'place = "table"\nwins = true'),)),
    "too-few-moves": Case("guess.sooner-moves", ((SIDE, SIDE.replace("[7, 7]", "[5, 5]")),)),
    "too-many-hints": Case("hints.count-more", ((PUPILS, f"{PUPILS}\nhints = 16"),)),
    "hints-that-run-out": Case(
        "time.hints",
        (
            (PUPILS, f"{PUPILS}\nhints = 1"),
            ("bell_to_bell = 75", "bell_to_bell = 42"),
            ("solve.step-logic = 6", "solve.step-logic = 6\nhint.after = 120"),
        ),
    ),
    "hints-for-nobody": Case("hints.count-none", ((PUPILS, f"{PUPILS}\nhints = 0"), OWN_GLOW)),
    "a-thing-of-no-use": Case("item.without-use", (SPADE,)),
    "a-lock-too-few": Case("kit.lacks-locks", kit=((N2, ""),)),
    "a-word-that-is-never-taken": Case(
        "lock.cannot-show-one", ((LABEL, 'code = "one of BEAR STEM LEAF ROOT"'),)
    ),
    "a-figure-that-wheels-lack": Case(
        "lock.cannot-show",
        (coded(DRUM, "497"), ('wheels = 3\ncloses = "chest"', 'closes = "chest"')),
        kit=(
            (
                N2,
                '[locks.N2]\nmechanism = "number-wheels"\nfaces = ["123456", "123456", "123456"]\n',
            ),
        ),
    ),
    "another-code-than-a-fixed-lock-has": Case(
        "lock.fixed-otherwise", ((LABEL, 'code = "LEAF"'),), kit=(FIXED_W1,)
    ),
    "words-that-a-fixed-lock-never-has": Case("lock.fixed-otherwise-one", kit=(FIXED_W1,)),
    "a-hot-place-with-one-other": Case("place.unsafe", room=(HOT_SHELF, LEDGE_TOO)),
    "a-hot-place-first-of-the-wishes": Case(
        "place.unsafe",
        ((STENCIL, f'{STENCIL}\nplace = ["sill", "shelf"]'),),
        room=(HOT_SILL, LEDGE_TOO),
    ),
    "a-place-out-of-reach": Case(
        "place.high", room=((SHELF, SHELF.replace("700", "1450")), LEDGE_TOO)
    ),
    "a-key-in-its-own-box": Case("reach.key-inside", ((KEY, KEY.replace("jar", "tin")),)),
    "a-story-longer-than-its-time": Case("time.briefing", ((NOBODY, LONG),)),
}


def named(findings: tuple[Finding, ...], code: str) -> list[Finding]:
    return [one for one in findings if one.problem.code == code]


def stops(findings: tuple[Finding, ...]) -> set[str]:
    return {one.id for one in findings if one.severity == "stop"}


@pytest.mark.parametrize("case", MENDED.values(), ids=MENDED)
def test_the_finding_goes_and_nothing_stops_the_game_that_did_not(
    tmp_path: Path, case: Case
) -> None:
    game = case.written(tmp_path)
    before = built(game).findings
    finding = named(before, case.code)[0]
    assert finding.problem.edit is not None
    history = History(game)
    perform(history, "remedy.apply", plain(finding.problem.edit), history.now().tag)
    after = built(game).findings
    assert finding.id not in {one.id for one in after}
    assert stops(after) <= stops(before)


def is_of(code: str, check: ModuleType) -> bool:
    return code.startswith(check.CODE) or f'"{code}"' in inspect.getsource(check)


def test_every_check_that_offers_one_is_tried_here_and_marked_on_the_page() -> None:
    offering = {one.CODE for one in checks.modules() if "edit=" in inspect.getsource(one)}
    tried = {
        one.CODE for one in checks.modules() for case in MENDED.values() if is_of(case.code, one)
    }
    assert tried == offering
    assert {code for code, row in rows().items() if row["click"].strip()} == offering


def edits(game: Path, code: str) -> list[Edit | None]:
    """Return what is offered with each such finding, of which there is one at least."""
    offered = [one.problem.edit for one in found(game, code)]
    assert offered
    return offered


def value(game: Path, code: str) -> object:
    """Return what the one remedy that is offered would write."""
    (edit,) = edits(game, code)
    assert edit is not None
    return edit.value


OWN = (
    'kind = "unseen-ink"\nplace = "folder"\nneeds = ["torch"]',
    'kind = "own-sheet"\nplace = "folder"\noptions = { text = ["Count the bees."] }',
)
UNMENDED = {
    "a-box-that-a-lock-closes": Case(
        "box.empty",
        (('name = "a bag of seeds"\nplace = "chest"', 'name = "seeds"\nplace = "jar"'),),
    ),
    "a-box-that-is-told-of": Case("box.empty", (BASKET, (NOBODY, "See {basket}."))),
    "a-measure-that-is-tiny-in-any-unit": Case(
        "box.tiny", (("inside_mm = [120, 80, 60]", "inside_mm = [5, 4, 3]"),)
    ),
    "centimetres-for-which-the-shelf-has-no-box": Case(
        "box.tiny", (("inside_mm = [120, 80, 60]", "inside_mm = [19, 8, 6]"),)
    ),
    "a-real-box-that-may-not-go-into-its-place-then": Case(
        "box.tiny",
        (("inside_mm = [120, 80, 60]\n", ""),),
        (("inside_mm = [180, 120, 90]", "inside_mm = [45, 12, 9]"),),
    ),
    "no-torch-at-all": Case(
        "clue.lacks-tool", ((GLOW, 'place = "folder"'), ('tool = "uv-torch"\n', ""))
    ),
    "a-torch-that-comes-by-that-clue": Case(
        "clue.lacks-tool",
        (
            (GLOW, 'place = "folder"'),
            ('tool = "uv-torch"\nplace = "tin"', 'tool = "uv-torch"\nplace = "chest"'),
        ),
    ),
    "a-weak-code-that-an-own-page-says": Case("code.weak", (coded(DRUM, "777"), OWN)),
    "a-weak-code-that-own-hints-may-name": Case("code.weak", (coded(DRUM, "777"), OWN_GLOW)),
    "a-list-of-which-all-that-is-left-is-near-another": Case(
        "code.weak", (coded(FRONT, "475"), coded(DRUM, "one of 777 476"))
    ),
    "a-word-that-was-chosen": Case("lock.cannot-show", ((LABEL, 'code = "BEAR"'),)),
    "two-that-could-win": Case("game.no-end", ((SEEDS, 'place = "chest"'), SPADE)),
    "a-prize-that-a-clue-needs": Case(
        "game.won-at-start",
        (
            (SEEDS, 'place = "table"\nwins = true'),
            (GLOW, GLOW.replace('"torch"', '"torch", "seeds"')),
        ),
    ),
    "a-thing-that-is-all-there-is-in-a-box": Case(
        "item.without-use",
        (BASKET, (SPADE[0], SPADE[1].replace('"jar"', '"basket"'))),
    ),
    "a-thing-that-may-be-the-prize": Case("item.without-use", ((SEEDS, 'place = "chest"'), SPADE)),
    "a-thing-that-is-told-of": Case("item.without-use", (SPADE, (NOBODY, "Take {spade}."))),
    "a-lock-that-no-paper-may-stand-in-for": Case(
        "kit.lacks-locks", ((DRUM, f'{DRUM}\nstand_in = "never"'),), ((N2, ""),)
    ),
    "no-envelope-left": Case("kit.lacks-locks", kit=((N2, ""), ("envelopes = 4", "envelopes = 1"))),
    "several-other-places": Case(
        "place.unsafe",
        room=(
            HOT_SHELF,
            LEDGE_TOO,
            (SILL, f"{SILL}\n"),
            ('holds = ["sheet", "small"]', 'holds = ["sheet", "small", "box"]'),
        ),
    ),
    "several-things-at-a-place": Case(
        "place.unsafe", ((KEY, KEY.replace("jar", "shelf")),), room=(HOT_SHELF, LEDGE_TOO)
    ),
    "a-place-that-a-clue-leads-to": Case(
        "place.unsafe",
        (("[clues.stencil]", f"{WALK}\n\n[clues.stencil]"),),
        room=(HOT_SHELF, LEDGE_TOO),
    ),
    "a-story-for-which-play-has-no-time": Case(
        "time.briefing", ((NOBODY, LONG), ("bell_to_bell = 75", "bell_to_bell = 43"))
    ),
}


@pytest.mark.parametrize("case", UNMENDED.values(), ids=UNMENDED)
def test_where_a_teacher_must_choose_none_is_offered(tmp_path: Path, case: Case) -> None:
    assert set(edits(case.written(tmp_path), case.code)) == {None}


def test_of_a_list_only_the_bad_codes_go(tmp_path: Path) -> None:
    game = base(tmp_path, coded(DRUM, "one of 482, 777, 951, 123"))
    assert value(game, "code.weak") == "one of 482, 951"


def test_the_next_wish_is_taken_and_the_others_stay_wishes(tmp_path: Path) -> None:
    base(tmp_path, HOT_SILL, LEDGE_TOO, file="room.toml")
    places = ["sill", "shelf", "table"]
    game = base(tmp_path, (STENCIL, f"{STENCIL}\nplace = {places}"))
    assert value(game, "place.unsafe") == ["shelf", "table"]


def test_a_kit_that_lies_elsewhere_is_left_alone(tmp_path: Path) -> None:
    base(tmp_path, ("inside_mm = [380, 280, 180]", "inside_mm = [38, 28, 18]"), file="kit.toml")
    game = base(tmp_path)
    kit = (game / "kit.toml").rename(tmp_path / "shelf.toml")
    findings = build(Asked(game, kit=kit)).findings
    assert [one.problem.edit for one in named(findings, "box.tiny")] == [None]

"""The shelf finds kinds by their files, loads them late, and holds them to the contract."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from boxwright.messages import words
from boxwright.problems import Problem, Refused
from boxwright.puzzles import shelf
from boxwright.puzzles.contract import Answer
from boxwright.puzzles.shelf import Shelf, load
from boxwright.web.render import remedy

TOYS = Path(__file__).parent / "toys"


@pytest.fixture
def toys(tmp_path: Path) -> Path:
    for suffix in (".py", ".typ"):
        (tmp_path / f"my_tally{suffix}").write_text((TOYS / f"tally{suffix}").read_text())
    return tmp_path


def refused(folder: Path) -> tuple[Problem, ...]:
    with pytest.raises(Refused) as caught:
        load("my-tally", folder / "my_tally.py")
    return caught.value.problems


def edit(folder: Path, old: str, new: str, suffix: str = ".py") -> None:
    file = folder / f"my_tally{suffix}"
    assert old in file.read_text()
    file.write_text(file.read_text().replace(old, new))


def test_two_files_of_one_stem_are_a_kind(toys: Path) -> None:
    both = Shelf(toys)
    assert set(both.names()) == {*shelf.names(), "my-tally"}
    assert both.kind("my-tally").FACTS.ages == (6, 9)


def test_a_file_without_a_twin_is_none(toys: Path) -> None:
    (toys / "my_tally.typ").unlink()
    assert "my-tally" not in Shelf(toys).names()
    assert not {"figures", "shelf", "contract", "nonogram-solver"} & set(shelf.names())


def test_names_load_no_kind() -> None:
    code = (
        "import sys; from boxwright.puzzles import shelf; assert shelf.names(); "
        "sys.exit('boxwright.puzzles.nonogram' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_an_unknown_name_brings_the_nearest_and_the_list() -> None:
    with pytest.raises(Refused) as caught:
        shelf.kind("nonogramm")
    (problem,) = caught.value.problems
    assert problem.code == "kind.unknown-near"
    assert "nonogram?" in words(problem.what)
    assert set(shelf.names()) == set(problem.what.args["choices"])  # type: ignore[arg-type]


def test_a_name_that_is_near_to_none_brings_the_list() -> None:
    with pytest.raises(Refused) as caught:
        shelf.kind("zzz")
    assert caught.value.problems[0].code == "kind.unknown"


def test_an_answer_finds_the_kinds_that_carry_it(toys: Path) -> None:
    both = Shelf(toys)
    assert "my-tally" in both.carriers(Answer("digits", ("4", "2")))
    assert "my-tally" not in both.carriers(Answer("letters", ("A",)))
    assert "nonogram" in shelf.kinds_that_carry(Answer("letters", ("A",)))


def test_a_refusal_names_what_is_carried_and_who_can_instead(toys: Path) -> None:
    both = Shelf(toys)
    problem = both.cannot_carry("my-tally", Answer("letters", ("A", "B")))
    assert "1 to 4 digits" in words(problem.what)
    assert "nonogram" in words(problem.remedy)
    assert "A hidden picture" in remedy(problem)  # pages call puzzles by their titles


def test_a_sound_kind_is_loaded(toys: Path) -> None:
    assert load("my-tally", toys / "my_tally.py").FACTS.parts[1].apart


@pytest.mark.parametrize(
    ("old", "new", "name"),
    [
        ("def hints(", "def hint(", "hints"),
        ("RULES = say(", "NO_RULES = say(", "RULES"),
        ('RULES = say("nonogram.rules")', 'RULES = "count"', "RULES"),
        ("FACTS = Facts(", "FACTS = dict(", "FACTS"),
        ("def solve(sheet: Sheet, knows: NoKnows)", "def solve(sheet: Sheet)", "solve"),
        (
            "def make(answer: Answer, options: Options",
            "def make(options: Options, answer: Answer",
            "make",
        ),
        ("BaseModel, frozen=True", "BaseModel", "Options"),
        (', extra="forbid"', "", "Options"),
        ("@dataclass(frozen=True)\nclass Sheet", "@dataclass\nclass Sheet", "Sheet"),
        ("@dataclass(frozen=True)\nclass Dots", "@dataclass\nclass Dots", "Sheet.sheet"),
        ("counts: tuple[int, ...]", "counts: list[int]", "Sheet.sheet.counts"),
        ("add: int", "add: complex", "Sheet.key.add"),
        ("key: Key | None = None", "keys: Key | None = None", "Sheet"),
        ("key: Key | None = None", "key: Key = Key(1)", "Sheet.key"),
        ('Carries("digits"', 'Carries("numerals"', "FACTS.answers"),
        ("1, 4),),", "4, 1),),", "FACTS.answers"),
        (
            'answers=(Carries("digits", frozenset("0123456789"), 1, 4),)',
            "answers=()",
            "FACTS.answers",
        ),
        ("ages=(6, 9)", "ages=(9, 6)", "FACTS.ages"),
        ("band_minutes=(1, 3)", "band_minutes=(0, 3)", "FACTS.band_minutes"),
        (
            'skill=frozenset({"counting"})',
            'skill=frozenset(), uses=frozenset({"glue"})',
            "FACTS.uses",
        ),
        ('Part("sheet")', 'Part("sheet", "parents")', "FACTS.parts"),
    ],
)
def test_a_breach_is_refused_with_its_name(toys: Path, old: str, new: str, name: str) -> None:
    edit(toys, old, new)
    problem = next(problem for problem in refused(toys) if problem.what.args["name"] == name)
    assert problem.where.file == str(toys / "my_tally.py")
    said = words(problem.what)
    assert name in said
    assert "Expected: " in said
    assert "kind.expect" not in said
    assert name in words(problem.remedy)


def test_a_template_without_draw_is_refused(toys: Path) -> None:
    edit(toys, "draw(part, sheet, words, look)", "draw(part, sheet, look)", ".typ")
    (problem,) = refused(toys)
    assert problem.where.file.endswith("my_tally.typ")
    assert "#let draw(part, sheet, words, look)" in words(problem.what)


def test_a_file_that_is_no_python_is_refused(toys: Path) -> None:
    edit(toys, "FACTS = Facts(", "FACTS = Facts((")
    (problem,) = refused(toys)
    assert problem.code == "kind.import"
    assert "SyntaxError" in words(problem.what)


def test_all_breaches_come_together(toys: Path) -> None:
    edit(toys, "ages=(6, 9)", "ages=(9, 6)")
    edit(toys, "def hints(", "def hint(")
    assert {problem.what.args["name"] for problem in refused(toys)} == {"hints", "FACTS.ages"}

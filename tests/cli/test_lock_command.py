"""`boxwright lock` answers people at a glance, and programs in one object."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from boxwright.cli import main

KIT = """
format = 1
[kit]
id = "green-shelf"
name = "The green shelf"
[models.five-letters]
mechanism = "letter-wheels"
set_by = "turn the shackle half round and press"
[locks.W1]
model = "five-letters"
faces = ["BCDFGLMPSW", "AEHILNORTU", "AEILNORSTU", "ACEKLNRSTU", "DEHKLNSTY_"]
reading_line = "between the two dots"
[locks.R1]
mechanism = "dial"
numbers = 40
tolerance = 1
fixed = true
code = "12-33-5"
[locks.N9]
mechanism = "number-wheels"
faces = ["012", "5"]
"""


class Run:
    """What a call of the command left behind."""

    def __init__(self, code: int, out: str, err: str) -> None:
        self.code, self.out, self.err = code, out, err

    @property
    def json(self) -> Any:
        return json.loads(self.out)


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Any:
    def call(*args: str) -> Run:
        with pytest.raises(SystemExit) as left:
            main(["lock", *args])
        out, err = capsys.readouterr()
        return Run(int(left.value.code or 0), out, err)

    return call


@pytest.fixture
def kit(tmp_path: Path) -> str:
    file = tmp_path / "kit.toml"
    file.write_text(KIT, "utf-8")
    return str(file)


def test_a_lock_in_a_few_characters_shows_a_code(run: Any) -> None:
    found = run("number-wheels:3", "--code", "4 2 7")
    assert found.code == 0
    assert "1,000 codes." in found.out
    assert "Yes, it shows 427." in found.out


def test_a_real_lock_cannot_show_a_word_and_near_words_are_named(run: Any, kit: str) -> None:
    found = run("--kit", kit, "--tag", "w1", "--code", "storm")
    assert found.code == 1
    assert "position 5 has no M" in found.out
    assert "STORY" in found.out


def test_a_weak_code_is_shown_but_called_weak(run: Any) -> None:
    found = run("number-wheels:3", "--code", "111")
    assert found.code == 0
    assert "weak code" in found.out


def test_words_come_commonest_first_from_an_own_list_too(
    run: Any, kit: str, tmp_path: Path
) -> None:
    own = tmp_path / "words.txt"
    own.write_text("storm\nfrost\ncloud\nit's\nsleet\n", "utf-8")
    found = run("--kit", kit, "--tag", "W1", "--words", "5", "--list", str(own), "--json")
    assert found.json["words"] == {
        "count": 3,
        "words": ["FROST", "CLOUD", "SLEET"],
        "left_out": ["it's"],
    }


def test_guessing_times_are_the_formulas(run: Any) -> None:
    found = run("number-wheels:3", "--guess", "--try", "1.2", "--json")
    (nothing, one) = found.json["guess"]
    assert nothing == {
        "known": "nothing",
        "tries_average": 500.5,
        "tries_worst": 1000,
        "average_s": 600.6,
        "worst_s": 1200.0,
    }
    assert one["tries_worst"] == 10


def test_the_list_for_a_lost_code_begins_with_one_wheel_off(run: Any) -> None:
    found = run("number-wheels:3", "--code", "427", "--lost", "28", "--json")
    lost = found.json["lost"]
    assert lost["first"][0] == {"code": "427", "stage": "meant"}
    assert {entry["stage"] for entry in lost["first"][1:]} == {"slipped", "one-off"}
    assert sum(stage["tries"] for stage in lost["stages"]) == 1000


def test_setting_follows_the_kit(run: Any, kit: str) -> None:
    found = run("--kit", kit, "--tag", "W1", "--code", "frost", "--set")
    assert "turn the shackle half round and press" in found.out
    assert "between the two dots" in found.out
    told = found.out.partition("To tell pupils")[2].partition("If it fails")[0]
    assert told
    assert "FROST" not in told


def test_a_fixed_lock_needs_no_code_of_the_teachers(run: Any, kit: str) -> None:
    found = run("--kit", kit, "--tag", "R1", "--lost", "--set", "--json")
    assert found.code == 0
    assert found.json["lost"]["meant"] == "12-33-5"


@pytest.mark.parametrize(
    ("args", "said"),
    [
        ((), "one lock"),
        (("nubmer-wheels:3",), "Did you mean number-wheels?"),
        (("dial:x",), "dial:40"),
        (("letter-wheels",), "how many wheels"),
        (("number-wheels:3", "--lost"), "--lost needs the code"),
        (("keypad:4", "--words"), "shows no words"),
        (("number-wheels:3", "--guess", "--length", "5"), "not 5"),
        (("key", "--lost"), "no code"),
        (("letter-wheels:5", "--words", "--language", "xx"), "no list of words"),
        (("number-wheels:3", "--words", "0"), "--words"),
        (("number-wheels:3", "--kit", "no-such.toml"), "one lock"),
        (("--kit", "no-such.toml", "--tag", "N1"), "no-such.toml"),
    ],
)
def test_bad_input_ends_with_2_and_a_remedy(run: Any, args: tuple[str, ...], said: str) -> None:
    found = run(*args)
    assert found.code == 2
    assert said in found.err
    assert not found.out


@pytest.mark.parametrize(
    ("tag", "said"),
    [(None, "several locks"), ("W2", "Did you mean W1?"), ("N9", "1 face")],
)
def test_a_kit_tells_which_lock_and_what_is_wrong_with_it(
    run: Any, kit: str, tag: str | None, said: str
) -> None:
    found = run("--kit", kit, *(("--tag", tag) if tag else ()))
    assert found.code == 2
    assert said in found.err


def test_a_fault_in_the_kit_has_its_line(run: Any, kit: str) -> None:
    line = KIT.splitlines().index('faces = ["012", "5"]') + 1
    assert f"kit.toml:{line}:" in run("--kit", kit, "--tag", "N9").err


def test_help_lists_every_mechanism(run: Any) -> None:
    from boxwright.game.mechanisms import MECHANISMS

    found = " ".join(run("--help").out.split()).replace("- ", "-")
    assert all(name in found for name in MECHANISMS)

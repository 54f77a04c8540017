"""Every check owes the same: a code, a first sentence, messages, tests, and a line in docs."""

from __future__ import annotations

import ast
import inspect
import re
from dataclasses import replace
from pathlib import Path
from types import ModuleType

import pytest

from boxwright import checks
from boxwright.build import about_of
from boxwright.choose.edition import Edition
from boxwright.game.folder import Folder
from boxwright.messages import words
from boxwright.problems import Finding
from tests.games import base, built

HERE = Path(__file__).parent
DOCS = HERE.parent.parent / "docs" / "checks.md"
CATALOGUES = HERE.parent.parent / "src/boxwright/locale/en/LC_MESSAGES"
ROW = re.compile(
    r"\| `(?P<code>[a-z.-]+)` \| (?P<finds>.+) \| (?P<severity>.+) \| (?P<basis>.+) "
    r"\| (?P<click>.*) \|"
)
EACH = pytest.mark.parametrize("module", checks.modules(), ids=lambda one: one.CODE)
SEVERITIES = frozenset({"stop", "fix", "note"})
BASES = frozenset({"computed", "estimated", "declared", "try by hand"})


def rows() -> dict[str, re.Match[str]]:
    found = map(ROW.fullmatch, DOCS.read_text(encoding="utf-8").splitlines())
    return {row["code"]: row for row in found if row is not None}


def texts_in(module: ModuleType) -> set[str]:
    """Every text that a module's code holds, without its docstrings."""
    tree = ast.parse(inspect.getsource(module))
    return {
        str(node.value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }


def test_no_two_checks_have_one_code() -> None:
    codes = [module.CODE for module in checks.modules()]
    assert len(set(codes)) == len(codes) > 30


def test_the_page_lists_every_check_and_no_other() -> None:
    assert sorted(rows()) == sorted(module.CODE for module in checks.modules())


@EACH
def test_it_begins_with_what_must_hold(module: ModuleType) -> None:
    assert module.__doc__
    assert module.__doc__.splitlines()[0].rstrip().endswith((".", ":"))
    assert module.check.__doc__


@EACH
def test_it_has_a_test_file_of_its_own_with_enough_games(module: ModuleType) -> None:
    name = module.__name__.rpartition(".")[2]
    text = (HERE / f"test_{name}.py").read_text(encoding="utf-8")
    assert text.count("\ndef test_") >= 4
    assert "remedy(" in text


@EACH
def test_it_has_messages_each_with_its_remedy(module: ModuleType) -> None:
    catalogue = CATALOGUES / f"{module.CODE.partition('.')[0]}.po"
    ids = re.findall(r'^msgid "(.+)"$', catalogue.read_text(encoding="utf-8"), re.MULTILINE)
    mine = [id for id in ids if id.startswith(module.CODE)]
    endings = (".remedy", ".on-page")
    said = [id for id in mine if not id.endswith(endings) and id != "sheet.order-said"]
    assert said
    assert all(f"{id}.remedy" in mine for id in said)


@EACH
def test_the_page_tells_its_severities_and_bases(module: ModuleType) -> None:
    row, texts = rows()[module.CODE], texts_in(module)
    assert set(row["severity"].split(", ")) == texts & SEVERITIES
    computed_by_sheet = (
        {"computed", "declared"} if "one.basis" in inspect.getsource(module) else set()
    )
    if not texts & BASES:
        assert set(row["basis"].split(", ")) == computed_by_sheet
    else:
        assert set(row["basis"].split(", ")) == texts & BASES


def judged(edition: Edition, folder: Folder) -> tuple[Finding, ...]:
    return checks.run([(edition, about_of(folder, edition))])


def test_without_kit_and_room_nothing_breaks(tmp_path: Path) -> None:
    game = base(tmp_path, ('place = "shelf"', 'place = "table"'))
    (game / "kit.toml").unlink()
    (game / "room.toml").unlink()
    assert [one.severity for one in built(game).findings if one.severity == "stop"] == []


def test_the_same_is_found_once_however_many_groups_share_it(tmp_path: Path) -> None:
    game = base(tmp_path, ('gives = "drum"', 'gives = "front"'))
    made = built(game)
    twice = [(made.edition, about_of(made.folder, made.edition))] * 2
    ids = [one.id for one in checks.run(twice)]
    assert len(ids) == len(set(ids))


def test_what_is_shared_is_worked_out_for_each_edition_anew(tmp_path: Path) -> None:
    made = built(base(tmp_path))
    other = replace(made.edition, codes={**made.edition.codes, "front": ("9", "8", "9")})
    about = about_of(made.folder, made.edition)
    found = [checks.run([(edition, about)]) for edition in (made.edition, other)]
    assert found[0] != found[1]


def test_every_finding_can_be_said_and_has_its_place(tmp_path: Path) -> None:
    game = base(
        tmp_path,
        ('gives = "drum"', 'gives = "front"'),
        ("bell_to_bell = 75", "bell_to_bell = 45"),
        ('place = "chest"\nwins = true', 'place = "chest"'),
        ("The gardener is away.", "The gardener left in 1888."),
    )
    findings = built(game).findings
    assert len(findings) >= 5
    for finding in findings:
        for message in (finding.problem.what, finding.problem.remedy):
            said = words(message)
            assert not said.startswith(message.id)
            assert "{" not in said
        assert finding.problem.where.file in ("game.toml", "kit.toml", "room.toml")


def test_stops_come_first_and_consequences_after_causes(tmp_path: Path) -> None:
    findings = built(base(tmp_path, ('gives = "seal"', 'gives = "front"'))).findings
    ranks = [("stop", "fix", "note").index(one.severity) for one in findings]
    assert ranks == sorted(ranks)
    stops = [one for one in findings if one.severity == "stop"]
    assert [one.because is not None for one in stops] == sorted(
        one.because is not None for one in stops
    )

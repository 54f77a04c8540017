"""The whole flow: from a folder to print-outs, the same every time, each step in its place."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pypdfium2
import pytest

from boxwright.build import Asked, build, reopen
from boxwright.build.printing import printed
from boxwright.choose import store
from boxwright.choose.chance import Chance
from boxwright.choose.edition import edition_from_json, edition_json
from boxwright.game.arrange import Wishes
from boxwright.messages import words
from boxwright.problems import Refused
from boxwright.puzzles.shelf import kind
from boxwright.records import from_json
from tests.games import DEMO, built, demo


@pytest.mark.parametrize("arrangement", [None, "gentle", "brisk"])
def test_the_demo_game_is_clean_and_prints_in_every_arrangement(arrangement: str | None) -> None:
    made = build(Asked(DEMO, Wishes(arrangement=arrangement)))
    assert [one for one in made.findings if one.severity != "note"] == []
    assert {(one.name, one.reader, one.sheets) for one in printed(made)} >= {
        ("sheets", "teacher", 2),
        ("sheets-start", "pupils", 1),
        ("sheets-in-case", "pupils", 1),
        ("key", "teacher", 0),
        ("set-up", "teacher", 0),
    }


def test_every_sheet_leads_to_the_code_of_its_lock_and_to_nothing_else() -> None:
    edition = built(DEMO).edition
    assert edition.codes.keys() == {"sluice", "water"}
    for clue, kept in edition.sheets.items():
        made = kind(kept.kind)
        sheet: Any = from_json(made.Sheet, json.loads(json.dumps(kept.sheet)))
        solutions = list(made.solve(sheet, from_json(made.Knows, kept.knows)))
        code = edition.codes[edition.game.clues[clue].gives]
        assert [one.answer.symbols for one in solutions] == [code]


def test_the_same_seed_gives_the_same_bytes() -> None:
    one, other = (build(Asked(DEMO)) for _ in range(2))
    assert one.edition == other.edition
    assert [out.pdf for out in printed(one)] == [out.pdf for out in printed(other)]


def test_another_seed_gives_other_codes() -> None:
    seeds = [build(Asked(DEMO, chance=Chance(seed))).edition.codes["sluice"] for seed in range(4)]
    assert len(set(seeds)) > 1


def test_throwing_one_sheet_anew_changes_no_other() -> None:
    first = built(DEMO).edition
    again = build(Asked(DEMO, chance=Chance(1, throws={"sail-cloth": 1}))).edition
    assert again.sheets["sail-cloth"].sheet != first.sheets["sail-cloth"].sheet
    assert again.sheets["flour-stamp"] == first.sheets["flour-stamp"]
    assert again.codes == first.codes


def test_one_clue_more_changes_no_other_sheet(tmp_path: Path) -> None:
    more = (
        "[arrangements.gentle]",
        '[clues.extra]\ngives = "sluice"\n\n[clues.extra.versions.one]\nkind = "nonogram"\n\n'
        + "[arrangements.gentle]",
    )
    before, after = built(DEMO).edition, built(demo(tmp_path, more)).edition
    assert {id: after.sheets[id].sheet for id in before.sheets} == {
        id: one.sheet for id, one in before.sheets.items()
    }


def test_an_edition_reads_back_from_its_json() -> None:
    edition = built(DEMO).edition
    assert edition_from_json(json.loads(json.dumps(edition_json(edition)))) == edition


def test_stickers_pair_the_game_with_the_shelf() -> None:
    assert built(DEMO).edition.stickers["1"] == {
        "case": "B1",
        "chest": "B2",
        "sluice": "N1",
        "water": "W1",
        "latch": "K1",
        "brass-key": "Y1",
    }


def test_without_a_kit_locks_are_what_the_game_wants(tmp_path: Path) -> None:
    game = demo(tmp_path)
    (game / "kit.toml").unlink()
    made = built(game)
    assert made.edition.stickers == {"1": {}}
    assert [one.problem.code for one in made.findings] == ["kit.none"]


def test_what_the_shelf_lacks_goes_without_a_sticker(tmp_path: Path) -> None:
    game = demo(tmp_path, ('wheels = 3\ncloses = "case"', 'wheels = 4\ncloses = "case"'))
    assert "sluice" not in built(game).edition.stickers["1"]


def test_a_misspelt_kind_and_a_bad_code_are_told_together(tmp_path: Path) -> None:
    game = demo(
        tmp_path,
        ('level = "easier"\nkind = "nonogram"', 'level = "easier"\nkind = "nonogramm"'),
        ('wheels = 3\ncloses = "case"\ncode = "auto"', 'wheels = 3\ncloses = "case"\ncode = "4x7"'),
    )
    with pytest.raises(Refused) as refused:
        built(game)
    codes = {problem.code for problem in refused.value.problems}
    assert "kind.unknown-near" in codes
    assert any(code.startswith("mechanism.") for code in codes)
    assert all(problem.where.line for problem in refused.value.problems)


def test_a_misspelt_option_of_a_kind_has_its_line_and_the_nearest_name(tmp_path: Path) -> None:
    old = 'level = "easier"\nkind = "nonogram"'
    game = demo(tmp_path, (old, f'{old}\noptions = {{ grond = "hills" }}'))
    with pytest.raises(Refused) as refused:
        built(game)
    (problem,) = refused.value.problems
    assert problem.where.path[-2:] == ("options", "grond")
    assert problem.where.line
    assert problem.what.args["near"] == "ground"


def test_a_code_that_no_sheet_can_carry_is_refused_in_its_place(tmp_path: Path) -> None:
    game = demo(
        tmp_path,
        ('wheels = 3\ncloses = "case"', 'wheels = 5\ncloses = "case"'),
    )
    demo(
        tmp_path,
        (
            '[models.three-numbers]\nmechanism = "number-wheels"\nwheels = 3',
            '[models.three-numbers]\nmechanism = "number-wheels"\nwheels = 5',
        ),
        ('shelf_code = "000"\n\n[locks.N2]', 'shelf_code = "00000"\n\n[locks.N2]'),
        ('shelf_code = "000"\nfaults', 'shelf_code = "00000"\nfaults'),
        file="kit.toml",
    )
    with pytest.raises(Refused) as refused:
        built(game)
    (problem,) = refused.value.problems
    assert problem.code in {"kind.none-carries-lock", "kind.cannot-carry-lock"}
    assert problem.where.path == ("clues", "flour-stamp", "versions", "small", "kind")
    # The code was drawn, so the lock is told of, which the teacher chose.
    assert "a lock with number wheels, and its codes have 5 symbols" in words(problem.what)


def test_a_given_code_that_its_sheet_cannot_carry_is_told_itself(tmp_path: Path) -> None:
    game = demo(
        tmp_path,
        ('wheels = 3\ncloses = "case"', 'wheels = 5\ncloses = "case"'),
        ('code = "auto"', 'code = "40718"'),
    )
    (game / "kit.toml").unlink()
    with pytest.raises(Refused) as refused:
        built(game)
    (problem,) = refused.value.problems
    assert problem.code in {"kind.none-carries", "kind.cannot-carry"}
    assert "4 0 7 1 8" in words(problem.what)


def test_braces_and_percent_signs_of_the_teachers_are_printed_as_they_stand(
    tmp_path: Path,
) -> None:
    odd = "{} {0} 100 % %s"
    game = demo(
        tmp_path,
        ('title = "The Tide Mill"', f'title = "Mill {odd}"'),
        ("What do her notes say?", f"What? {odd}"),
        ('name = "the grain chest"', f'name = "a chest {odd}"'),
        ("how did you know?", f"how? {odd}"),
    )
    outs = printed(build(Asked(game)))
    pages = [page for one in outs for page in pypdfium2.PdfDocument(one.pdf)]
    text = " ".join(" ".join(page.get_textpage().get_text_range() for page in pages).split())
    for start in ("Mill", "What?", "a chest", "how?"):
        assert f"{start} {odd}" in text


class TestEditionsOnDisk:
    def test_a_saved_edition_opens_again_and_prints_the_same(self, tmp_path: Path) -> None:
        game = demo(tmp_path)
        made = build(Asked(game))
        (file,) = store.save(made.folder, made.editions, Wishes(), {}).files(made.folder.path)
        again = reopen([file])
        assert again.edition == made.edition
        assert [one.pdf for one in printed(again)] == [one.pdf for one in printed(made)]

    def test_the_current_one_is_known_and_a_change_since_is_noticed(self, tmp_path: Path) -> None:
        game = demo(tmp_path)
        made = built(game)
        store.save(made.folder, made.editions, Wishes(), {})
        current = store.current(game)
        assert current is not None
        assert current.editions == (made.edition.id,)
        assert current.made_of == store.made_of(made.folder)
        demo(tmp_path, ("The Tide Mill", "The Old Tide Mill"))
        assert store.made_of(built(game).folder) != current.made_of

    def test_an_edition_changed_by_hand_is_refused(self, tmp_path: Path) -> None:
        made = built(demo(tmp_path))
        (file,) = store.save(made.folder, made.editions, Wishes(), {}).files(made.folder.path)
        value = json.loads(file.read_text(encoding="utf-8"))
        value["codes"]["sluice"] = ["1", "2", "3"]
        file.write_text(json.dumps(value), encoding="utf-8")
        with pytest.raises(Refused) as refused:
            store.load(file)
        assert refused.value.problems[0].code == "edition.changed"

    @pytest.mark.parametrize("text", ["", "{", "[]", "{}", '{"format": 1}', "null"])
    def test_what_is_no_edition_is_refused(self, tmp_path: Path, text: str) -> None:
        file = tmp_path / "x.json"
        file.write_text(text, encoding="utf-8")
        with pytest.raises(Refused) as refused:
            store.load(file)
        assert refused.value.problems[0].code == "edition.damaged"

    def test_an_id_follows_from_the_content(self) -> None:
        edition = built(DEMO).edition
        assert edition.id != build(Asked(DEMO, chance=Chance(2))).edition.id
        assert replace(edition, id="") != edition


class TestASheetOnASheet:
    """A clue whose sheet is drawn on another's gets a code that the other leaves room for."""

    ON_ANOTHER = (
        "[clues.sail-cloth]",
        '[locks.gauge]\nmechanism = "number-wheels"\nwheels = 3\ncloses = "chest"\n'
        + "code = CODE\n\n"
        + '[clues.sacks]\ngives = "gauge"\n\n[clues.sacks.versions.one]\n'
        + 'kind = "unseen-ink"\non = "host"\n\n'
        + '[clues.host]\ngives = "sluice"\n\n[clues.host.versions.one]\n'
        + 'kind = "count-sheet"\nlevel = "hardest"\n\n[clues.sail-cloth]',
    )

    def game(self, folder: Path, code: str) -> Path:
        old, new = self.ON_ANOTHER
        return demo(folder, (old, new.replace("CODE", code)))

    @pytest.mark.parametrize("seed", range(6))
    def test_its_code_is_drawn_until_the_other_can_carry_it(
        self, tmp_path: Path, seed: int
    ) -> None:
        made = build(Asked(self.game(tmp_path, '"auto"'), chance=Chance(seed)))
        assert "gauge" in made.edition.codes
        assert "sacks" in made.edition.sheets

    def test_a_given_code_that_it_cannot_carry_is_refused_in_its_place(
        self, tmp_path: Path
    ) -> None:
        with pytest.raises(Refused) as refused:
            build(Asked(self.game(tmp_path, '"999"')))
        assert refused.value.problems[0].where.path[:2] == ("clues", "sacks")


def test_a_wished_length_is_drawn_on_a_lock_that_takes_any(tmp_path: Path) -> None:
    race = (
        '[locks.race]\nmechanism = "direction"\nlength = [6, 7]\ncloses = "chest"\n\n'
        + '[clues.run]\ngives = "race"\n\n[clues.run.versions.one]\nkind = "route-map"\n\n'
        + "[clues.sail-cloth]"
    )
    game = demo(tmp_path, ("[clues.sail-cloth]", race))
    demo(
        tmp_path,
        ("[locks.K1]", '[locks.D1]\nmechanism = "direction"\nlength = [1, 12]\n\n[locks.K1]'),
        file="kit.toml",
    )
    made = built(game)
    assert made.edition.stickers["1"]["race"] == "D1"
    assert len(made.edition.codes["race"]) in (6, 7)

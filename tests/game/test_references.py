"""Every name in the three files exists, is of the right sort, and means one thing."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from boxwright.game.folder import Folder, read_game
from boxwright.messages import words
from boxwright.problems import Problem

Changed = Callable[..., Path]


def found(folder: Path) -> tuple[Problem, ...]:
    outcome = read_game(folder)
    return () if isinstance(outcome, Folder) else outcome


GAME = [
    ('closes = "safe"', 'closes = "hatch"', "wrong-thing"),
    ('closes = "safe"', 'closes = "zzz"', "unknown-name"),
    ('opened_by = "brass-key"', 'opened_by = "brass-kee"', "unknown-name-but"),
    ('opened_by = "brass-key"\n', "\n", "key-lock-alone"),
    ('closes = "safe"', 'closes = "safe"\nopened_by = "brass-key"', "no-key-lock"),
    ('gives = "hatch"', 'gives = "latch"', "gives-key-lock"),
    ('gives = "hatch"', 'gives = "trunk"', "wrong-thing"),
    ('gives = "hatch"', 'gives = "hutch"', "unknown-name-but"),
    ('goals = ["scales"]', 'goals = ["zzz"]', "unknown-name"),
    ('goal = "fibre"', 'goal = "fiber"', "unknown-name-but"),
    ('place = "shelf"', 'place = "shelv"', "unknown-name-but"),
    ('place = "shelf"', 'place = "hatch"', "wrong-thing"),
    ('place = "shelf"', 'place = ["hatch", "shelf"]', "wrong-thing"),
    ('place = "shelf"', 'place = "any  shelf!"', "odd-wish"),
    ('place = "shelf"', "place = []", "no-wish"),
    ('parts = { key = "window-sill" }', 'parts = { key = "window-sil" }', "unknown-name-but"),
    ('needs = ["torch"]', 'needs = ["pouch"]', "wrong-thing"),
    ('adds = ["pouch", "torch"]', 'adds = ["pouch", "torch", "trunk"]', "adds-present"),
    ('adds = ["pouch", "torch"]', 'adds = ["pouch", "torch", "zzz"]', "unknown-name"),
    ('needs = ["torch"]', 'drops = ["sheaves"]', "drops-itself"),
    ('needs = ["torch"]', 'drops = ["torch"]', "adds-and-drops"),
    ('needs = ["torch"]', 'drops = ["zzz"]', "unknown-name"),
    ('moves = { wind = "pouch" }', 'moves = { wnd = "pouch" }', "unknown-name-but"),
    ('moves = { wind = "pouch" }', 'moves = { wind = "shelf" }', "wrong-thing"),
    ('moves = { wind = "pouch" }', 'moves = { sheaves = "pouch" }', "wrong-thing"),
    ('moves = { wind = "pouch" }', 'moves = { pouch = "pouch" }', "moves-into-itself"),
    ('needs = ["torch"]', 'needs = ["torch"]\non = "sheaves"', "on-itself"),
    ('needs = ["torch"]', 'needs = ["torch"]\non = "torch"', "wrong-thing"),
    ('when = "pouch"', 'when = "puch"', "unknown-name-but"),
    ("{trunk}.", "{trnk}.", "unknown-name-but"),
    ("{trunk}.", "{hatch}.", "nameless"),
    ("{trunk}.", "{trunk.", "stray-brace"),
    ("{trunk}.", "trunk}.", "stray-brace"),
    ("{brass-key}?", "{brass key}?", "unknown-name-but"),
    ("near {brass-key}", "near {brass_key}", "unknown-name-but"),
    ('versions = { sheaves = "daylight" }', 'versions = { zzz = "daylight" }', "unknown-name"),
    ('versions = { sheaves = "daylight" }', 'versions = { sheaves = "zzz" }', "unknown-version"),
    ("ages = [9, 11]", "ages = [11, 9]", "range-order"),
    ("length = [4, 4]", "length = [5, 4]", "range-order"),
    ("bell_to_bell = 45", "bell_to_bell = 20", "no-time-to-play"),
    ("[items.torch]", "[items.safe]", "id-twice"),
    ("[items.torch]", "[items.shelf]", "id-of-room"),
    ("[items.torch]", "[items.start]", "reserved"),
]


@pytest.mark.parametrize(("old", "new", "code"), GAME)
def test_a_name_in_the_game_that_cannot_be_is_told(
    changed: Changed, old: str, new: str, code: str
) -> None:
    folder = changed((old, new))
    told = [one for one in found(folder) if one.code == f"game.{code}"]
    assert told, [words(one.what) for one in found(folder)]
    assert all(one.where.file == "game.toml" and one.where.line for one in told)


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ('model = "three-numbers"', 'model = "three-number"', "no-model-but"),
        ('model = "three-numbers"', 'model = "zzz"', "no-model"),
        ('mechanism = "letter-wheels"', "", "no-mechanism"),
        ('own_lock = "P1"', 'own_lock = "Q77"', "no-lock"),
        ('own_lock = "P1"', 'own_lock = "P11"', "no-lock-but"),
        ("hasp_holes = 3", 'own_lock = "P1"', "own-lock-twice"),
        ("[tools.U1]", "[tools.B1]", "tag-twice"),
        ('opens = ["K1"]', 'opens = ["N1"]', "key-for-no-key-lock"),
        ('opens = ["K1"]', 'opens = ["K1", "K9"]', "no-lock"),
        ("fixed = true", "fixed = false", "code-not-fixed"),
        ('code = "12-33-5"', "", "fixed-without-code"),
    ],
)
def test_a_name_in_the_kit_that_cannot_be_is_told(
    changed: Changed, old: str, new: str, code: str
) -> None:
    folder = changed((old, new), file="kit.toml")
    assert [(one.code, one.where.file) for one in found(folder)] == [(f"kit.{code}", "kit.toml")]


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("[4500, 6900]", "[4500, 7001]", "off-plan"),
        ("plan_mm = [9000, 7000]", "", "no-plan"),
        ('say = "SHELF"', 'say = "Sill"', "say-twice"),
        ("[places.window-sill]", "[places.start]", "reserved"),
    ],
)
def test_a_place_that_cannot_be_is_told(changed: Changed, old: str, new: str, code: str) -> None:
    folder = changed((old, new), file="room.toml")
    assert f"room.{code}" in {one.code for one in found(folder)}


@pytest.mark.parametrize("at", ["[9000, 7000]", "[0, 0]"])
def test_a_place_on_the_edge_of_the_plan_is_on_it(changed: Changed, at: str) -> None:
    assert found(changed(("[4500, 6900]", at), file="room.toml")) == ()


@pytest.mark.parametrize("text", ["{}", "{0}", "%s and 100 %", ":-}", "{ }", "{x!r}"])
def test_braces_and_percent_signs_are_text(changed: Changed, text: str) -> None:
    assert found(changed(("{brass-key}?", f"{text}?"))) == ()


def test_places_of_other_rooms_pass_where_another_wish_follows(changed: Changed) -> None:
    assert found(changed(('place = "shelf"', 'place = ["library-desk", "shelf"]'))) == ()


def test_without_a_room_any_place_may_be(changed: Changed) -> None:
    folder = changed(('place = "shelf"', 'place = "somewhere"'))
    (folder / "room.toml").unlink()
    assert found(folder) == ()


def test_a_version_for_another_room_may_name_its_places(changed: Changed) -> None:
    folder = changed(('content = "books.csv"\nplace = "start"', 'place = "catalogue-desk"'))
    assert found(folder) == ()


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("../crew.csv", "outside"),
        ("/etc/hostname", "outside"),
        ("a/../../x.csv", "outside"),
        ("~/x.csv", "outside"),
        ("..\\\\crew.csv", "file-name"),
        ("C:\\\\x.csv", "file-name"),
        ("C:x.csv", "file-name"),
        ("a\\u0000.csv", "file-name"),
        ("", "file-name"),
        ("./crew.csv", "folder-in-front"),
        ("content/crew.csv", "folder-in-front"),
        ("content\\\\crew.csv", "folder-in-front"),
        ("content/zzz.csv", "no-such-file"),
        ("crew", "no-such-file-but"),
        ("crew.xlsx", "no-such-file-but"),
        ("crew.csv.", "file-name"),
        ("x" * 300, "file-name"),
        ("Crew.csv", "no-such-file-but"),
        ("crw.csv", "no-such-file-but"),
        ("zzzzzz", "no-such-file"),
    ],
)
def test_content_stays_inside_its_folder(changed: Changed, name: str, code: str) -> None:
    folder = changed(('content = "crew.csv"', f'content = "{name}"'))
    assert f"folder.{code}" in {one.code for one in found(folder)}


def test_content_named_with_its_folder_is_told_as_it_should_be(changed: Changed) -> None:
    (one,) = found(changed(('content = "crew.csv"', 'content = "content/crew.csv"')))
    assert words(one.remedy) == 'Write "crew.csv" instead.'
    assert found(changed(('content = "content/crew.csv"', 'content = "crew.csv"'))) == ()


def test_content_beside_its_folder_is_told_to_be_moved_in(sample: Path) -> None:
    (sample / "content" / "crew.csv").rename(sample / "crew.csv")
    (one,) = found(sample)
    assert one.code == "folder.beside"
    assert words(one.remedy) == "Move crew.csv into content/"
    (sample / "crew.csv").rename(sample / "content" / "crew.csv")
    assert found(sample) == ()


def test_content_that_links_out_of_the_folder_is_refused(sample: Path, tmp_path: Path) -> None:
    elsewhere = (sample / "content" / "crew.csv").rename(tmp_path / "crew.csv")
    (sample / "content" / "crew.csv").symlink_to(elsewhere)
    assert [one.code for one in found(sample)] == ["folder.outside"]


def test_content_in_a_folder_of_content_is_found(changed: Changed) -> None:
    folder = changed(('content = "crew.csv"', 'content = "people/crew.csv"'))
    (folder / "content" / "people").mkdir()
    (folder / "content" / "crew.csv").rename(folder / "content" / "people" / "crew.csv")
    assert found(folder) == ()


def test_another_units_check_runs_with_the_rest(changed: Changed) -> None:
    from collections.abc import Iterator

    from boxwright.game.draft import Draft

    def codes(draft: Draft) -> Iterator[Problem]:
        for id in draft.game.locks:
            yield Problem.of("game.reserved", draft.where("game.toml", ("locks", id, "code")))

    folder = changed(("ages = [9, 11]", "ages = [11, 9]"))
    outcome = read_game(folder, also=[codes])
    assert not isinstance(outcome, Folder)
    assert [one.code for one in outcome] == ["game.range-order", *["game.reserved"] * 4]

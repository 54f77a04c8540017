"""Which printed set the commands take: none that is out of date, damaged, or somewhere else."""

from __future__ import annotations

import errno
import json
import shlex
from pathlib import Path

import pytest

from boxwright.build.current import current_editions
from tests.cli.conftest import Run
from tests.games import demo

STOPS = ('code = "one of EBB OAR MUD"', 'code = "FOX"')


def edition_of(game: Path) -> Path:
    """Return the file of the current printed set."""
    current = json.loads((game / "editions" / "current.json").read_text(encoding="utf-8"))
    return game / "editions" / f"{current['editions'][0]}.json"


def follow(run: Run, err: str) -> object:
    """Type the command that stands at the end of what was said, and return how it ended."""
    program, *words = shlex.split(err.strip().splitlines()[-1].rpartition("boxwright")[2])
    return run(program, *words).code


@pytest.fixture
def game(tmp_path: Path, run: Run) -> Path:
    """Return a game with a printed set."""
    game = demo(tmp_path)
    run("build", game, "--seed", "3")
    return game


class TestChangedSince:
    def test_check_judges_the_game_as_it_is_now(self, run: Run, game: Path, tmp_path: Path) -> None:
        demo(tmp_path, STOPS)
        shown = run("check", game, "--json")
        assert shown.code == 1
        assert [one["code"] for one in shown.json["findings"]] == ["lock.cannot-show"]
        assert shown.json["kept"] is False
        assert len(shown.err.splitlines()) == 1

    def test_check_keeps_the_seed_and_the_wishes(
        self, run: Run, game: Path, tmp_path: Path
    ) -> None:
        run("build", game, "--clue", "flour-stamp=large", "--again", "flour-stamp", "--groups", "1")
        demo(tmp_path, ("half an hour", "an hour"))
        checked = run("check", game, "--json")
        assert checked.json["of"]["seed"] == 3
        assert follow(run, checked.err) == 0
        assert edition_of(game).stem == checked.json["of"]["editions"][0]

    def test_check_writes_nothing(self, run: Run, game: Path, tmp_path: Path) -> None:
        demo(tmp_path, ("half an hour", "an hour"))
        before = {one: one.read_bytes() for one in (game / "editions").iterdir()}
        run("check", game)
        assert {one: one.read_bytes() for one in (game / "editions").iterdir()} == before

    def test_check_says_why_it_cannot_be_made_any_more(
        self, run: Run, game: Path, tmp_path: Path
    ) -> None:
        demo(tmp_path, ('code = "one of EBB OAR MUD"', 'code = "EBBX"'))
        assert run("check", game).refused("game.toml:")

    def test_print_refuses_and_its_remedy_works(self, run: Run, game: Path, tmp_path: Path) -> None:
        demo(tmp_path, ("half an hour", "an hour"))
        shown = run("print", game, "--out", tmp_path / "out")
        assert shown.refused("has changed since", "boxwright build")
        assert not (tmp_path / "out").exists()
        assert follow(run, shown.err) == 0
        assert run("print", game, "--out", tmp_path / "out").code == 0

    def test_the_remedy_names_the_wishes_and_the_kit(
        self, run: Run, game: Path, tmp_path: Path
    ) -> None:
        kit = tmp_path / "other kit.toml"
        kit.write_bytes((game / "kit.toml").read_bytes())
        run("build", game, "--kit", kit, "--level", "easier", "--clue", "flour-stamp=large")
        demo(tmp_path, ("half an hour", "an hour"))
        shown = run("print", game, "--out", tmp_path / "out")
        assert shown.refused("--level easier", f"--kit '{kit}'", "--clue flour-stamp=large")
        assert follow(run, shown.err) == 0
        assert run("print", game, "--out", tmp_path / "out").code == 0

    def test_the_remedy_names_the_level_of_each_group(
        self, run: Run, game: Path, tmp_path: Path
    ) -> None:
        [ordinary] = current_editions(game)
        run("build", game, "--level-of", "1=easier")
        [easier] = current_editions(game)
        assert easier.sheets != ordinary.sheets
        demo(tmp_path, ("half an hour", "an hour"))
        shown = run("print", game, "--out", tmp_path / "out")
        assert shown.refused("--level-of 1=easier")
        assert follow(run, shown.err) == 0
        [again] = current_editions(game)
        assert again.sheets == easier.sheets

    def test_a_printed_set_named_outright_is_printed_as_it_is(
        self, run: Run, game: Path, tmp_path: Path
    ) -> None:
        demo(tmp_path, ("half an hour", "an hour"))
        assert run("print", edition_of(game), "--out", tmp_path / "out").code == 0


class TestDamaged:
    @pytest.fixture(
        params=[
            "",
            "{",
            "[]",
            "{}",
            "[" * 100_000,
            "changed",
            "newer",
            "NaN",
            '"\\ud800"',
        ]
    )
    def damaged(self, request: pytest.FixtureRequest, game: Path) -> Path:
        """Return the file of the current printed set, no longer as it was written."""
        file, text = edition_of(game), request.param
        if text == "changed":
            value = json.loads(file.read_text(encoding="utf-8"))
            text = json.dumps(value | {"seed": 4})
        if text in ("NaN", '"\\ud800"'):
            # Python's JSON reads both, though they cannot be written as the file was.
            text = file.read_text(encoding="utf-8").replace(
                '"knows": {}', f'"knows": {{"x": {text}}}'
            )
        if text == "newer":
            from boxwright.text import content_id

            value = json.loads(file.read_text(encoding="utf-8")) | {"format": 99}
            del value["id"]
            text = json.dumps(value | {"id": content_id(value)})
        file.write_text(text, encoding="utf-8")
        return file

    def test_build_goes_on_and_says_that_the_seed_is_new(
        self, run: Run, damaged: Path, game: Path
    ) -> None:
        shown = run("build", game)
        assert shown.code == 0
        assert damaged.name in shown.err
        assert "new seed" in shown.err
        assert run("check", game).code == 0

    @pytest.mark.parametrize("command", ["check", "print"])
    def test_check_and_print_say_so_and_the_remedy_works(
        self, run: Run, damaged: Path, game: Path, command: str, tmp_path: Path
    ) -> None:
        more = ("--out", tmp_path / "out") if command == "print" else ()
        assert run(command, damaged, *more).refused(damaged.name, "boxwright build")
        shown = run(command, game, *more)
        assert shown.refused(damaged.name, "boxwright build")
        assert follow(run, shown.err) == 0
        assert run(command, game, *more).code == 0

    @pytest.mark.parametrize("text", ["{", "{}", "[]"])
    def test_a_damaged_note_of_the_current_set_is_no_bar_to_build(
        self, run: Run, game: Path, text: str
    ) -> None:
        (game / "editions" / "current.json").write_text(text, encoding="utf-8")
        assert run("check", game).refused("current.json", "boxwright build")
        assert "new seed" in run("build", game).err
        assert run("check", game).code == 0

    def test_a_set_that_is_gone_is_made_anew_and_told(self, run: Run, game: Path) -> None:
        edition_of(game).unlink()
        shown = run("check", game)
        assert shown.code == 0
        assert "is gone" in shown.err

    def test_throwing_a_sheet_of_a_damaged_set_again_is_refused(self, run: Run, game: Path) -> None:
        edition_of(game).write_text("{", encoding="utf-8")
        shown = run("build", game, "--again", "flour-stamp")
        assert shown.refused("boxwright build")
        assert "new seed" not in shown.err


class TestUnwritable:
    @pytest.mark.parametrize("command", ["build", "check", "print"])
    def test_a_file_in_the_place_of_the_folder_is_told(
        self, run: Run, tmp_path: Path, command: str
    ) -> None:
        game = demo(tmp_path)
        (game / "editions").write_text("mine", encoding="utf-8")
        assert run(command, game).refused(str(game / "editions"), "is a file")

    @pytest.mark.parametrize("command", ["build", "check", "print"])
    def test_a_folder_that_may_not_be_written_is_told(
        self, run: Run, tmp_path: Path, command: str, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        def barred(self: Path, *_: object, **__: object) -> int:
            raise PermissionError(errno.EACCES, "Permission denied", str(self))

        game = demo(tmp_path)
        monkeypatch.setattr(Path, "write_text", barred)
        assert run(command, game).refused(str(game / "editions"), "Permission denied")

    def test_a_folder_that_cannot_be_made_is_told(
        self, run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        def barred(self: Path, *_: object, **__: object) -> None:
            raise PermissionError(errno.EACCES, "Permission denied", str(self))

        game = demo(tmp_path)
        monkeypatch.setattr(Path, "mkdir", barred)
        assert run("build", game).refused(str(game / "editions"), "Permission denied")

    def test_a_failed_write_leaves_no_half_file(self, run: Run, tmp_path: Path) -> None:
        game = demo(tmp_path)
        (game / "editions" / "current.json").mkdir(parents=True)
        assert run("build", game).refused("current.json")
        assert list((game / "editions").glob("*.tmp")) == []


class TestNoGame:
    @pytest.mark.parametrize("command", ["build", "check", "print"])
    def test_an_empty_folder_is_offered_a_new_game(
        self, run: Run, tmp_path: Path, command: str
    ) -> None:
        game = tmp_path / "my game"
        game.mkdir()
        shown = run(command, game)
        assert shown.refused("empty", "boxwright new")
        assert follow(run, shown.err) == 0
        assert run("build", game).code == 0

    @pytest.mark.parametrize("command", ["build", "check", "print"])
    def test_a_folder_with_a_kit_alone_is_told_what_it_lacks(
        self, run: Run, tmp_path: Path, command: str
    ) -> None:
        (tmp_path / "kit.toml").write_text("", encoding="utf-8")
        assert run(command, tmp_path).refused("game.toml", "kit.toml", "boxwright new")

    @pytest.mark.parametrize("command", ["build", "check"])
    def test_the_folder_above_is_sent_to_the_game(self, run: Run, game: Path, command: str) -> None:
        shown = run(command, game.parent)
        assert shown.refused(f"boxwright {command} {game}")
        assert follow(run, shown.err) == 0

    @pytest.mark.parametrize("name", ["game.toml", "kit.toml", "editions/current.json"])
    @pytest.mark.parametrize("command", ["build", "check"])
    def test_a_file_of_the_game_is_sent_to_its_folder(
        self, run: Run, game: Path, name: str, command: str
    ) -> None:
        shown = run(command, game / name)
        assert shown.refused(f"boxwright {command} {game}")
        assert follow(run, shown.err) == 0

    def test_a_file_of_another_sort_is_told_what_was_expected(
        self, run: Run, tmp_path: Path
    ) -> None:
        file = tmp_path / "notes.txt"
        file.write_text("x", encoding="utf-8")
        assert run("check", file).refused("no printed set", "game.toml")
        assert run("build", file).refused("game.toml")

    def test_a_printed_set_away_from_its_game_is_told_where_it_belongs(
        self, run: Run, game: Path, tmp_path: Path
    ) -> None:
        (tmp_path / "away").mkdir()
        file = tmp_path / "away" / "x.json"
        file.write_bytes(edition_of(game).read_bytes())
        assert run("check", file).refused("editions")


class TestStops:
    @pytest.mark.parametrize("command", ["build", "print"])
    def test_a_stop_is_said_last_with_what_to_type(
        self, run: Run, tmp_path: Path, command: str
    ) -> None:
        folder = tmp_path / "two words"
        folder.mkdir()
        game = demo(folder, STOPS)
        more = ("--out", tmp_path / "out") if command == "print" else ()
        shown = run(command, game, *more)
        assert shown.code == 1
        last = shown.err.splitlines()[-1]
        assert "1 finding stops this game" in last
        assert follow(run, last) == 1

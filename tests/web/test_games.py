"""The page of all games: what is there, a new one, a copy of the example."""

from __future__ import annotations

from pathlib import Path

from boxwright.game.folder import Folder, read_game
from boxwright.web.studio import Studio
from tests.web.serving import client, studio_in

PAGE = {"Accept": "text/html"}


def test_a_game_is_shown_with_its_title(studio: Studio) -> None:
    answer = client(studio).get("/games", headers=PAGE)
    assert answer.status_code == 200
    assert "The Tide Mill" in answer.text
    assert "/games/tide-mill/boxes" in answer.text


def test_an_empty_shelf_says_how_to_begin(tmp_path: Path) -> None:
    answer = client(studio_in(tmp_path, example=None)).get("/games", headers=PAGE)
    assert "No game is here yet" in answer.text


def test_a_game_with_faults_is_shown_and_says_how_many(studio: Studio) -> None:
    (studio.games / "tide-mill" / "game.toml").write_text("format = 1\n[gane]\n", "utf-8")
    answer = client(studio).get("/games", headers=PAGE)
    assert answer.status_code == 200
    assert "in its files" in answer.text


def test_a_title_in_markup_is_text(studio: Studio) -> None:
    file = studio.games / "tide-mill" / "game.toml"
    text = file.read_text("utf-8")
    file.write_text(text.replace('"The Tide Mill"', '"<b>Tide</b>"'), "utf-8")
    answer = client(studio).get("/games", headers=PAGE)
    assert "&lt;b&gt;Tide&lt;/b&gt;" in answer.text
    assert "<b>Tide" not in answer.text


def test_a_new_game_can_be_read_and_is_for_whom_was_said(studio: Studio) -> None:
    asked = {"title": "The Signal Box", "youngest": 10, "oldest": 12}
    answer = client(studio).post("/games", json=asked)
    assert answer.json() == {"next": "/games/the-signal-box/boxes"}
    made = read_game(studio.games / "the-signal-box")
    assert isinstance(made, Folder)
    assert (made.game.game.title, made.game.game.ages) == ("The Signal Box", (10, 12))


def test_two_games_of_one_title_stand_beside_each_other(studio: Studio) -> None:
    posts = [client(studio).post("/games", json={"title": "Twin"}) for _ in range(2)]
    assert [one.json()["next"] for one in posts] == ["/games/twin/boxes", "/games/twin-2/boxes"]


def test_a_game_without_a_title_is_refused_in_words_of_the_page(studio: Studio) -> None:
    answer = client(studio).post("/games", json={"title": "  "})
    assert answer.status_code == 422
    assert "--title" not in answer.text
    assert studio.names() == ("tide-mill",)


def test_a_copy_of_the_example_is_a_game_of_its_own(studio: Studio) -> None:
    (studio.games / "tide-mill" / "editions").mkdir()
    answer = client(studio).post("/games/copy", json={"of": "tide-mill"})
    assert answer.json() == {"next": "/games/tide-mill-2/boxes"}
    assert isinstance(read_game(studio.games / "tide-mill-2"), Folder)


def test_what_is_no_game_cannot_be_opened(studio: Studio) -> None:
    (studio.games / "notes").mkdir()
    (studio.games.parent / "outside").mkdir()
    (studio.games.parent / "outside" / "game.toml").write_text("format = 1", "utf-8")
    (studio.games / "led-away").symlink_to(studio.games.parent / "outside")
    for name in ("notes", "not-there", "..", "%2e%2e", "..%2foutside", "led-away", "%00"):
        answer = client(studio).get(f"/games/{name}/boxes", headers=PAGE)
        assert answer.status_code == 404, name
    assert studio.names() == ("tide-mill",)

"""The page of all games: what is there, a new one, a copy of the example."""

from __future__ import annotations

import io
import zipfile
from pathlib import Path

import pytest
from httpx2 import Response
from playwright.sync_api import FilePayload, Page

from boxwright.game.folder import Folder, read_game
from boxwright.game.owned import manifest
from boxwright.web.studio import Studio
from tests.web.serving import PAGE, client, studio_in


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


def test_a_title_that_names_a_device_somewhere_still_gets_a_folder(studio: Studio) -> None:
    # "con" is a device under Windows: no folder can have that name there.
    answer = client(studio).post("/games", json={"title": "Con"})
    assert answer.json() == {"next": "/games/con-game/boxes"}


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


# Handing on, copying, the bin.


def upload(studio: Studio, data: bytes) -> Response:
    return client(studio).post("/games/take-in", files={"file": ("handed-on.zip", data)})


def owned(folder: Path) -> dict[str, bytes]:
    return {name: (folder / name).read_bytes() for name in manifest(folder)}


def test_a_game_handed_on_is_the_same_where_it_is_taken_in(studio: Studio, tmp_path: Path) -> None:
    data = client(studio).get("/games/tide-mill/zip").content
    other = studio_in(tmp_path / "elsewhere", example=None)
    assert upload(other, data).json() == {"next": "/games/tide-mill/boxes"}
    assert owned(other.games / "tide-mill") == owned(studio.games / "tide-mill")


def test_one_of_the_same_name_is_taken_in_beside_the_first(studio: Studio) -> None:
    data = client(studio).get("/games/tide-mill/zip").content
    assert upload(studio, data).json() == {"next": "/games/tide-mill-2/boxes"}


def bad_zips() -> dict[str, bytes]:
    up = io.BytesIO()
    with zipfile.ZipFile(up, "w") as archive:
        archive.writestr("../game.toml", "format = 1")
    empty = io.BytesIO()
    zipfile.ZipFile(empty, "w").close()
    return {"no zip": b"PK?", "leads out": up.getvalue(), "empty": empty.getvalue(), "nothing": b""}


@pytest.mark.parametrize("case", bad_zips())
def test_a_bad_zip_changes_nothing_and_says_why(studio: Studio, case: str) -> None:
    before = sorted(studio.games.rglob("*"))
    answer = upload(studio, bad_zips()[case])
    assert answer.status_code == 422
    assert answer.json()["problems"][0]["remedy"]
    assert sorted(studio.games.rglob("*")) == before


def test_a_copy_of_a_game_begins_its_own_life(studio: Studio) -> None:
    (studio.games / "tide-mill" / "editions").mkdir()
    answer = client(studio).post("/games/tide-mill/copy")
    assert "tide-mill-2" in answer.json()["said"]
    assert owned(studio.games / "tide-mill-2") == owned(studio.games / "tide-mill")
    assert not (studio.games / "tide-mill-2" / "editions").exists()


def test_a_game_goes_into_the_bin_and_comes_back(studio: Studio) -> None:
    asking = client(studio)
    assert asking.post("/games/tide-mill/bin").status_code == 200
    assert asking.get("/games/tide-mill/now").status_code == 404
    page = asking.get("/games", headers=PAGE).text
    assert "In the bin: 1 game" in page
    assert asking.post("/games/back", json={"name": "tide-mill"}).status_code == 200
    assert studio.names() == ("tide-mill",)


@pytest.mark.parametrize("name", ["nobody", "..", "../tide-mill", ""])
def test_what_is_not_in_the_bin_is_not_brought_back(studio: Studio, name: str) -> None:
    assert client(studio).post("/games/back", json={"name": name}).status_code == 404


def zip_file(data: bytes) -> FilePayload:
    return FilePayload(name="handed-on.zip", mimeType="application/zip", buffer=data)


def test_in_the_browser_a_file_is_chosen_and_a_bad_one_is_told_in_place(
    address: str, tab: Page
) -> None:
    tab.goto(f"{address}/games")
    field = tab.get_by_label("Zip file")
    take = tab.get_by_role("button", name="Take it in")
    field.set_input_files(zip_file(b"no"))
    take.click()
    tab.get_by_role("alert").wait_for()
    field.set_input_files(zip_file(tab.request.get(f"{address}/games/tide-mill/zip").body()))
    take.click()
    tab.wait_for_url("**/games/tide-mill-2/boxes")

"""What goes wrong, for people: one page in plain words, or JSON for a script; no internals."""

from __future__ import annotations

import logging

import pytest
from fastapi.testclient import TestClient
from starlette.exceptions import HTTPException

from boxwright.problems import Problem, Where, refuse
from boxwright.web.app import make_app
from boxwright.web.errors import KNOWN
from boxwright.web.studio import Studio
from tests.web.serving import HERE, PAGE

SECRET = "what-only-we-may-see.py"


@pytest.fixture
def asking(studio: Studio) -> TestClient:
    """A client of a studio that has a few broken pages more."""
    app = make_app(studio, hosts=(HERE,))

    @app.get("/broken")
    def broken() -> None:
        raise RuntimeError(SECRET)

    @app.get("/status/{status}")
    def status(status: int) -> None:
        raise HTTPException(status, SECRET)

    @app.get("/refused/{code}")
    def refused(code: str) -> None:
        refuse(Problem.of(code, Where("game.toml", ("locks", "x"), 7), name="<b>x</b>", why="full"))

    @app.get("/number/{number}")
    def number(number: int) -> int:
        return number

    return TestClient(app, raise_server_exceptions=False)


def test_a_fault_of_ours_is_told_without_its_inside(
    asking: TestClient, caplog: pytest.LogCaptureFixture
) -> None:
    with caplog.at_level(logging.CRITICAL, logger="boxwright.web"):
        page, script = asking.get("/broken", headers=PAGE), asking.get("/broken")
    assert page.status_code == script.status_code == 500
    assert "Something went wrong on our side" in page.text
    assert script.json()["problems"][0]["remedy"]
    for answer in (page, script):
        assert SECRET not in answer.text
        assert "Traceback" not in answer.text
        assert "RuntimeError" not in answer.text


def test_a_fault_of_ours_is_in_the_log(
    asking: TestClient, caplog: pytest.LogCaptureFixture
) -> None:
    asking.get("/broken")
    assert SECRET in caplog.text


@pytest.mark.parametrize("status", [*KNOWN, 400, 418, 503])
def test_every_status_has_its_words_and_keeps_its_number(asking: TestClient, status: int) -> None:
    page = asking.get(f"/status/{status}", headers=PAGE)
    script = asking.get(f"/status/{status}")
    assert page.status_code == script.status_code == status
    assert "<h1>error." not in page.text
    assert not script.json()["problems"][0]["what"].startswith("error.")
    assert SECRET not in page.text + script.text


def test_what_is_refused_is_told_with_place_and_remedy(asking: TestClient) -> None:
    page = asking.get("/refused/edit.unwritable", headers=PAGE)
    assert page.status_code == 422
    assert "game.toml, line 7" in page.text
    assert "&lt;b&gt;x&lt;/b&gt;" in page.text
    assert "<b>x" not in page.text
    (problem,) = asking.get("/refused/edit.unwritable").json()["problems"]
    assert problem["code"] == "edit.unwritable"
    assert (problem["file"], problem["path"], problem["line"]) == ("game.toml", ["locks", "x"], 7)


def test_a_game_that_changed_meanwhile_has_a_status_of_its_own(asking: TestClient) -> None:
    assert asking.get("/refused/edit.changed-meanwhile").status_code == 412


def test_a_remedy_that_names_a_command_has_other_words_on_a_page(asking: TestClient) -> None:
    (problem,) = asking.get("/refused/edition.stale").json()["problems"]
    assert "boxwright" not in problem["remedy"]
    assert "Print-outs" in problem["remedy"]


def test_what_no_page_sends_is_told_by_its_field(asking: TestClient) -> None:
    (problem,) = asking.get("/number/many").json()["problems"]
    assert "number" in problem["what"]
    assert asking.get("/number/many", headers=PAGE).status_code == 422


@pytest.mark.parametrize(
    "address", ["/nothing", "/games/nothing/now", "/games/..%2f..%2fetc/now", "/static/nothing.css"]
)
def test_what_is_not_there_is_not_found(asking: TestClient, address: str) -> None:
    assert asking.get(address, headers=PAGE).status_code == 404


def test_the_error_page_leads_back_to_the_games(asking: TestClient) -> None:
    assert 'href="/games"' in asking.get("/nothing", headers=PAGE).text


@pytest.mark.parametrize("page", ["story", "times", "clues/flour-sacks"])
def test_a_game_with_faults_leads_to_where_they_are_mended(
    asking: TestClient, studio: Studio, page: str
) -> None:
    file = studio.games / "tide-mill" / "game.toml"
    file.write_text(
        file.read_text("utf-8").replace('place = "table"', 'place = "tabel"', 1), "utf-8"
    )
    answer = asking.get(f"/games/tide-mill/{page}", headers=PAGE)
    assert answer.url.path == "/games/tide-mill/boxes"
    assert answer.status_code == 200
    assert "tabel" in answer.text

"""Commands as pages send them: JSON as it is, judged in a teacher's words."""

from __future__ import annotations

from typing import Any

from fastapi.testclient import TestClient
from httpx2 import Response

from boxwright.web.studio import Studio
from tests.web.serving import tagged

GAME = "/games/tide-mill"


def do(asking: TestClient, command: str, /, **args: Any) -> Response:
    return asking.post(f"{GAME}/do/{command}", json=args, headers=tagged(asking))


def test_lists_of_json_are_what_the_files_hold(asking: TestClient, studio: Studio) -> None:
    answer = do(asking, "game.describe", ages=[8, 12], authors=["One", "Two"])
    assert answer.status_code == 200
    text = (studio.games / "tide-mill" / "game.toml").read_text(encoding="utf-8")
    assert "ages = [8, 12]" in text
    assert 'authors = ["One", "Two"]' in text


def test_a_wrong_value_is_told_at_its_field(asking: TestClient) -> None:
    answer = do(asking, "game.describe", ages=[12, 8])
    assert answer.status_code == 422
    (problem,) = answer.json()["problems"]
    assert (problem["code"], problem["path"][0]) == ("game.range-order", "ages")


def test_what_is_no_object_is_refused(asking: TestClient) -> None:
    answer = asking.post(f"{GAME}/do/times.set", json=[1], headers={"If-Match": '"x"'})
    assert answer.status_code == 422


def test_a_table_that_a_clue_needs_cannot_be_spoilt(asking: TestClient, studio: Studio) -> None:
    file = studio.games / "tide-mill" / "content" / "floats.csv"
    before = file.read_bytes()
    answer = do(asking, "content.put", name="floats.csv", rows=[["statemen", "true"], ["a", "yes"]])
    assert answer.status_code == 422
    assert answer.json()["problems"][0]["code"] == "content.no-column-but"
    assert file.read_bytes() == before

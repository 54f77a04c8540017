"""Tables as grids, mended where they are bad; rows pasted; files and pictures in and out."""

from __future__ import annotations

import csv
from io import BytesIO
from typing import Any

import pytest
from fastapi.testclient import TestClient
from httpx2 import Response
from PIL import Image
from playwright.sync_api import Page, expect

from boxwright.web.studio import Studio
from tests.web.serving import tagged

GAME = "/games/tide-mill"
CONTENT = f"{GAME}/content"
TIDES = f"{CONTENT}/tables/tides.csv"


def sent(asking: TestClient, name: str, data: bytes) -> Response:
    files = {"file": (name, data)}
    return asking.post(f"{CONTENT}/upload", files=files, headers=tagged(asking))


def made(asking: TestClient, **args: Any) -> Response:
    return asking.post(f"{CONTENT}/tables", json=args, headers=tagged(asking))


def raw(studio: Studio, name: str) -> bytes:
    return (studio.games / "tide-mill" / "content" / name).read_bytes()


def rows(studio: Studio, name: str) -> list[list[str]]:
    return list(csv.reader(raw(studio, name).decode("utf-8").splitlines()))


def picture(width: int = 40, kind: str = "PNG") -> bytes:
    out = BytesIO()
    Image.new("RGB", (width, 30), "teal").save(out, kind)
    return out.getvalue()


def test_each_table_says_what_it_is_and_which_clue_uses_it(asking: TestClient) -> None:
    page = asking.get(CONTENT).text
    assert "Questions with right and wrong answers." in page
    assert "Used by the clue tide-book." in page


def test_an_empty_folder_says_what_tables_are_for(asking: TestClient, studio: Studio) -> None:
    for file in (studio.games / "tide-mill" / "content").iterdir():
        file.unlink()
    assert "No table is here yet." in asking.get(CONTENT).text


def test_a_bad_row_is_marked_in_place(asking: TestClient, studio: Studio) -> None:
    file = studio.games / "tide-mill" / "content" / "floats.csv"
    file.write_text("statement,true\ncork,true\nice,true,cold\n", encoding="utf-8")
    page = asking.get(f"{CONTENT}/tables/floats.csv").text
    bad = page.partition('<tr data-line="3" class="bad">')[2]
    assert "This row has 3 cells" in bad
    assert '<tr data-line="2">' in page


def test_what_a_clue_finds_wrong_is_told_for_its_row(asking: TestClient, studio: Studio) -> None:
    file = studio.games / "tide-mill" / "content" / "floats.csv"
    text = file.read_text(encoding="utf-8").replace("cork,true", "cork,perhaps")
    file.write_text(text, encoding="utf-8")
    (problem,) = asking.get(f"{CONTENT}/tables/floats.csv/marks").json()["problems"]
    assert problem["line"] == 2
    assert "perhaps" in problem["what"]


def test_cells_are_text_whatever_they_hold(asking: TestClient, studio: Studio) -> None:
    file = studio.games / "tide-mill" / "content" / "floats.csv"
    file.write_text("statement,true\n</textarea><script>x,true\n", encoding="utf-8")
    page = asking.get(f"{CONTENT}/tables/floats.csv").text
    assert "&lt;/textarea&gt;&lt;script&gt;x" in page


def test_a_table_goes_out_as_it_is(asking: TestClient, studio: Studio) -> None:
    answer = asking.get(f"{TIDES}/file")
    assert answer.content == raw(studio, "tides.csv")
    assert "attachment" in answer.headers["content-disposition"]


@pytest.mark.parametrize("name", ["none.csv", "..%2Fgame.toml", "x" * 121])
def test_other_tables_are_not_there(asking: TestClient, name: str) -> None:
    assert asking.get(f"{CONTENT}/tables/{name}").status_code in (404, 422)


def test_a_new_table_begins_with_its_columns(asking: TestClient, studio: Studio) -> None:
    answer = made(asking, name="words", sort="terms")
    assert answer.json()["next"].endswith("/content/tables/words.csv")
    assert raw(studio, "words.csv") == b"term,meaning\n"


def test_pasted_rows_make_the_table_that_they_are(asking: TestClient, studio: Studio) -> None:
    text = "Ebb\tthe sea goes out\nFlood\tthe sea comes in\n"
    assert made(asking, name="words.csv", sort="questions", text=text).status_code == 200
    assert rows(studio, "words.csv")[:2] == [["term", "meaning"], ["Ebb", "the sea goes out"]]


def test_bad_pasted_rows_are_told_and_nothing_is_made(asking: TestClient, studio: Studio) -> None:
    text = "cork floats\tyes\nlead floats\tno\nice floats\tperhaps\n"
    answer = made(asking, name="facts", sort="statements", text=text)
    assert answer.status_code == 422
    assert [one["line"] for one in answer.json()["problems"]] == [3]
    assert not (studio.games / "tide-mill" / "content" / "facts.csv").exists()


def test_pasted_rows_go_under_the_columns_of_a_table(asking: TestClient) -> None:
    text = "true\tstatement\nyes\tcork floats\n"
    asked = {"text": text, "columns": ["statement", "true", "goal"]}
    answer = asking.post(f"{CONTENT}/pasted", json=asked)
    assert answer.json() == {"rows": [["cork floats", "yes", ""]]}


def test_a_file_with_semicolons_and_a_mark_is_taken_in(asking: TestClient, studio: Studio) -> None:
    data = b"\xef\xbb\xbfterm;meaning\r\nEbb;the sea goes out\r\n"
    answer = sent(asking, "words.csv", data)
    assert answer.status_code == 200
    assert "Ebb" in asking.get(answer.json()["next"]).text


def test_a_file_in_an_old_encoding_is_refused_with_what_helps(
    asking: TestClient, studio: Studio
) -> None:
    answer = sent(asking, "words.csv", "term,meaning\nFluß,river\n".encode("latin-1"))
    assert answer.status_code == 422
    assert "UTF-8" in answer.json()["problems"][0]["remedy"]
    assert not (studio.games / "tide-mill" / "content" / "words.csv").exists()


def test_a_picture_is_encoded_anew_and_shown(asking: TestClient, studio: Studio) -> None:
    assert sent(asking, "map.jpg", picture(kind="JPEG") + b"and more").status_code == 200
    shown = asking.get(f"{CONTENT}/pictures/map.jpg")
    assert shown.headers["content-type"] == "image/jpeg"
    assert "sandbox" in shown.headers["content-security-policy"]
    assert not shown.content.endswith(b"and more")
    assert "/content/pictures/map.jpg" in asking.get(CONTENT).text


def test_what_is_no_picture_is_refused(asking: TestClient) -> None:
    answer = sent(asking, "map.png", b"<html>")
    assert answer.status_code == 422
    assert asking.get(f"{CONTENT}/pictures/map.png").status_code == 404


# By hand.


def test_a_table_is_changed_in_its_cells(tab: Page, address: str, studio: Studio) -> None:
    tab.goto(f"{address}{CONTENT}/tables/floats.csv")
    first = tab.locator("#grid tbody textarea").first
    first.fill("cork, dry")
    first.press("Enter")
    expect(tab.locator("#grid tbody tr").nth(1).locator("textarea").first).to_be_focused()
    tab.get_by_role("button", name="Add a row").click()
    tab.keyboard.type("a stone")
    tab.keyboard.press("Tab")
    tab.keyboard.type("false")
    expect(tab.get_by_text("Not kept yet.")).to_be_visible()
    tab.get_by_role("button", name="Keep this table").click()
    expect(tab.get_by_text("Not kept yet.")).to_be_hidden()
    found = rows(studio, "floats.csv")
    assert found[1] == ["cork, dry", "true"]
    assert found[-1] == ["a stone", "false"]


def test_a_reader_hears_which_row_and_which_column_a_button_takes_out(
    tab: Page, address: str
) -> None:
    tab.goto(f"{address}{CONTENT}/tables/floats.csv")
    first = tab.locator("#grid tbody textarea").first.input_value()
    tab.get_by_role("button", name="Take row 1 out", exact=True).click()
    expect(tab.get_by_role("button", name="Take row 1 out", exact=True)).to_have_count(1)
    assert tab.locator("#grid tbody textarea").first.input_value() != first
    tab.get_by_role("button", name="Add a column").click()
    tab.keyboard.type("level")
    expect(tab.get_by_role("button", name="Take the column level out")).to_have_count(1)
    tab.get_by_role("button", name="Take the column true out").click()
    expect(tab.get_by_role("button", name="Take the column true out")).to_have_count(0)


def test_a_row_that_is_too_long_is_mended(tab: Page, address: str, studio: Studio) -> None:
    file = studio.games / "tide-mill" / "content" / "floats.csv"
    text = file.read_text(encoding="utf-8")
    file.write_text(text.replace("cork,true", "cork,true,dry"), encoding="utf-8")
    tab.goto(f"{address}{CONTENT}/tables/floats.csv")
    expect(tab.locator(".why")).to_contain_text("This row has 3 cells")
    tab.locator("#grid tbody textarea").nth(2).fill("")
    tab.get_by_role("button", name="Keep this table").click()
    expect(tab.locator("#said")).not_to_be_empty()
    assert file.read_text(encoding="utf-8") == text


def test_what_cannot_be_kept_stays_typed_and_is_told(tab: Page, address: str) -> None:
    tab.goto(f"{address}{CONTENT}/tables/floats.csv")
    tab.locator("#grid thead input").first.fill("statemen")
    tab.get_by_role("button", name="Keep this table").click()
    expect(tab.locator("#table-home > .problems")).to_contain_text("Is it the column statemen?")
    expect(tab.locator("#grid thead input").first).to_have_value("statemen")


def test_rows_pasted_into_a_cell_spread_from_there(tab: Page, address: str) -> None:
    tab.goto(f"{address}{CONTENT}/tables/floats.csv")
    last = tab.locator("#grid tbody tr").last.locator("textarea").first
    last.evaluate(
        """area => {
            const data = new DataTransfer();
            data.setData("text/plain", "oak leaf\\ttrue\\nslate\\tfalse\\n");
            const how = { clipboardData: data, bubbles: true, cancelable: true };
            area.dispatchEvent(new ClipboardEvent("paste", how));
        }"""
    )
    expect(tab.locator("#grid tbody tr")).to_have_count(31)
    cells = tab.locator("#grid tbody tr").last.locator("textarea")
    expect(cells.nth(0)).to_have_value("slate")
    expect(cells.nth(1)).to_have_value("false")


def test_a_long_table_shows_its_rest_and_loses_none(
    tab: Page, address: str, studio: Studio
) -> None:
    file = studio.games / "tide-mill" / "content" / "floats.csv"
    lines = [f"thing {n},{'true' if n % 2 else 'false'}" for n in range(500)]
    file.write_text("\n".join(["statement,true", *lines]), encoding="utf-8")
    tab.goto(f"{address}{CONTENT}/tables/floats.csv")
    expect(tab.locator("#grid tbody tr")).to_have_count(200)
    tab.locator("#show-rest").click()
    expect(tab.locator("#grid tbody tr")).to_have_count(400)
    tab.locator("#grid tbody .drops-row").first.click()
    tab.get_by_role("button", name="Keep this table").click()
    expect(tab.locator("#undo")).to_be_enabled()
    assert len(rows(studio, "floats.csv")) == 500
    assert rows(studio, "floats.csv")[-1] == ["thing 499", "true"]


def test_a_table_that_no_clue_uses_leads_to_where_clues_are_made(asking: TestClient) -> None:
    made(asking, name="rocks", sort="terms")
    page = asking.get(f"{CONTENT}/tables/rocks.csv").text
    assert 'href="/games/tide-mill/clues">Make a clue of it</a>' in page
    assert "Make a clue of it" not in asking.get(TIDES).text

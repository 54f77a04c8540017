"""The clues of a game, and the bench: tried as typed, kept when told, nothing lost before."""

from __future__ import annotations

import json
import re
import tomllib
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient
from playwright.sync_api import Page, expect

from boxwright.build import Built, build
from boxwright.build.current import keep, kept, last_asked
from boxwright.choose import one_clue
from boxwright.puzzles.shelf import all_kinds
from boxwright.web.options_form import fields
from boxwright.web.studio import Studio
from tests.web.serving import client, holding

CLUES = "/games/tide-mill/clues"
LARGE = f"{CLUES}/flour-sacks/large"
FLOATS = f"{CLUES}/float-or-sink/things"
JSON = {"Accept": "application/json"}


@pytest.fixture
def asks(studio: Studio) -> TestClient:
    return client(studio)


def folder(studio: Studio) -> Path:
    return studio.games / "tide-mill"


def game(studio: Studio) -> dict[str, Any]:
    return tomllib.loads((folder(studio) / "game.toml").read_text("utf-8"))


def tag(asks: TestClient) -> dict[str, str]:
    return {"If-Match": asks.get("/games/tide-mill/now").json()["tag"]}


def tried(asks: TestClient, at: str, **draft: Any) -> dict[str, Any]:
    answer = asks.post(f"{at}/try", json=draft)
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()
    return found


def told(shown: dict[str, Any]) -> list[tuple[str, str]]:
    return [(one["code"], ".".join(map(str, one["path"]))) for one in shown["problems"]]


class TestTheList:
    def test_every_clue_stands_there_with_each_of_its_ways(self, asks: TestClient) -> None:
        page = asks.get(CLUES).text
        assert page.count('class="card clue-card"') == 7
        assert page.count("data-sheets=") == 12
        assert "Leads to the lock “sluice”." in page

    def test_a_ways_small_sheets_are_pictures_of_its_pages(self, asks: TestClient) -> None:
        pieces = asks.get(f"{CLUES}/find-key/fences/sheets").text
        sources = re.findall(r'src="([^"]+)"', pieces)
        assert len(sources) == 2  # the signs, and their key
        for source in sources:
            answer = asks.get(source.replace("&amp;", "&"))
            assert answer.content.startswith(b"\x89PNG")
            assert "immutable" in answer.headers["Cache-Control"]

    def test_a_sheet_that_cannot_be_made_says_why(self, studio: Studio, asks: TestClient) -> None:
        file = folder(studio) / "game.toml"
        text = file.read_text("utf-8").replace('kind = "logic-grid"', 'kind = "quiz-index"')
        file.write_text(text, "utf-8")
        assert "table" in asks.get(f"{CLUES}/mill-hands/three/sheets").text

    def test_a_game_without_clues_says_what_a_clue_is(
        self, studio: Studio, asks: TestClient
    ) -> None:
        file = folder(studio) / "game.toml"
        text = file.read_text("utf-8")
        head, _, rest = text.partition("[clues.flour-sacks]")
        file.write_text(head + rest[rest.index("[arrangements.gentle]") :], "utf-8")
        assert "No clue is here yet." in asks.get(CLUES).text

    def test_a_new_clue_leads_to_its_bench(self, studio: Studio, asks: TestClient) -> None:
        new = {"gives": "gear", "kind": "nonogram", "place": "case"}
        answer = asks.post(CLUES, json=new, headers=tag(asks))
        assert answer.json() == {"next": f"{CLUES}/gear-clue"}
        assert game(studio)["clues"]["gear-clue"]["versions"] == {
            "ordinary": {"kind": "nonogram", "place": "case"}
        }
        assert asks.get(f"{CLUES}/gear-clue").status_code == 200

    def test_offers_tell_what_each_puzzle_takes_and_which_cannot(self, asks: TestClient) -> None:
        piece = asks.get(f"{CLUES}/-/offers", params={"gives": "race"}).text
        able, _, barred = piece.partition("barred-ones")
        assert 'value="route-map"' in able
        assert 'value="nonogram"' in barred
        assert "Can lead to 1 to 4 digits or 1 to 3 letters." in barred

    def test_offers_name_the_tables_that_serve_them_words_for_questions_too(
        self, studio: Studio, asks: TestClient
    ) -> None:
        (folder(studio) / "content" / "tides.csv").unlink()
        file = folder(studio) / "game.toml"
        file.write_text(file.read_text("utf-8").replace("tides.csv", "words.csv"), "utf-8")
        rows = ("term,meaning", "sluice,a gate", "ebb,going out", "weir,a wall", "quay,a landing")
        (folder(studio) / "content" / "words.csv").write_text("\n".join(rows), "utf-8")
        piece = asks.get(f"{CLUES}/-/offers", params={"gives": "sluice"}).text
        quiz = piece.partition('value="quiz-index"')[2].partition("</li>")[0]
        assert "Draws on your table words.csv." in quiz
        (folder(studio) / "content" / "floats.csv").write_text("thing,size,unit\n", "utf-8")
        piece = asks.get(f"{CLUES}/-/offers", params={"gives": "sluice"}).text
        assert "Draws on a table of statements; there is none yet." in piece

    def test_a_new_clue_draws_on_the_table_that_serves_it(
        self, studio: Studio, asks: TestClient
    ) -> None:
        new = {"gives": "gear", "kind": "quiz-index"}
        assert asks.post(CLUES, json=new, headers=tag(asks)).status_code == 200
        (way,) = game(studio)["clues"]["gear-clue"]["versions"].values()
        assert way["content"] == "tides.csv"

    def test_offers_for_nothing_are_not_found(self, asks: TestClient) -> None:
        assert asks.get(f"{CLUES}/-/offers", params={"gives": "latch"}).status_code == 404


class TestTrying:
    def test_a_draft_is_shown_as_it_will_print_and_nothing_is_written(
        self, studio: Studio, asks: TestClient
    ) -> None:
        before = {file: file.read_bytes() for file in folder(studio).rglob("*.toml")}
        shown = tried(asks, LARGE, kind="nonogram", code="427", options={"ground": "waves"})
        assert shown["pages"][0]["svg"].startswith("<svg")
        assert shown["problems"] == []
        assert {file: file.read_bytes() for file in before} == before

    def test_the_answer_of_a_draft_is_not_on_its_page(self, asks: TestClient) -> None:
        shown = tried(asks, LARGE, kind="nonogram", code="427")
        assert "427" not in shown["pages"][0]["alt"]

    @pytest.mark.parametrize(
        ("draft", "problem"),
        [
            ({"kind": "route-map"}, ("kind.cannot-carry-lock", "kind")),
            ({"kind": "quiz-index"}, ("quiz-index.no-table", "content")),
            ({"kind": "no-such"}, ("kind.unknown", "kind")),
            ({"kind": "nonogram", "code": "forty"}, ("mechanism.unreadable-digits", "code")),
            ({"kind": "nonogram", "content": "none.csv"}, ("folder.no-such-file", "content")),
            ({"kind": "own-sheet", "options": {"text": ["x"]}}, ("code.own-drawn", "code")),
        ],
    )
    def test_what_cannot_be_made_is_told_at_its_field(
        self, asks: TestClient, draft: dict[str, Any], problem: tuple[str, str]
    ) -> None:
        shown = tried(asks, LARGE, **draft)
        assert shown["pages"] == []
        assert told(shown) == [problem]

    def test_an_option_that_is_none_is_told_at_that_option(self, asks: TestClient) -> None:
        shown = tried(asks, LARGE, kind="nonogram", options={"ground": "sand"})
        assert told(shown)[0][1] == "options.ground"

    def test_kinds_that_can_are_named_by_their_titles(self, asks: TestClient) -> None:
        (problem,) = tried(asks, LARGE, kind="route-map")["problems"]
        assert {"name": "nonogram", "title": "A hidden picture"} in problem["kinds"]
        assert "A hidden picture" in problem["remedy"]
        assert "route-map" not in problem["what"]

    def test_own_hints_are_shown_with_names_filled_in(self, asks: TestClient) -> None:
        hints = ["Look twice.", "Then look at {case}.", "Row 3."]
        about = asks.post(f"{LARGE}/about", json={"kind": "nonogram", "hints": hints}).text
        assert "Then look at the miller&#39;s tin case." in about
        wrong = tried(asks, LARGE, kind="nonogram", hints=["a", "b {nobody}", "c"])
        assert told(wrong) == [("arrange.text-absent", "hints.1")]

    def test_answer_cost_hints_and_mistakes_are_told_of_a_draft(self, asks: TestClient) -> None:
        draft = {"kind": "nonogram", "level": "ordinary", "code": "427"}
        about = asks.post(f"{LARGE}/about", json=draft).text
        for told_of in ("<strong>427</strong>", "Words to read", "Made from this very sheet."):
            assert told_of in about
        assert "724" in about  # read the other way round
        assert asks.post(f"{LARGE}/about", json={"kind": "route-map"}).text == ""

    def test_another_kind_brings_its_own_fields(self, asks: TestClient) -> None:
        shown = tried(asks, LARGE, kind="count-sheet", shows="nonogram")
        assert 'name="options.pictures"' in shown["fields"]
        assert tried(asks, LARGE, kind="nonogram", shows="nonogram")["fields"] is None

    def test_what_another_kind_does_not_understand_is_left_behind(self, asks: TestClient) -> None:
        floats = {"content": "floats.csv", "options": {"rule": "It floats on water."}}
        draft = floats | {"kind": "quiz-index", "shows": "shade-by-rule"}
        shown = tried(asks, FLOATS, **draft, options_of="shade-by-rule")
        assert shown["problems"] == []
        assert 'value="tides.csv" selected' in shown["fields"]
        typed = tried(asks, FLOATS, **draft)  # as it stands in the fields of that very kind
        assert told(typed)[0][1] == "options.rule"

    def test_a_sheet_is_made_once_for_all_that_is_asked_of_a_draft(
        self, asks: TestClient, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        made: list[Any] = []
        make = one_clue.tried

        def noted(*args: Any) -> Any:
            made.append(args)
            return make(*args)

        monkeypatch.setattr(one_clue, "tried", noted)
        for what in ("try", "about", "fits"):
            asks.post(f"{LARGE}/{what}", json={"kind": "nonogram", "code": "427"})
        assert len(made) == 1

    def test_what_does_not_fit_its_page_is_told_after(self, asks: TestClient) -> None:
        long = {"kind": "own-sheet", "code": "427", "options": {"text": ["word " * 390] * 4}}
        (problem,) = asks.post(f"{LARGE}/fits", json=long).json()["problems"]
        assert problem["code"] == "paper.too-tall"
        short = {"kind": "nonogram", "code": "427"}
        assert asks.post(f"{LARGE}/fits", json=short).json()["problems"] == []

    @pytest.mark.parametrize(
        "draft",
        [
            {},
            {"kind": "Nonogram!"},
            {"kind": "nonogram", "colour": "red"},
            {"kind": "nonogram", "throw": -1},
            {"kind": "nonogram", "hints": ["one"]},
            {"kind": "nonogram", "level": "hard"},
            {"kind": "nonogram", "options": {"ground": "\ud800"}},
        ],
    )
    def test_what_no_page_sends_is_answered_in_the_400s(
        self, asks: TestClient, draft: dict[str, Any]
    ) -> None:
        headers = JSON | {"Content-Type": "application/json"}
        answer = asks.post(f"{LARGE}/try", content=json.dumps(draft), headers=headers)
        assert answer.status_code == 422

    @pytest.mark.parametrize("path", ["nobody", "flour-sacks/none", "flour-sacks/none/sheets"])
    def test_what_is_not_there_is_not_found(self, asks: TestClient, path: str) -> None:
        assert asks.get(f"{CLUES}/{path}").status_code == 404


class TestWays:
    def test_another_way_begins_as_a_copy(self, studio: Studio, asks: TestClient) -> None:
        at = f"{CLUES}/boat-shed/by-torch"
        answer = asks.post(f"{at}/another", json={"for": "hardest"}, headers=tag(asks))
        assert answer.json() == {"next": f"{CLUES}/boat-shed/hardest"}
        ways = game(studio)["clues"]["boat-shed"]["versions"]
        assert ways["hardest"] == ways["by-torch"] | {"level": "hardest"}

    def test_a_way_for_another_room_says_which(self, studio: Studio, asks: TestClient) -> None:
        at = f"{CLUES}/mill-hands/four"
        asked = {"for": "room", "rooms": "Library"}
        assert asks.post(f"{at}/another", json=asked, headers=tag(asks)).status_code == 200
        ways = game(studio)["clues"]["mill-hands"]["versions"]
        assert ways["library"]["rooms"] == ["library"]
        nowhere = asks.post(f"{at}/another", json={"for": "room"}, headers=tag(asks))
        assert nowhere.json()["problems"][0]["path"] == ["rooms"]

    def test_a_way_gets_another_name(self, studio: Studio, asks: TestClient) -> None:
        answer = asks.post(f"{LARGE}/name", json={"name": "The large one"}, headers=tag(asks))
        assert answer.json() == {"next": f"{CLUES}/flour-sacks/large-one"}
        assert list(game(studio)["clues"]["flour-sacks"]["versions"]) == ["small", "large-one"]

    def test_a_name_that_changes_nothing_leads_back(self, asks: TestClient) -> None:
        for name in ("large", "!"):
            answer = asks.post(f"{LARGE}/name", json={"name": name}, headers=tag(asks))
            assert answer.json() == {"next": LARGE}


class TestOtherDice:
    def test_they_wait_for_the_first_printed_set(self, studio: Studio, asks: TestClient) -> None:
        old, new = (tried(asks, LARGE, kind="nonogram", level="ordinary", throw=n) for n in (0, 3))
        assert old["pages"][0]["svg"] != new["pages"][0]["svg"]
        answer = asks.post(f"{LARGE}/throw", json={"throw": 3}, headers=tag(asks))
        assert answer.status_code == 200
        again = tried(asks, LARGE, kind="nonogram", level="ordinary")
        assert again["throw"] == 3
        assert again["pages"] == new["pages"]
        asked = last_asked(folder(studio))
        keep(build(asked), asked)
        assert tried(asks, LARGE, kind="nonogram", level="ordinary")["pages"] == new["pages"]

    def test_they_make_the_printed_set_anew(self, studio: Studio, asks: TestClient) -> None:
        asked = last_asked(folder(studio))
        keep(build(asked), asked)
        assert asks.post(f"{LARGE}/throw", json={"throw": 2}, headers=tag(asks)).status_code == 200
        found = kept(folder(studio))
        assert isinstance(found, Built)
        assert found.edition.sheets["flour-sacks"].throw == 2

    def test_a_way_that_is_not_in_the_printed_set_has_none(
        self, studio: Studio, asks: TestClient
    ) -> None:
        asked = last_asked(folder(studio))
        keep(build(asked), asked)
        assert 'id="other-dice"' in asks.get(LARGE).text
        assert 'id="other-dice"' not in asks.get(f"{CLUES}/flour-sacks/small").text

    def test_a_page_of_another_state_changes_nothing(self, asks: TestClient) -> None:
        old = asks.post(f"{LARGE}/throw", json={"throw": 2}, headers={"If-Match": "old"})
        assert old.status_code == 412


class TestOptions:
    def test_every_option_of_every_kind_is_asked_for_in_words(self) -> None:
        named = ("ground", "family")  # their values are words themselves
        plain = [
            f"{name}.{one.name}"
            for name, _ in all_kinds()
            for one in fields(name, {})
            if one.label == one.name.replace("_", " ")
            or (one.name not in named and any(said == value for value, said in one.choices))
        ]
        assert plain == []

    def test_a_field_is_as_its_schema_has_it(self) -> None:
        (choices,) = fields("quiz-index", {"choices": 3})
        assert (choices.sort, choices.value, choices.least, choices.most) == ("number", 3, 2, 6)
        picture = fields("own-sheet", {}, ["boat.png"])[1]
        assert (picture.sort, picture.choices) == ("choice", (("boat.png", "boat.png"),))


class TestTheBench:
    def test_typing_shows_a_new_sheet_and_keeping_writes_it(
        self, studio: Studio, address: str, tab: Page
    ) -> None:
        tab.goto(f"{address}{FLOATS}")
        first = tab.locator("#sheets img").get_attribute("src")
        rule = tab.get_by_label("The rule", exact=True)
        rule.fill("It sinks in water.")
        expect(tab.locator("#sheets img")).not_to_have_attribute("src", first or "")
        expect(tab.locator("#state")).to_have_text("Not kept yet.")
        tab.get_by_role("button", name="Keep it").dblclick()
        expect(tab.locator("#state")).to_have_text("All is kept.")
        expect(tab.locator("#clash")).to_be_hidden()
        options = game(studio)["clues"]["float-or-sink"]["versions"]["things"]["options"]
        assert options == {"rule": "It sinks in water."}

    def test_what_is_not_kept_survives_a_reload_and_an_error(self, address: str, tab: Page) -> None:
        tab.goto(f"{address}{LARGE}")
        tab.locator("#code-how").select_option("fixed")
        tab.locator("#code").fill("4x7")
        expect(tab.locator('[data-told="code"] .problem')).to_be_visible()
        tab.reload()
        expect(tab.locator("#code")).to_have_value("4x7")
        expect(tab.locator('[data-told="code"] .problem')).to_be_visible()
        tab.get_by_role("button", name="Leave the changes").click()
        expect(tab.locator("#code-how")).to_have_value("auto")
        expect(tab.locator("#state")).to_have_text("All is kept.")

    def test_another_puzzle_is_chosen_by_keyboard_and_kept_with_its_code(
        self, studio: Studio, address: str, tab: Page
    ) -> None:
        tab.goto(f"{address}{LARGE}")
        tab.locator("#others summary").focus()
        tab.keyboard.press("Enter")
        tab.locator('.offers input[value="count-sheet"]').focus()
        tab.keyboard.press("Space")
        expect(tab.get_by_label("How many pictures")).to_be_visible()
        tab.get_by_label("How many pictures").fill("30")
        tab.reload()
        expect(tab.get_by_label("How many pictures")).to_have_value("30")
        tab.locator("#code-how").select_option("fixed")
        tab.locator("#code").fill("427")
        tab.keyboard.press("Enter")
        expect(tab.locator("#state")).to_have_text("All is kept.")
        found = game(studio)
        assert found["locks"]["sluice"]["code"] == "427"
        large = found["clues"]["flour-sacks"]["versions"]["large"]
        assert large == {"level": "ordinary", "kind": "count-sheet", "options": {"pictures": 30}}

    def test_a_puzzle_that_is_left_comes_back_as_it_was_and_undo_brings_it_back_once_kept(
        self, studio: Studio, address: str, tab: Page
    ) -> None:
        tab.goto(f"{address}{FLOATS}")
        tab.locator("#others summary").click()
        tab.locator('.offers input[value="quiz-index"]').check()
        expect(tab.locator("#content")).to_have_value("tides.csv")
        tab.locator('.offers input[value="shade-by-rule"]').check()
        expect(tab.get_by_label("The rule", exact=True)).to_have_value("It floats on water.")
        expect(tab.locator("#state")).to_have_text("All is kept.")
        tab.locator('.offers input[value="quiz-index"]').check()
        expect(tab.locator("#was")).to_be_empty()
        before = (folder(studio) / "game.toml").read_bytes()
        tab.get_by_role("button", name="Keep it").click()
        expect(tab.locator("#said")).to_contain_text("what pupils do")
        things = game(studio)["clues"]["float-or-sink"]["versions"]["things"]
        assert things == {"kind": "quiz-index", "content": "tides.csv", "place": "tin"}
        tab.get_by_role("button", name="Undo").click()
        expect(tab.get_by_label("The rule", exact=True)).to_have_value("It floats on water.")
        assert (folder(studio) / "game.toml").read_bytes() == before

    def test_what_a_way_needs_and_changes_elsewhere_is_ticked_and_kept(
        self, studio: Studio, address: str, tab: Page
    ) -> None:
        tab.goto(f"{address}{CLUES}/boat-shed/daylight")
        tab.locator("#elsewhere > summary").click()
        needs = tab.get_by_role("group", name="One must have in hand")
        needs.get_by_label("a brass key").check()
        tab.get_by_role("group", name="It brings into play").get_by_label("a torch").check()
        tab.locator("#elsewhere").get_by_text("It takes out of play").first.click()
        drops = tab.get_by_role("group", name="It takes out of play")
        drops.get_by_label("the clue “find-key”").check()
        tab.get_by_label("A thing", exact=True).select_option("tin")
        tab.get_by_label("goes to").select_option("case")
        tab.reload()
        expect(needs.get_by_label("a brass key")).to_be_checked()
        expect(tab.get_by_label("goes to")).to_have_value("case")
        tab.get_by_role("button", name="Keep it").click()
        expect(tab.locator("#state")).to_have_text("All is kept.")
        way = game(studio)["clues"]["boat-shed"]["versions"]["daylight"]
        asked = {name: way[name] for name in ("needs", "adds", "drops", "moves")}
        assert asked == {
            "needs": ["brass-key"], "adds": ["torch"], "drops": ["find-key"],
            "moves": {"tin": "case"},
        }  # fmt: skip
        tab.get_by_label("Then the biscuit tin is at").select_option("")
        tab.get_by_role("button", name="Keep it").click()
        expect(tab.get_by_label("Then the biscuit tin is at")).to_have_count(0)
        assert "moves" not in game(studio)["clues"]["boat-shed"]["versions"]["daylight"]

    def test_what_cannot_be_put_elsewhere_is_refused_and_stays_chosen(
        self, studio: Studio, address: str, tab: Page
    ) -> None:
        tab.goto(f"{address}{CLUES}/boat-shed/daylight")
        tab.locator("#elsewhere > summary").click()
        tab.get_by_label("A thing", exact=True).select_option("tin")
        tab.get_by_label("goes to").select_option("tin")
        tab.get_by_role("button", name="Keep it").click()
        expect(tab.locator("#fields > .problems")).to_contain_text("itself")
        expect(tab.get_by_label("goes to")).to_have_value("tin")
        assert "moves" not in game(studio)["clues"]["boat-shed"]["versions"]["daylight"]

    def test_a_puzzle_that_is_kept_at_once_is_kept_with_its_own_fields(
        self, studio: Studio, address: str, tab: Page
    ) -> None:
        tab.goto(f"{address}{FLOATS}")
        tab.locator("#others summary").click()
        expect(tab.locator("#about .answer")).to_be_visible()
        held = holding(tab, "**/try")
        tab.locator('.offers input[value="quiz-index"]').check()
        tab.get_by_role("button", name="Keep it").click()
        for one in held:
            one.continue_()
        expect(tab.locator("#said")).to_contain_text("what pupils do")
        things = game(studio)["clues"]["float-or-sink"]["versions"]["things"]
        assert things == {"kind": "quiz-index", "content": "tides.csv", "place": "tin"}

    def test_a_puzzle_that_can_is_taken_from_the_remedy(self, address: str, tab: Page) -> None:
        tab.goto(f"{address}{CLUES}/boat-shed/daylight")
        tab.locator("#code-how").select_option("fixed")
        tab.locator("#code").fill("4075")
        tab.locator('[data-told="kind"]').get_by_role("button", name="A hidden picture").click()
        expect(tab.locator("#kind-title")).to_have_text("A hidden picture")
        expect(tab.locator("#bench")).not_to_have_class(re.compile("outdated"))

    def test_other_dice_are_compared_and_taken(
        self, studio: Studio, address: str, tab: Page
    ) -> None:
        tab.goto(f"{address}{LARGE}")
        expect(tab.locator("#sheets img")).to_have_count(1)
        tab.get_by_role("button", name="Try other dice").click()
        expect(tab.locator("#sheets img")).to_have_count(2)
        tab.get_by_role("button", name="Stay with the old one").click()
        expect(tab.locator("#sheets img")).to_have_count(1)
        tab.get_by_role("button", name="Try other dice").click()
        tab.get_by_role("button", name="Take the new one").click()
        expect(tab.locator("#said")).to_contain_text("Kept.")
        assert (folder(studio) / "editions" / "to-come.json").is_file()

    def test_a_clue_is_added_from_what_it_leads_to(self, address: str, tab: Page) -> None:
        tab.goto(f"{address}{CLUES}")
        tab.get_by_label("It leads to").select_option("gear")
        tab.get_by_role("radio", name=re.compile("Which one is right")).check()
        expect(tab.locator("#new-content")).to_have_value("tides.csv")
        tab.get_by_role("radio", name=re.compile("A hidden picture")).check()
        expect(tab.locator("#new-content")).to_have_value("")
        expect(tab.get_by_role("button", name="Add it")).to_be_in_viewport(ratio=1)
        tab.get_by_role("button", name="Add it").click()
        expect(tab.get_by_role("heading", name="The clue gear clue")).to_be_visible()
        expect(tab.locator("#sheets img")).to_have_count(1)

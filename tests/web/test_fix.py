"""Things to fix: what was found, on which basis, what helps, and what was put aside."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from boxwright.checks import modules
from boxwright.game.dismissed import dismissed
from boxwright.messages import words
from boxwright.problems import Edit
from boxwright.web.findings import AREAS, does
from boxwright.web.studio import Studio
from tests.web.serving import client
from tests.web.test_boxes import PAGE, change

HERE = "/games/tide-mill/fix"


def found(studio: Studio) -> str:
    """Return what the page shows once the checks are through."""
    answer = client(studio).get(f"{HERE}/found", headers=PAGE)
    assert answer.status_code == 200
    return answer.text


def ring(studio: Studio) -> None:
    """Let the harbour letter wait for itself."""
    change(
        studio, 'content = "tides.csv"\nplace = "safe"', 'content = "tides.csv"\nplace = "packet"'
    )


def test_the_page_stands_before_anything_is_worked_out(studio: Studio) -> None:
    answer = client(studio).get(HERE, headers=PAGE)
    assert "A moment" in answer.text
    assert not any("built" in repr(key) for key in studio.memory.kept)


def test_a_ring_is_drawn_as_a_path_that_comes_back(studio: Studio) -> None:
    ring(studio)
    text = found(studio)
    path = text[text.index('class="evidence ring"') :]
    path = path[: path.index("</ol>")]
    assert path.count("the harbour letter") == 2
    assert "the lock “seal”" in path
    assert "round and round" in path


def test_a_finding_says_its_basis_and_leads_to_its_thing(studio: Studio) -> None:
    text = found(studio)
    assert "on your word" in text
    assert "/games/tide-mill/boxes?thing=tide-book" in text


def test_what_the_shelf_lacks_leads_to_the_kit(studio: Studio) -> None:
    change(studio, 'stand_in = "allowed"', 'stand_in = "never"')
    text = client(studio).get(f"{HERE}/found?groups=2", headers=PAGE).text
    assert "too few locks" in text
    assert "/games/tide-mill/kit?groups=2" in text


def test_it_says_for_how_many_groups_it_was_looked_at(studio: Studio) -> None:
    text = found(studio)
    assert "Looked at for 1 table." in text
    assert 'href="/games/tide-mill/boxes#groups"' in text
    text = client(studio).get(f"{HERE}/found?groups=2", headers=PAGE).text
    assert "Looked at for 2 tables." in text


def test_without_faults_it_says_what_was_checked_and_what_was_not(studio: Studio) -> None:
    text = found(studio)
    assert "Nothing to fix was found." in text
    assert "no text gives a code away" in text
    assert "7 sheets" in text
    assert "On your word stays:" in text


def test_an_area_with_a_fault_is_not_called_good(studio: Studio) -> None:
    change(studio, "closing = [", 'closing = [\n  "The code 121 is good.",')
    text = found(studio)
    assert "no text gives a code away" not in text
    assert "everything can be reached" in text


def test_every_check_belongs_to_an_area() -> None:
    known = {first for firsts in AREAS.values() for first in firsts}
    assert {module.CODE.partition(".")[0] for module in modules()} <= known


def test_seven_stand_first_and_the_others_behind(studio: Studio) -> None:
    ring(studio)
    change(studio, "bell_to_bell = 70", "bell_to_bell = 30")
    change(studio, 'code = "one of EEL OAR MUD DAB"', 'code = "one of ELM OWL"')
    change(
        studio,
        "[locks.gear]",
        '[locks.spare]\nmechanism = "number-wheels"\nwheels = 3\ncloses = "tin"\ncode = "777"\n\n'
        "[locks.gear]",
    )
    change(studio, "closing = [", 'closing = [\n  "The code 121 is good.",')
    text = found(studio)
    assert "less pressing" in text
    assert text[: text.index("less pressing")].count('class="finding') == 7


def test_what_bars_the_printed_set_is_told_with_its_remedy(studio: Studio) -> None:
    change(studio, 'place = ["reading-chair", "any seat"]', 'place = "tin"')
    text = found(studio)
    assert "cannot be made yet" in text
    assert "boxes?thing=find-key" in text


def test_things_are_called_by_their_names_and_not_by_their_short_ones(studio: Studio) -> None:
    change(studio, "[boxes.tin]\n", "[boxes.tin]\noptional = true\n")
    text = found(studio)
    assert "The lock gear closes the biscuit tin, but that box is not in play." in text
    assert "Let the biscuit tin always be in play" in text


def test_a_reader_hears_of_each_button_what_it_is_about(studio: Studio) -> None:
    change(studio, 'place = "chest"\nwins = true', 'place = "table"\nwins = true')
    text = found(studio)
    buttons = re.findall(r"<button.*?</button>", text, re.DOTALL)
    heard = [re.sub(r"<[^>]+>", "", one) for one in buttons]
    assert len(heard) > 1
    assert len(set(heard)) == len(heard)


def test_what_stops_the_game_cannot_be_put_aside(studio: Studio) -> None:
    ring(studio)
    text = found(studio)
    stops = text[: text.index('id="group-fix"')]
    assert 'class="finding problem stop"' in stops
    assert "Dismiss for good" not in stops


def test_an_id_that_is_none_is_refused(studio: Studio) -> None:
    for finding in ("", "../../x", "A" * 8, "a" * 9):
        answer = client(studio).post(f"{HERE}/dismiss", json={"finding": finding})
        assert answer.status_code == 422


def test_put_aside_it_stays_so_and_comes_back_when_asked(
    tab: Page, address: str, studio: Studio
) -> None:
    tab.goto(f"{address}{HERE}")
    away = tab.get_by_role("button", name=re.compile("Dismiss for good.*person can tell"))
    away.click()
    expect(tab.get_by_text("1 thing dismissed")).to_be_visible()
    assert len(dismissed(studio.games / "tide-mill")) == 1
    strip = client(studio).get("/games/tide-mill/boxes/findings").text
    assert "data-marks" in strip
    assert "that only a person can tell" not in strip
    tab.reload()
    tab.get_by_text("1 thing dismissed").click()
    tab.get_by_role("button", name="Bring back").click()
    expect(away).to_be_visible()


def test_faults_in_the_files_are_told_here_too(studio: Studio) -> None:
    change(studio, "ages = [9, 11]", "ages = [11, 9]")
    answer = client(studio).get(HERE, headers=PAGE)
    assert "1 fault in this game" in answer.text
    assert "Write the smaller number first: [9, 11]." in answer.text


def test_a_fault_for_which_a_command_is_typed_has_other_words(studio: Studio) -> None:
    change(
        studio, "[items.notes]", '[items.sill]\nname = "a stone"\nplace = "table"\n\n[items.notes]'
    )
    text = client(studio).get(HERE, headers=PAGE).text
    assert "another short name, such as sill-1" in text
    assert "rename" not in text


def test_what_helps_is_said_in_the_words_of_the_screen(studio: Studio) -> None:
    change(studio, 'hints = "auto"', "hints = 40")
    text = found(studio)
    assert "On the page Story, write 21 or fewer" in text
    assert "hints = " not in text


def test_a_check_that_fails_can_be_asked_again(tab: Page, address: str) -> None:
    tab.route("**/fix/found*", lambda route: route.abort())
    tab.goto(f"{address}{HERE}")
    expect(tab.get_by_text("The checks gave no answer.")).to_be_visible()
    tab.unroute("**/fix/found*")
    tab.get_by_role("button", name="Look again").click()
    expect(tab.get_by_text("Nothing to fix was found.")).to_be_visible()


def test_a_button_says_what_it_does_and_undo_takes_it_back(
    tab: Page, address: str, studio: Studio
) -> None:
    change(studio, 'code = "one of EEL OAR MUD DAB"', 'code = "one of EEL OAR MUD DAB ZZZ"')
    tab.goto(f"{address}{HERE}")
    button = tab.get_by_role("button", name="Keep only EEL, OAR, MUD or DAB")
    button.focus()
    tab.keyboard.press("Enter")
    expect(button).to_be_hidden()
    expect(tab.get_by_text("Nothing to fix was found.")).to_be_visible()
    text = (studio.games / "tide-mill/game.toml").read_text("utf-8")
    assert 'code = "one of EEL OAR MUD DAB"' in text
    tab.get_by_role("button", name="Undo").click()
    expect(button).to_be_visible()


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("code", "auto", "Let another code be drawn"),
        ("code", "one of EEL OAR", "Keep only EEL or OAR"),
        ("hints", 15, "Give each table 15 hints"),
        ("hints", "auto", "Let the number of hints follow from locks and age"),
        ("inside_mm", [280, 190, 70], "It was centimetres: make it 280, 190, 70 mm"),
        ("length", [6, 6], "Ask for 6 moves"),
        ("needs", ["key", "torch"], "Let the clue need it: THE TORCH"),
        ("place", ["shelf", "table"], "Put it elsewhere: THE SHELF"),
        ("stand_in", "allowed", "Allow a stand-in for it"),
        ("wins", True, "Let it win the game"),
        ("briefing", 6, "Give the briefing 6 minutes"),
        ("anything", None, "Take it out"),
        ("closes", "safe", "Do that"),
    ],
)
def test_a_change_is_said_in_a_few_words(field: str, value: object, said: str) -> None:
    edit = Edit("game.toml", ("some", "thing", field), value)
    assert words(does(edit, lambda id: f"the {id}".upper())) == said


def test_a_change_of_name_is_not_said_to_be_one_of_value() -> None:
    edit = Edit("game.toml", ("boxes", "code"), key="codes")
    assert words(does(edit, str)) == "Do that"

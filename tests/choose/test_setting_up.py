"""The set-up and reset cards, followed by a hand that cannot do the impossible."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from boxwright.build import Asked, build
from boxwright.choose.gear import Gear
from boxwright.choose.scene import CannotDoError, Scene, follow, played, resting, unready
from boxwright.choose.setting_up import plan, reset, set_up
from boxwright.choose.steps import Step
from boxwright.game.arrange import Wishes
from boxwright.game.folder import Folder, read_game
from tests.games import EXAMPLES

MILL = Path(__file__).parents[1] / "paper" / "outs" / "mill"
CARDS = {"set-up": (resting, set_up), "reset": (played, reset)}

Start = Callable[[Gear], Scene]
Planner = Callable[[Gear], tuple[Step, ...]]


@cache
def gear_of(game: Path, arrangement: str | None = None) -> Gear:
    made = build(Asked(game, Wishes(arrangement=arrangement)))
    return Gear(made.edition, made.folder)


def all_games() -> list[tuple[Path, str | None]]:
    found: list[tuple[Path, str | None]] = [(MILL, None)]
    for game in sorted(path.parent for path in EXAMPLES.glob("*/game.toml")):
        folder = read_game(game)
        assert isinstance(folder, Folder)
        found += [(game, name) for name in (None, *folder.game.arrangements)]
    return found


def followed(start: Scene, steps: Sequence[Step]) -> Scene:
    for step in steps:
        follow(start, step)
    return start


def goes_wrong(start: Scene, steps: Sequence[Step]) -> bool:
    try:
        return bool(unready(followed(start, steps)))
    except CannotDoError:
        return True


@pytest.mark.parametrize("card", CARDS)
@pytest.mark.parametrize(("game", "arrangement"), all_games(), ids=lambda one: str(one)[-12:])
def test_following_a_card_leaves_everything_ready(
    game: Path, arrangement: str | None, card: str
) -> None:
    gear = gear_of(game, arrangement)
    start, planned = CARDS[card]
    assert unready(start(gear))
    assert unready(followed(start(gear), planned(gear))) == []


@pytest.mark.parametrize("card", CARDS)
def test_each_step_is_needed(card: str) -> None:
    gear = gear_of(MILL)
    start, planned = CARDS[card]
    steps = planned(gear)
    idle = [
        step
        for at, step in enumerate(steps)
        if not goes_wrong(start(gear), [*steps[:at], *steps[at + 1 :]])
    ]
    assert idle == []


@pytest.mark.parametrize("card", CARDS)
def test_each_step_is_needed_for_each_group(card: str) -> None:
    gear = gear_of(MILL)
    start, planned = CARDS[card]
    steps = planned(gear)
    once = {"print", "print-tables", "cut", "fold", "trace"}  # for all groups in one go
    for at, step in enumerate(steps):
        if len(step.groups) > 1 and step.act not in once:
            less = [*steps[:at], replace(step, groups=step.groups[1:]), *steps[at + 1 :]]
            assert goes_wrong(start(gear), less), step


@pytest.mark.parametrize(
    ("first", "second"),
    [
        (("set", "first"), ("test", "first")),
        (("test", "first"), ("hang", "first")),
        (("put", "wall/sheet"), ("hang", "first")),
        (("seal", "seal"), ("put", "letter")),
        (("pull", "stairs"), ("put", "casket")),
        (("scramble", "stairs"), ("pull", "stairs")),
        (("take-key", "catch"), ("put", "iron-key")),
        (("hang", "catch"), ("take-key", "catch")),
        (("print-own", ""), ("cut", "")),
        (("cut", ""), ("fold", "")),
        (("fetch", "trunk"), ("hang", "first")),
        (("pull", "first"), ("lay", "trunk")),
    ],
)
def test_two_steps_cannot_change_places(first: tuple[str, str], second: tuple[str, str]) -> None:
    gear = gear_of(MILL)
    steps = list(set_up(gear))
    one, other = (
        next(at for at, step in enumerate(steps) if (step.act, step.thing) == wanted)
        for wanted in (first, second)
    )
    assert one < other, "the card has them in this order"
    steps[one], steps[other] = steps[other], steps[one]
    assert goes_wrong(resting(gear), steps)


def test_a_key_held_fast_is_had_only_once_its_lock_is_closed() -> None:
    gear = gear_of(MILL)
    scene = followed(resting(gear), [s for s in set_up(gear) if s.block in ("paper", "shelf")])
    for key in ("iron-key",):
        with pytest.raises(CannotDoError):
            follow(scene, Step("boxes", "put", key, ("1",), "safe"))


def test_inner_boxes_close_before_outer_ones_and_a_box_before_its_key_is_put_away() -> None:
    order = gear_of(MILL).closing
    assert (
        order.index("letter") < order.index("casket") < order.index("trunk") < order.index("safe")
    )


def test_a_lock_set_to_another_code_is_found() -> None:
    gear = gear_of(MILL)
    scene = followed(resting(gear), set_up(gear))
    scene.set_to["2", "first"] = ("0", "0", "0")
    assert [lack[:2] for lack in unready(scene)] == [("2", "first")]


def test_planning_goes_on_from_wherever_one_stopped() -> None:
    gear = gear_of(MILL)
    half = [step for step in set_up(gear) if step.block in ("paper", "shelf", "locks")]
    scene = followed(resting(gear), half)
    rest = plan(scene)
    assert {step.block for step in rest} == {"boxes", "room", "arrival"}
    assert unready(followed(scene, rest)) == []


def test_what_is_ready_needs_no_more_paper_locks_or_sheets() -> None:
    gear = gear_of(MILL)
    ready = followed(resting(gear), set_up(gear))
    assert not {step.block for step in plan(ready)} & {"paper", "count", "shelf", "fresh", "locks"}


def test_resetting_prints_nothing_and_renews_what_is_written_on() -> None:
    gear = gear_of(MILL)
    steps = reset(gear)
    assert not any(step.act == "print" for step in steps)
    assert [step.thing for step in steps if step.act == "renew"] == ["shells/sheet"]
    assert all(step.act != "set" for step in steps)
    assert {step.thing for step in steps if step.act == "label"} == {"seal"}

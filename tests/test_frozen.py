"""Frozen values behave as the standard library's frozen dataclasses do."""

from __future__ import annotations

import pickle
from copy import deepcopy
from dataclasses import FrozenInstanceError, dataclass, field, fields, replace

import pytest

from boxwright.frozen import frozen_value, is_frozen


@frozen_value
class Stone:
    """A value with a field of every sort."""

    weight: float
    name: str = "plain"
    marks: dict[str, int] = field(default_factory=dict, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Model:
    """The same, as the standard library makes it."""

    weight: float
    name: str = "plain"
    marks: dict[str, int] = field(default_factory=dict, compare=False, repr=False)


@frozen_value
class Gem(Stone):
    """Adds a field, and looks at it once all are set."""

    colour: str = "red"

    def __post_init__(self) -> None:
        """Refuse what no gem is."""
        if not self.colour:
            raise ValueError("a gem has a colour")


@frozen_value
class Loose:  # noqa: PLW1641 - its hash is what is tested
    """Compares as it likes."""

    weight: float

    def __eq__(self, other: object) -> bool:
        """Equal to anything."""
        return True


def test_arguments_go_by_place_and_by_name_and_defaults_are_made_anew() -> None:
    first, second = Stone(1.5), Stone(weight=1.5, name="plain")
    assert first == second
    assert first.marks is not second.marks


def test_a_missing_and_a_surplus_argument_are_refused_by_name() -> None:
    with pytest.raises(TypeError, match=r"Stone\.__init__\(\) missing .* 'weight'"):
        Stone()  # type: ignore[call-arg]
    with pytest.raises(TypeError, match="'height'"):
        Stone(1.5, height=2)  # type: ignore[call-arg]


def test_nothing_can_be_set_or_taken_away() -> None:
    stone = Stone(1.5)
    for name in ("weight", "height"):
        with pytest.raises(FrozenInstanceError, match=name):
            setattr(stone, name, 2.0)
    with pytest.raises(FrozenInstanceError, match="weight"):
        del stone.weight
    assert stone.weight == 1.5
    assert not hasattr(stone, "__dict__")


def test_values_of_one_class_are_compared_and_hashed_by_what_counts() -> None:
    assert Stone(1.5, marks={"a": 1}) == Stone(1.5)
    assert hash(Stone(1.5, marks={"a": 1})) == hash(Stone(1.5))
    assert Stone(1.5) != Stone(1.6)
    others: list[object] = [Model(1.5), Gem(1.5), 1.5]
    assert Stone(1.5) not in others
    assert Loose(1.0) == 7
    assert hash(Loose(1.0)) == hash(Loose(1.0)) != hash(Loose(2.0))


def test_it_is_shown_and_taken_apart_as_a_dataclass_is() -> None:
    assert repr(Stone(1.5)) == repr(Model(1.5)).replace("Model", "Stone")
    assert [one.name for one in fields(Stone)] == [one.name for one in fields(Model)]
    assert replace(Stone(1.5, "x"), weight=2.0) == Stone(2.0, "x")
    match Stone(1.5, "x"):
        case Stone(weight, name):
            assert (weight, name) == (1.5, "x")


def test_a_class_below_adds_fields_and_has_its_say() -> None:
    assert Gem(1.5, colour="blue").name == "plain"
    with pytest.raises(ValueError, match="colour"):
        Gem(1.5, colour="")


def test_a_copy_is_equal() -> None:
    stone = Stone(1.5, "x", {"a": 1})
    for twin in (deepcopy(stone), pickle.loads(pickle.dumps(stone))):
        assert twin == stone
        assert twin.marks == {"a": 1}


def test_whether_a_class_is_frozen_can_be_asked_however_it_was_made() -> None:
    @dataclass
    class Soft:
        """Can be changed."""

        weight: float

    assert [is_frozen(kind) for kind in (Stone, Gem, Model, Soft)] == [True, True, True, False]


def test_a_field_that_is_no_argument_is_refused_where_it_is_defined() -> None:
    with pytest.raises(TypeError, match="every field is an argument"):

        @frozen_value
        class Odd:
            """Has a field that nobody can give."""

            weight: float = field(default=1.0, init=False)

"""Frozen values: dataclasses that are quick to define.

The standard library compiles six functions for a frozen dataclass. A command loads some
hundred and fifty of them, and spent more time on that than on reading a game. Here one
function is compiled, `__init__`; the others are the same for all and only read the fields.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import MISSING, Field, FrozenInstanceError, dataclass, field, fields
from operator import attrgetter
from typing import Any, TypeVar, dataclass_transform

T = TypeVar("T")
_set = object.__setattr__


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def frozen_value(cls: type[T]) -> type[T]:
    """Make `cls` what `dataclass(frozen=True, slots=True)` makes of it.

    Its methods go before ours. Every field is an argument, by place or by name.
    """
    made: Any = dataclass(init=False, repr=False, eq=False, slots=True)(cls)
    all_fields = fields(made)
    for name, method in _methods(made, all_fields):
        if name not in cls.__dict__ or (name == "__hash__" and cls.__hash__ is None):
            setattr(made, name, method)
    made_class: type[T] = made
    return made_class


def is_frozen(kind: Any) -> bool:
    """Tell whether nothing can be set on values of the dataclass `kind`."""
    return kind.__setattr__ is _refuse_to_set or bool(kind.__dataclass_params__.frozen)


def _methods(cls: Any, all_fields: tuple[Field[Any], ...]) -> Iterator[tuple[str, Any]]:
    """Yield what a frozen value can do, by name."""
    compared = _values([one.name for one in all_fields if one.compare])
    shown = [one.name for one in all_fields if one.repr]

    def equal(self: Any, other: Any) -> Any:
        if other.__class__ is not self.__class__:
            return NotImplemented
        return compared(self) == compared(other)

    def hashed(self: Any) -> int:
        return hash(compared(self))

    def show(self: Any) -> str:
        inside = ", ".join(f"{name}={getattr(self, name)!r}" for name in shown)
        return f"{self.__class__.__qualname__}({inside})"

    yield "__init__", _init(cls, all_fields)
    yield "__eq__", equal
    yield "__hash__", hashed
    yield "__repr__", show
    yield "__setattr__", _refuse_to_set
    yield "__delattr__", _refuse_to_delete
    yield "__getstate__", _state
    yield "__setstate__", _restore


def _values(names: list[str]) -> Any:
    """Return what gives the values of these attributes, as a tuple however many they are."""
    if len(names) > 1:
        return attrgetter(*names)
    return lambda self: tuple(getattr(self, name) for name in names)


def _init(cls: Any, all_fields: tuple[Field[Any], ...]) -> Any:
    """Compile `__init__`, which sets fields past the lock that all others meet."""
    given: list[str] = []
    lines: list[str] = []
    known: dict[str, Any] = {"_set": _set, "_given": _given, "_missing": MISSING}
    for one in all_fields:
        if one.kw_only or not one.init:
            raise TypeError(f"{cls.__qualname__}.{one.name}: every field is an argument")
        value = name = one.name
        if one.default is not MISSING:
            known[f"_default_{name}"] = one.default
            given.append(f"{name}=_default_{name}")
        elif one.default_factory is not MISSING:
            known[f"_make_{name}"] = one.default_factory
            given.append(f"{name}=_missing")
            value = f"_given({name}, _make_{name})"
        else:
            given.append(name)
        lines.append(f" _set(self, {name!r}, {value})")
    if hasattr(cls, "__post_init__"):
        lines.append(" self.__post_init__()")
    head = f"def __init__(self, {', '.join(given)}):"
    exec("\n".join([head, *(lines or [" pass"])]), known)  # noqa: S102 - names of fields alone
    known["__init__"].__qualname__ = f"{cls.__qualname__}.__init__"
    return known["__init__"]


def _given(value: Any, make: Callable[[], Any]) -> Any:
    return make() if value is MISSING else value


def _refuse_to_set(self: Any, name: str, value: Any) -> None:
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _refuse_to_delete(self: Any, name: str) -> None:
    raise FrozenInstanceError(f"cannot delete field {name!r}")


def _state(self: Any) -> list[Any]:
    return [getattr(self, one.name) for one in fields(self)]


def _restore(self: Any, state: list[Any]) -> None:
    for one, value in zip(fields(self), state, strict=True):
        _set(self, one.name, value)

"""`dataclass`, `field` and `replace` for this package: the standard ones to whoever reads the code
or checks its types, made to start fast.

The standard decorator compiles six functions for every class, and loads a good part of Python's
own compiler to do so. For the hundred and more small values of this package that took longer, at
every start, than reading, working and checking a pattern. Here the functions are the same for all
classes. Only a class of many values gets an `__init__` of its own, compiled when it has `FEW`: most
classes have none or a handful in a run.
"""

from __future__ import annotations

from operator import attrgetter
from typing import TYPE_CHECKING, Any

__all__ = ["dataclass", "field", "is_value", "replace"]

FEW = 40
"""Compiling an `__init__` takes as long as making about so many values without one."""
_set = object.__setattr__

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from dataclasses import dataclass, field, replace
else:

    def dataclass(*, frozen=False, slots=False):
        """The decorator for a value; without `frozen`, for what grows while it is made."""
        return lambda cls: _made(cls, frozen, slots)

    def field(**said):
        """What is special about a field: default, default_factory, compare, repr."""
        return _Special(said)

    def replace(value, /, **changes):
        """The same value but for some fields."""
        return type(value)(**{n: getattr(value, n) for n in value.__match_args__} | changes)


def is_value(what: object) -> bool:
    """Whether something is a class made by `dataclass` of this module."""
    return isinstance(what, type) and "__few__" in vars(what)


class _Special:
    """What `field` said of a field."""

    def __init__(self, said: dict[str, Any]) -> None:
        self.said = said


def _made(cls: type[Any], frozen: bool, slots: bool) -> type[Any]:
    """The class again, its fields taken out and everything a value needs put in."""
    names = tuple(cls.__annotations__)
    kept = {k: v for k, v in vars(cls).items() if k not in (*names, "__dict__", "__weakref__")}
    given = {name: vars(cls)[name] for name in names if name in vars(cls)}
    said = {n: v.said if isinstance(v, _Special) else {"default": v} for n, v in given.items()}
    own: dict[str, Any] = {
        "__match_args__": names,
        "__said__": said,
        "__few__": iter(range(FEW)),
        "__defaults__": {n: about["default"] for n, about in said.items() if "default" in about},
        "__compared__": _compared([n for n in names if said.get(n, {}).get("compare", True)]),
        "__dataclass_fields__": _Fields(),
    }
    if slots:
        own["__slots__"] = names
    shared = _SHARED | (_FROZEN if frozen else _GROWING)
    made_by: Any = type(cls)
    again: type[Any] = made_by(cls.__name__, cls.__bases__, {**shared, **kept, **own})
    again.__qualname__ = cls.__qualname__
    return again


class _Fields:
    """What the standard library asks a dataclass for, worked out only if it does."""

    def __get__(self, value: object, cls: type[Any]) -> dict[str, Any]:
        import dataclasses

        given = {n: dataclasses.field(**said) for n, said in cls.__said__.items()}
        namespace = {"__annotations__": cls.__annotations__, "__module__": cls.__module__}
        standard: Any = type(cls.__name__, (), namespace | given)
        dataclasses.dataclass(init=False, repr=False, eq=False)(standard)
        found: dict[str, Any] = standard.__dataclass_fields__
        return found


def _init_of_few(self: Any, *args: Any, **named: Any) -> None:
    """Stands in for `__init__` until a class has many values, or one is made wrongly: Python then
    says best what is wrong."""
    cls = type(self)
    all_by_place = not named and len(args) == len(cls.__match_args__)
    values = args if all_by_place else _values(cls, args, named)
    if values is None or next(cls.__few__, None) is None:
        cls.__init__ = _init(cls.__match_args__, cls.__said__)
        cls.__init__(self, *args, **named)
        return
    for name, value in zip(cls.__match_args__, values, strict=True):
        _set(self, name, value)


def _values(cls: Any, args: Sequence[Any], named: dict[str, Any]) -> Sequence[Any] | None:
    """The values of all fields in order; None if too many, too few or others are given."""
    names: tuple[str, ...] = cls.__match_args__
    given = dict(zip(names, args, strict=False)) | named
    values = cls.__defaults__ | given
    if len(values) < len(names):
        made = {n: about["default_factory"] for n, about in cls.__said__.items() if n not in values}
        values |= {name: make() for name, make in made.items()}
    right = len(given) == len(args) + len(named) and values.keys() == set(names)
    return [values[name] for name in names] if right else None


def _init(names: tuple[str, ...], said: dict[str, dict[str, Any]]) -> Any:
    known: dict[str, Any] = {"_set": _set, "_none": object()}
    parameters, lines = ["self"], []
    for name in names:
        about = said.get(name, {})
        parameters.append(name)
        if "default" in about:
            known[f"_default_{name}"] = about["default"]
            parameters[-1] += f"=_default_{name}"
        elif "default_factory" in about:
            known[f"_make_{name}"] = about["default_factory"]
            parameters[-1] += "=_none"
            lines.append(f" if {name} is _none: {name} = _make_{name}()")
        lines.append(f" _set(self, {name!r}, {name})")
    exec(f"def __init__({', '.join(parameters)}):\n" + "\n".join(lines or [" pass"]), known)
    return known["__init__"]


def _refuse_to_set(self: Any, name: str, value: object) -> None:
    raise AttributeError(f"cannot assign to {name!r}: values are frozen")


def _refuse_to_delete(self: Any, name: str) -> None:
    raise AttributeError(f"cannot delete {name!r}: values are frozen")


def _repr(self: Any) -> str:
    said = self.__said__
    names = (n for n in self.__match_args__ if said.get(n, {}).get("repr", True))
    shown = ", ".join(f"{name}={getattr(self, name)!r}" for name in names)
    return f"{type(self).__qualname__}({shown})"


def _reduce(self: Any) -> tuple[Any, tuple[Any, ...]]:
    """How a value goes to another process: its class and its fields, nothing worked out since."""
    return type(self), tuple(getattr(self, name) for name in self.__match_args__)


def _compared(names: list[str]) -> Callable[[Any], Any]:
    """What gives the fields that count in a comparison; where none does, all values are alike."""
    return attrgetter(*(names or ["__class__"]))


def _eq(self: Any, other: Any) -> Any:
    if type(other) is not type(self):
        return NotImplemented
    return self.__compared__(self) == self.__compared__(other)


def _hash(self: Any) -> int:
    return hash(self.__compared__(self))


_SHARED = {
    "__init__": _init_of_few,
    "__repr__": _repr,
    "__eq__": _eq,
    "__reduce__": _reduce,
}
_FROZEN = {
    "__setattr__": _refuse_to_set,
    "__delattr__": _refuse_to_delete,
    "__hash__": _hash,
}
_GROWING = {"__hash__": None}

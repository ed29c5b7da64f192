"""`dataclass` for this package: the standard one to whoever reads or checks types, made faster.

The standard decorator compiles six functions for every class. With the hundred and more small
values of this package that took as long at every start as reading, working and checking a pattern.
Here `__init__` alone is compiled; the other five are the same functions for all classes.
"""

from __future__ import annotations

import dataclasses
from dataclasses import MISSING, FrozenInstanceError, field
from typing import TYPE_CHECKING, Any

__all__ = ["dataclass", "field"]

if TYPE_CHECKING:
    from dataclasses import dataclass
else:

    def dataclass(*, frozen: bool, slots: bool = False):
        """The decorator for a frozen value. Anything else is asked of the standard library."""
        if not frozen:
            raise TypeError("values of this package are frozen")
        return lambda cls: _with_slots(_frozen(cls)) if slots else _frozen(cls)


_PROTECTED = object.__setattr__


def _frozen(cls: type[Any]) -> type[Any]:
    cls.__doc__ = cls.__doc__ or cls.__name__  # or the standard decorator works out a signature
    dataclasses.dataclass(init=False, repr=False, eq=False)(cls)
    fields = dataclasses.fields(cls)
    cls.__compared__ = tuple(f.name for f in fields if f.compare)
    cls.__init__ = _init(fields)
    for name, function in _SHARED.items():
        if name not in cls.__dict__:
            setattr(cls, name, function)
    return cls


def _init(fields: tuple[dataclasses.Field[Any], ...]) -> Any:
    """The one function that differs from class to class, compiled from its text."""
    known: dict[str, Any] = {"_set": _PROTECTED, "_missing": MISSING}
    parameters, lines = ["self"], []
    for f in fields:
        parameters.append(f.name)
        if f.default is not MISSING:
            known[f"_default_{f.name}"] = f.default
            parameters[-1] += f"=_default_{f.name}"
        elif f.default_factory is not MISSING:
            known[f"_make_{f.name}"] = f.default_factory
            parameters[-1] += "=_missing"
            lines.append(f" if {f.name} is _missing: {f.name} = _make_{f.name}()")
        lines.append(f" _set(self, {f.name!r}, {f.name})")
    exec(f"def __init__({', '.join(parameters)}):\n" + "\n".join(lines or [" pass"]), known)
    return known["__init__"]


def _with_slots(cls: type[Any]) -> type[Any]:
    """The class again, with a slot for each field and no `__dict__`."""
    names = tuple(f.name for f in dataclasses.fields(cls))
    left_out = {*names, "__dict__", "__weakref__"}
    kept = {key: value for key, value in cls.__dict__.items() if key not in left_out}
    made_by: Any = type(cls)
    again: type[Any] = made_by(cls.__name__, cls.__bases__, {**kept, "__slots__": names})
    again.__qualname__ = cls.__qualname__
    return again


def _refuse_to_set(self: Any, name: str, value: object) -> None:
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _refuse_to_delete(self: Any, name: str) -> None:
    raise FrozenInstanceError(f"cannot delete field {name!r}")


def _repr(self: Any) -> str:
    shown = (f"{f.name}={getattr(self, f.name)!r}" for f in dataclasses.fields(self) if f.repr)
    return f"{type(self).__qualname__}({', '.join(shown)})"


def _compared(self: Any) -> tuple[Any, ...]:
    return tuple([getattr(self, name) for name in self.__compared__])


def _eq(self: Any, other: object) -> bool:
    return _compared(self) == _compared(other) if type(other) is type(self) else NotImplemented


def _hash(self: Any) -> int:
    return hash(_compared(self))


_SHARED = {
    "__setattr__": _refuse_to_set,
    "__delattr__": _refuse_to_delete,
    "__repr__": _repr,
    "__eq__": _eq,
    "__hash__": _hash,
}

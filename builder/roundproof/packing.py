"""Values as bytes, to be kept, and back.

Nothing but plain values of this package comes back, whatever the bytes hold: Python's own way of
reading them, with a short list of what may be made and no call of anything else.
"""

from __future__ import annotations

import io
import pickle
from datetime import date
from enum import Enum
from pathlib import PosixPath, WindowsPath
from typing import Any, TypeVar

from markupsafe import Markup

from roundproof.frozen import is_value

T = TypeVar("T")

_OTHERS: dict[tuple[str, str], Any] = {
    (kind.__module__, kind.__name__): kind for kind in (date, Markup, PosixPath, WindowsPath)
}


def packed(value: object) -> bytes:
    return pickle.dumps(value, 5)


def unpacked(data: bytes, kind: type[T]) -> T | None:
    """The value; None where the bytes hold none of that kind."""
    try:
        value = _Reader(io.BytesIO(data)).load()
    except Exception:  # bytes that are not ours raise many things
        return None
    return value if isinstance(value, kind) else None


class _Reader(pickle.Unpickler):
    def find_class(self, module: str, name: str) -> Any:
        """The frozen values and the closed lists of words of this package, and a few of others'."""
        if found := _OTHERS.get((module, name)):
            return found
        if module.startswith("roundproof.") and "__main__" not in module and "." not in name:
            found = super().find_class(module, name)
            if is_value(found) or (isinstance(found, type) and issubclass(found, Enum)):
                return found
        raise pickle.UnpicklingError(f"{module}.{name} is none of ours")

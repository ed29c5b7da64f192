"""What is made once and kept for the next build."""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol


class Once(Protocol):
    """What `make` gives, made before or now; `parts` are what it depends on besides the code and
    the site's colours."""

    def __call__(self, make: Callable[[], bytes], *parts: str | bytes) -> bytes: ...

"""Regular expressions that are compiled when they are first looked for.

Compiling the expressions of this package took longer, at every start, than reading a pattern with
them, and most patterns need few: a module that has many of them makes them here.
"""

from __future__ import annotations

import re
from typing import Any, cast

_DOES = ("match", "search", "fullmatch", "finditer", "findall", "sub", "split")


def expression(written: str, flags: int = 0) -> re.Pattern[str]:
    """What `re.compile` gives, as soon as it is used."""
    return cast("re.Pattern[str]", _Expression(written, flags))


class _Expression:
    def __init__(self, written: str, flags: int) -> None:
        self.written, self.flags = written, flags

    def __getattr__(self, name: str) -> Any:
        """Asked for only once: from then on the methods of the compiled one are found here."""
        compiled = re.compile(self.written, self.flags)
        vars(self).update({does: getattr(compiled, does) for does in _DOES})
        return getattr(compiled, name)

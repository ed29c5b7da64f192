"""An expression that is compiled late finds what one does that is compiled at once."""

from __future__ import annotations

import re
from unittest.mock import patch

import pytest

from roundproof.expressions import expression


def test_it_is_compiled_once_and_only_if_it_is_used() -> None:
    with patch("re.compile", wraps=re.compile) as compiled:
        number = expression(r"\d+")
        assert not compiled.called
        found = [number.findall("R1: 6 sc"), number.sub("n", "R1"), number.search("none")]
        assert found == [["1", "6"], "Rn", None]
        assert compiled.call_count == 1


def test_flags_count() -> None:
    assert expression("rnd", re.IGNORECASE).match("RND 3")
    assert not expression("rnd").match("RND 3")


def test_whatever_a_compiled_one_has_it_has() -> None:
    assert expression("(?P<n>a)").groupindex == {"n": 1}
    with pytest.raises(AttributeError):
        _ = expression("a").nothing  # type: ignore[attr-defined]

"""Names come out clean, as folders and addresses."""

import pytest

from roundproof.writing.slug import slug


@pytest.mark.parametrize(
    ("name", "clean"),
    [
        ("Moon jelly", "moon-jelly"),
        ("  Über-Krabbe No. 1!  ", "uber-krabbe-no-1"),
        ("../../etc/passwd", "etc-passwd"),
        ('"><script>alert(1)</script>', "script-alert-1-script"),
        ("Grandma's crab", "grandmas-crab"),
        ("カニ", ""),
        ("---", ""),
        ("x" * 59 + " y z", "x" * 59),
    ],
)
def test_slugs(name: str, clean: str) -> None:
    assert slug(name) == clean

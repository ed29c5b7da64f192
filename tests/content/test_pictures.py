"""The pictures of the collection are those that its patterns give."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from types import ModuleType

import pytest
from PIL import Image, ImageChops, ImageStat

HERE = Path(__file__).parent


def script() -> ModuleType:
    spec = importlib.util.spec_from_file_location("draw_pictures", HERE / "draw_pictures.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    import sys

    sys.modules[spec.name] = module  # its dataclasses look their module up
    spec.loader.exec_module(module)
    return module


DRAW = script()


@pytest.mark.parametrize("slug", DRAW.PICTURES)
def test_the_picture_kept_is_the_one_the_pattern_gives(slug: str) -> None:
    # Not byte for byte: how edges are smoothed may change with the imaging library.
    with Image.open(DRAW.file_of(slug)) as kept:
        apart = ImageChops.difference(kept.convert("RGB"), DRAW.picture(slug).convert("RGB"))
    assert max(ImageStat.Stat(apart).mean) < 0.5, "run `make pictures`"


@pytest.mark.parametrize("slug", DRAW.PICTURES)
def test_a_picture_is_light_enough_for_a_slow_line(slug: str) -> None:
    assert DRAW.file_of(slug).stat().st_size < 150_000

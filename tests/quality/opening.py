"""Pages opened as people meet them: on a phone or a desktop, on each ground, all of it unfolded."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any, Literal

from playwright.sync_api import Browser, Page

Ground = Literal["white", "dark", "cream"]
SCREENS = {"phone": (390, 844), "desktop": (1280, 900)}

UNFOLD = """() => {
  for (const part of document.querySelectorAll("details")) part.open = true;
  document.activeElement?.blur();
  // Every other box is ticked, so that rounds done and rounds to do are both looked at.
  document.querySelectorAll("input[type=checkbox]").forEach((box, n) => {
    if (n % 2 && !box.checked && !box.disabled && box.offsetParent) box.click();
  });
}"""


@contextmanager
def opened(
    browser: Browser, screen: str = "desktop", ground: Ground = "white", **more: Any
) -> Iterator[Page]:
    """A page without motion. Light and dark are the device's; cream is a reader's choice, kept as
    the settings of a page keep it."""
    width, height = SCREENS[screen]
    with browser.new_context(
        viewport={"width": width, "height": height},
        color_scheme="dark" if ground == "dark" else "light",
        reduced_motion="reduce",
        **more,
    ) as context:
        if ground == "cream":
            context.add_init_script(
                'localStorage.setItem("roundproof:choices", JSON.stringify({ground: "cream"}))'
            )
        page = context.new_page()
        yield page


def unfold(page: Page) -> None:
    """Open what can be opened, tick every other box."""
    page.evaluate(UNFOLD)

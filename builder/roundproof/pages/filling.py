"""Pages filled from their templates, without the site's host: the same frame around every page, the
same bytes whoever fills it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from markupsafe import Markup

from roundproof.frozen import dataclass
from roundproof.pages.look import THEME, Look
from roundproof.pages.pattern_folder import SitePage
from roundproof.pages.policy import with_digests
from roundproof.pages.structured import as_json
from roundproof.processes import ToMend
from roundproof.store import stamp

if TYPE_CHECKING:
    from jinja2 import Environment, TemplateError


@dataclass(frozen=True, slots=True)
class Link:
    """A page of the navigation, by its address from the site's root."""

    title: str
    address: str


@dataclass(frozen=True, slots=True)
class Frame:
    """What stands on every page of a site. `root` is where the site begins on its host, without a
    slash at its end; `themes` are the folders of templates, the first goes before the others;
    `look` are the site's own colours; `base` is the whole address of where it begins, with a slash
    at its end, if it is told."""

    name: str
    root: str
    nav: tuple[Link, ...]
    foot: tuple[Link, ...]
    themes: tuple[str, ...]
    look: Look = THEME
    serving: bool = False
    base: str = ""

    @property
    def told(self) -> bool:
        """Whether there is a site with an address, of which others may be told."""
        return bool(self.base) and not self.serving

    def looks(self) -> str:
        """Stands for the templates; a change of any may change every page."""
        return stamp(map(Path, self.themes), (".html", ".typ", ".ttf"))


@dataclass(frozen=True, slots=True)
class Way:
    """A link of the site's navigation."""

    title: str
    url: str
    here: bool


@dataclass(frozen=True, slots=True)
class SiteValues:
    """What every page knows of its site. `url` turns a path from the site's root into a link;
    `base` is the whole address of that root and `here` that of the page, where the site has one;
    `own` says whether it has colours of its own, `offline` whether it may be kept on a device."""

    name: str
    nav: tuple[Way, ...]
    foot: tuple[Way, ...]
    url: Callable[[str], str]
    own: bool = False
    base: str = ""
    here: str = ""
    offline: bool = False

    def data(self, told: Mapping[str, object]) -> Markup:
        """A block of data for machines, with whole addresses where the site has one."""
        return as_json(
            told, lambda address: self.base + address if self.base else self.url(address)
        )


def site_values(frame: Frame, at: str | None) -> SiteValues:
    """For the page at an address; None for a page that stands for any address, such as 404.html,
    which links from the root of the host."""

    def url(path: str) -> str:
        return f"{frame.root}/{path}" if at is None else relative(path, at)

    def ways(links: tuple[Link, ...]) -> tuple[Way, ...]:
        return tuple(Way(each.title, url(each.address), each.address == at) for each in links)

    own = bool(frame.look.sheet)
    base = frame.base if frame.told else ""
    here = base + at if base and at is not None else ""
    nav, foot = ways(frame.nav), ways(frame.foot)
    return SiteValues(frame.name, nav, foot, url, own, base, here, not frame.serving)


def relative(path: str, at: str) -> str:
    """The way from one page to another, both from the site's root."""
    there, here = path.split("/"), at.split("/")[:-1]
    while here and there and here[0] == there[0]:
        del here[0], there[0]
    return "/".join([*[".."] * len(here), *there]) or "."


class CannotFill(ToMend):
    """A template cannot be used, one of the site's own that is; the message says which and why."""


def _told(stop: TemplateError, name: str) -> str:
    at = getattr(stop, "filename", None) or getattr(stop, "name", None) or name
    line = f", line {number}" if (number := getattr(stop, "lineno", None)) else ""
    return f"{at}{line}: {stop.message or type(stop).__name__}"


class Filler:
    """Fills pages of one site."""

    def __init__(self, frame: Frame) -> None:
        self.frame = frame
        self._env: Environment | None = None

    def page(self, page: SitePage) -> bytes:
        """The page's file. Raises CannotFill for templates that cannot be used."""
        from jinja2 import TemplateError

        site = site_values(self.frame, page.address)
        given = {"site": site, "noindex": not page.listed}
        try:
            template = self._environment().get_template(page.template)
            text: str = template.render(given | dict(page.values))
        except TemplateError as stop:
            raise CannotFill(_told(stop, page.template)) from stop
        return with_digests(text).encode("utf-8", "xmlcharrefreplace")

    def _environment(self) -> Environment:
        if self._env is None:
            from jinja2 import Environment, FileSystemLoader

            self._env = Environment(
                loader=FileSystemLoader(self.frame.themes), autoescape=True, auto_reload=False
            )
        return self._env

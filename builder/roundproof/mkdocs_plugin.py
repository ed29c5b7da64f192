"""The site's host: the only file that imports MkDocs.

The pages are worked out beforehand (`pages.site`); here they are handed over as generated files,
and each gets its values when its template is filled. `mkdocs build` empties the old site before
anything is rendered, so whatever must stop a build is raised in `on_pre_build`. The preview is
never stopped: findings stand beside what they concern.
"""

from __future__ import annotations

import logging
import os
import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, date, datetime
from importlib.resources import files as resources
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import urlsplit

from mkdocs.commands.build import build
from mkdocs.commands.serve import serve
from mkdocs.config import config_options, load_config
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, ConfigurationError, PluginError
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.utils import get_relative_url
from mkdocs.utils.templates import TemplateContext

from roundproof.frozen import dataclass
from roundproof.pages.look import OWN_SHEET, Look, look
from roundproof.pages.search_index import ADDRESS as SEARCH_INDEX
from roundproof.pages.search_index import Entry, search_script, written_entries
from roundproof.pages.site import Site, whole_site
from roundproof.pages.standing import Standing, standing
from roundproof.pipeline import prove

if TYPE_CHECKING:
    from jinja2 import Environment
    from mkdocs.livereload import LiveReloadServer
    from mkdocs.structure.nav import Navigation
    from mkdocs.structure.pages import Page

THEME = "roundproof"
FRONT = "index.md"
FOR_MAKERS = {
    "patterns/index.md": "Patterns",
    "how-to-read.md": "How to read",
    "glossary.md": "Glossary",
}
SEARCH = {"search.md": "Search"}
AT_THE_FOOT = {
    "for-designers.md": "For designers",
    "how-to-write.md": "How to write",
    "checks/index.md": "Checks",
    "credits.md": "Credits and licences",
}
"""Pages that every site has and what the way to them is called; a site's own pages stand between
those for makers and the search."""
NO_DATE = date(1980, 1, 1)
"""Stands for the date of a site without any, so that it too comes out the same every time."""

_FIRST_HEADING = re.compile(r"\s*<h1[^>]*>.*?</h1>", re.S)
_log = logging.getLogger("mkdocs.plugins.roundproof")


class HostError(Exception):
    """The host cannot build; the message is for the designer."""


@dataclass(frozen=True, slots=True)
class Way:
    """A link of the site's navigation."""

    title: str
    url: str
    here: bool


@dataclass(frozen=True, slots=True)
class SiteValues:
    """What every page knows of its site. `url` turns a path from the site's root into a link."""

    name: str
    nav: tuple[Way, ...]
    foot: tuple[Way, ...]
    url: Callable[[str], str]
    own: bool = False
    """Whether the site has colours of its own."""


class RoundproofOptions(Config):  # type: ignore[no-untyped-call]
    patterns = config_options.Type(str, default="patterns")


class RoundproofPlugin(BasePlugin[RoundproofOptions]):  # type: ignore[no-untyped-call]
    """Adds to a site whatever follows from its patterns."""

    given: Site | None = None
    """The site, where the patterns were read beforehand."""
    preview = False

    def on_startup(self, *, command: str, dirty: bool) -> None:
        self.preview = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        if config.theme.name != THEME:
            raise PluginError(f"The pages need `theme: {{name: {THEME}}}` in mkdocs.yml.")
        config.use_directory_urls = False  # addresses are final: they get printed on paper
        return config

    def on_pre_build(self, *, config: MkDocsConfig) -> None:
        self.site = self.given or self._proved(config)
        if self.site.troubles and not self.preview:
            raise PluginError(" ".join(self.site.troubles))
        stamp = datetime.combine(self.site.newest or NO_DATE, datetime.min.time(), UTC)
        os.environ.setdefault("SOURCE_DATE_EPOCH", str(int(stamp.timestamp())))

    def _proved(self, config: MkDocsConfig) -> Site:
        results = prove(patterns_folder(config))
        stops = [r.name for r in results.files if standing(r) is Standing.STOPS]
        if stops and not self.preview:
            raise PluginError(f"Errors in {', '.join(stops)}: see `roundproof check`.")
        found, troubles = _look(config)
        if troubles and not self.preview:
            raise PluginError(" ".join(troubles))
        return whole_site(results, preview=self.preview, look=found)

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        for module in _modules_of_the_theme(files):
            files.remove(module)  # the pages get them joined
        self.made = {_source(page.address): page for page in self.site.pages}
        self.written: list[Entry] = []
        for source in self.made:
            self._add(files, config, source, b"")
        for file in self.site.files:
            self._add(files, config, file.address, file.data)
        self._add(files, config, SEARCH_INDEX, b"")  # filled once all pages are read
        for page in _pages_of_the_theme():
            if not files.get_file_from_path(page.name):  # a site's own page goes before
                self._add(files, config, page.name, page.read_bytes())
        if not files.get_file_from_path(FRONT):
            self._add(files, config, FRONT, b"")
        return files

    def _add(self, files: Files, config: MkDocsConfig, source: str, data: bytes) -> None:
        if own := files.get_file_from_path(source):
            _log.warning(f"{own.abs_src_path} is in the way of a page made from the patterns.")
            files.remove(own)
        content = data.decode() if source.endswith(".md") else data
        files.append(
            File.generated(config, source, content=content, inclusion=InclusionLevel.NOT_IN_NAV)
        )

    def on_nav(self, nav: Navigation, *, config: MkDocsConfig, files: Files) -> Navigation:
        self.files = files
        self.own_pages = [p for p in nav.pages if p.file.src_uri != FRONT]
        return nav

    def on_env(self, env: Environment, *, config: MkDocsConfig, files: Files) -> Environment:
        env.autoescape = True  # the host leaves it off; designers' words go into every page
        index = files.get_file_from_path(SEARCH_INDEX)
        assert index is not None
        index.content_bytes = search_script((*self.site.search, *self.written))
        return env

    def on_page_markdown(
        self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files
    ) -> str:
        if made := self.made.get(page.file.src_uri):
            page.meta.update(template=made.template, listed=made.listed, changed=made.changed)
            return markdown
        if page.file.src_uri == FRONT:
            page.meta.setdefault("template", "front.html")
        page.meta.setdefault("description", page.meta.get("summary"))
        return markdown

    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """The first heading is lifted out of a hand-written page: the template sets it. Samples
        that are wider than a page can be pushed with the keyboard too."""
        html = html.replace("<pre>", '<pre tabindex="0">')
        if page.file.src_uri not in self.made and page.meta.get("listed", True):
            headings = [(h.title, h.id) for top in page.toc for h in (top, *top.children)]
            about = str(page.meta.get("description") or "")
            title = str(page.title or config.site_name)
            below = [heading for heading in headings if heading[0] != title]
            self.written += written_entries(title, page.url, about, below)
        return html[heading.end() :] if (heading := _FIRST_HEADING.match(html)) else html

    def on_page_context(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        values: dict[str, Any] = dict(context)
        values["site"] = self._site_values(config, page.url, page)
        values["serving"] = self.preview
        values["gallery"], values["files_unread"] = self.site.gallery, self.site.unread
        if made := self.made.get(page.file.src_uri):
            values["noindex"] = not made.listed
            values.update(made.values)
        return values  # type: ignore[return-value]

    def on_template_context(
        self, context: TemplateContext, *, template_name: str, config: MkDocsConfig
    ) -> TemplateContext:
        """Pages that stand for any address, such as 404.html, link from the root of the host."""
        values: dict[str, Any] = dict(context)
        values["site"] = self._site_values(config, None, None)
        values["serving"] = self.preview
        return values  # type: ignore[return-value]

    def _site_values(self, config: MkDocsConfig, at: str | None, page: Page | None) -> SiteValues:
        root = urlsplit(config.site_url or "/").path.rstrip("/")

        def url(path: str) -> str:
            return f"{root}/{path}" if at is None else get_relative_url(path, at)

        def ways(pages: dict[str, str]) -> list[Way]:
            there = {s: f for s in pages if (f := self.files.get_file_from_path(s))}
            return [Way(pages[s], url(f.url), f.page is page) for s, f in there.items()]

        pages = {p.file.src_uri: str(p.title) for p in self.own_pages}
        nav = ways(FOR_MAKERS | pages | SEARCH)
        foot = nav + ways(AT_THE_FOOT)
        own = self.files.get_file_from_path(OWN_SHEET) is not None
        return SiteValues(config.site_name, tuple(nav), tuple(foot), url, own)

    def on_serve(
        self, server: LiveReloadServer, *, config: MkDocsConfig, builder: Callable[..., None]
    ) -> LiveReloadServer:
        server.watch(str(patterns_folder(config)))
        return server


def patterns_folder(config: MkDocsConfig) -> Path:
    """The folder of the patterns; the option counts from where mkdocs.yml stands."""
    return Path(config.config_file_path).parent / _plugin(config).config.patterns


def _look(config: MkDocsConfig) -> tuple[Look, tuple[str, ...]]:
    """The colours that the settings tell, and what is wrong with them."""
    return look(config.theme.get("accent"), config.theme.get("strip"))


def _plugin(config: MkDocsConfig) -> RoundproofPlugin:
    plugin = config.plugins[THEME]
    assert isinstance(plugin, RoundproofPlugin)
    return plugin


def _source(address: str) -> str:
    """The host makes `a.html` of `a.md`."""
    return address.removesuffix(".html") + ".md"


def _pages_of_the_theme() -> list[Path]:
    folder = Path(str(resources("roundproof.theme"))) / "pages"
    return sorted(folder.glob("*.md"))


def _modules_of_the_theme(files: Files) -> list[File]:
    folder = Path(str(resources("roundproof.theme"))) / "js"
    return [f for f in files if f.abs_src_path and Path(f.abs_src_path).parent == folder]


# ---- used by the commands ----


@dataclass(frozen=True, slots=True)
class Settings:
    """Where a site's mkdocs.yml says that its patterns are and the site goes, and in which
    colours."""

    patterns: Path
    site: Path
    look: Look


def settings(file: Path) -> Settings:
    """A site's settings. Raises HostError."""
    with _plainly() as said:
        config = _loaded(file, said)
    found, troubles = _look(config)
    if troubles:
        raise HostError(f"{file} cannot be used. " + " ".join(troubles))
    return Settings(patterns_folder(config), Path(config.site_dir), found)


def build_site(file: Path, into: Path, site: Site) -> None:
    """Build into an empty folder. Raises HostError, for warnings too."""
    before = os.environ.get("SOURCE_DATE_EPOCH")
    with _plainly() as said:
        config = _loaded(file, said, site_dir=str(into), strict=True)
        _plugin(config).given = site
        try:
            config.plugins.on_startup(command="build", dirty=False)
            build(config)
        except (Abort, PluginError) as stop:
            raise HostError("\n".join(said) or str(stop)) from stop
        finally:
            if before is None:
                os.environ.pop("SOURCE_DATE_EPOCH", None)


def serve_site(file: Path, address: str) -> None:
    """The preview, until it is interrupted. Raises HostError."""
    try:
        serve(str(file), dev_addr=address, strict=False)
    except (Abort, ConfigurationError) as stop:
        raise HostError(str(stop)) from stop


def _loaded(file: Path, said: list[str], **more: Any) -> MkDocsConfig:
    try:
        config = load_config(str(file), **more)
    except (Abort, ConfigurationError) as stop:
        reasons = said or [" ".join(str(stop).split())]
        raise HostError(f"{file} cannot be used. " + " ".join(reasons)) from stop
    if THEME not in config.plugins:
        raise HostError(f"{file} does not name the plugin: write `plugins: [{THEME}]` into it.")
    return config


@contextmanager
def _plainly() -> Iterator[list[str]]:
    """Collects what the host warns of, in place of its own way of saying so."""
    said: list[str] = []

    class Collector(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            said.append(record.getMessage())

    logger, collector = logging.getLogger("mkdocs"), Collector(logging.WARNING)
    logger.addHandler(collector)
    try:
        yield said
    finally:
        logger.removeHandler(collector)

"""The site's host: the only file that imports MkDocs.

What follows from the patterns is made beforehand (`making`, `pages.site`), to the last byte, and
handed over as files; the host makes the hand-written pages and holds all together. `mkdocs build`
empties the old site before anything is rendered, so whatever must stop a build is raised in
`on_pre_build`. The preview is never stopped.
"""

from __future__ import annotations

import logging
import os
import re
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager, suppress
from datetime import UTC, date, datetime
from importlib.resources import files as resources
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import urlsplit

from mkdocs.commands.build import build
from mkdocs.config import config_options, load_config
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, ConfigurationError, PluginError
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files, InclusionLevel, get_files
from mkdocs.structure.nav import get_navigation
from mkdocs.structure.pages import Page
from mkdocs.utils.templates import TemplateContext

from roundproof.frozen import dataclass
from roundproof.making import Given, Making, given, make
from roundproof.pages.filling import Frame, Link, site_values
from roundproof.pages.look import look
from roundproof.pages.offline import WORKER, worker
from roundproof.pages.pattern_folder import KeptFile, SiteFile
from roundproof.pages.search_index import ADDRESS as SEARCH_INDEX
from roundproof.pages.search_index import Entry, search_script, written_entries
from roundproof.pages.site import Site
from roundproof.pages.standing import Standing, standing
from roundproof.pages.ways import AT_THE_FOOT, FOR_MAKERS, SEARCH
from roundproof.processes import ToMend
from roundproof.store import FOLDER, Store

if TYPE_CHECKING:
    from jinja2 import Environment
    from mkdocs.livereload import LiveReloadServer
    from mkdocs.structure.nav import Navigation

THEME = "roundproof"
FRONT = "index.md"
NO_DATE = date(1980, 1, 1)
"""Stands for the date of a site without any, so that it too comes out the same every time."""

_FIRST_HEADING = re.compile(r"\s*<h1[^>]*>.*?</h1>", re.S)
_log = logging.getLogger("mkdocs.plugins.roundproof")


class HostError(Exception):
    """The host cannot build; the message is for the designer."""


class ReadyFile(File):
    """A page that is written as it is. Others may link to it as `glossary.md`, and name it so in
    the navigation, as if the host made it."""

    def __init__(self, config: MkDocsConfig, file: SiteFile, written: bool = True) -> None:
        source = _source(file.address)
        self.written = written
        super().__init__(source, None, config.site_dir, False, dest_uri=file.address)
        self.generated_by = THEME
        self.inclusion = InclusionLevel.NOT_IN_NAV
        self._content = file.data

    def is_documentation_page(self) -> bool:
        return False

    def copy_file(self, dirty: bool = False) -> None:
        if self.written:
            super().copy_file(dirty)


class LinkedFile(ReadyFile):
    """One that is in the store already."""

    def __init__(self, config: MkDocsConfig, file: KeptFile, store: Store) -> None:
        super().__init__(config, SiteFile(file.address, b""))
        self.kept, self.store = file.kept, store

    def copy_file(self, dirty: bool = False) -> None:
        self.store.link(self.kept, self.abs_dest_path)


class RoundproofOptions(Config):  # type: ignore[no-untyped-call]
    patterns = config_options.Type(str, default="patterns")


class RoundproofPlugin(BasePlugin[RoundproofOptions]):  # type: ignore[no-untyped-call]
    """Adds to a site whatever follows from its patterns."""

    given: Given | None = None
    """What the patterns give, where they were read beforehand."""
    preview = False

    def on_startup(self, *, command: str, dirty: bool) -> None:
        self.preview = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        if config.theme.name != THEME:
            raise PluginError(f"The pages need `theme: {{name: {THEME}}}` in mkdocs.yml.")
        config.use_directory_urls = False  # addresses are final: they get printed on paper
        return config

    def on_pre_build(self, *, config: MkDocsConfig) -> None:
        self.here = self.given or self._made(config)
        self.site = self.here.site
        if self.site.troubles and not self.preview:
            raise PluginError(" ".join(self.site.troubles))
        stamp = datetime.combine(self.site.newest or NO_DATE, datetime.min.time(), UTC)
        os.environ.setdefault("SOURCE_DATE_EPOCH", str(int(stamp.timestamp())))

    def _made(self, config: MkDocsConfig) -> Given:
        """For the host's own commands."""
        frame = _frame(config, serving=self.preview)
        try:
            making = Making.of(frame, _store(config))
            everything = make(making, patterns_folder(config))
            whole = given(everything, making)
        except ToMend as stop:
            raise PluginError(str(stop)) from stop
        results = everything.results
        stops = [r.name for r in results.files if standing(r) is Standing.STOPS]
        if stops and not self.preview:
            raise PluginError(f"Errors in {', '.join(stops)}: see `roundproof check`.")
        return whole

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        for file in _kept_back(files):
            files.remove(file)
        for made in self.here.files:
            self._add(files, ReadyFile(config, made, self.here.written))
        self.index = ReadyFile(config, SiteFile(SEARCH_INDEX, b""))  # filled once all is read
        self.written: list[Entry] = []
        store = Store(_store(config))
        for kept in self.here.kept:
            self._add(files, LinkedFile(config, kept, store))
        self._add(files, self.index)
        for page in _pages_of_the_theme():
            if not files.get_file_from_path(page.name):  # a site's own page goes before
                self._add(files, _generated(config, page.name, page.read_text("utf-8")))
        if not files.get_file_from_path(FRONT):
            self._add(files, _generated(config, FRONT, ""))
        return files

    def _add(self, files: Files, file: File) -> None:
        if own := files.get_file_from_path(file.src_uri):
            _log.warning(f"{own.abs_src_path} is in the way of a page made from the patterns.")
            files.remove(own)
        files.append(file)

    def on_env(self, env: Environment, *, config: MkDocsConfig, files: Files) -> Environment:
        env.autoescape = True  # the host leaves it off; designers' words go into every page
        self.index.content_bytes = search_script((*self.site.search, *self.written))
        return env

    def on_page_markdown(
        self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files
    ) -> str:
        if page.file.src_uri == FRONT:
            page.meta.setdefault("template", "front.html")
        page.meta.setdefault("description", page.meta.get("summary"))
        return markdown

    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """The first heading is lifted out of a hand-written page: the template sets it. Samples
        that are wider than a page can be pushed with the keyboard too."""
        html = html.replace("<pre>", '<pre tabindex="0">')
        if page.meta.get("listed", True):
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
        values["site"] = site_values(self.here.frame, page.url)
        values["gallery"], values["files_unread"] = self.site.gallery, self.site.unread
        return values  # type: ignore[return-value]

    def on_template_context(
        self, context: TemplateContext, *, template_name: str, config: MkDocsConfig
    ) -> TemplateContext:
        """Pages that stand for any address, such as 404.html, link from the root of the host."""
        values: dict[str, Any] = dict(context)
        values["site"] = site_values(self.here.frame, None)
        base = self.here.frame.base
        values["listed"] = [(base + address, changed) for address, changed in self.here.listed]
        return values  # type: ignore[return-value]

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """The worker comes last: it knows every other file."""
        if self.here.written and not self.here.frame.serving:
            site = Path(config.site_dir)
            listed = {address.rpartition("/")[0] for address, _ in self.here.listed}
            (site / WORKER).write_bytes(worker(site, listed, self.here.kept))

    def on_serve(
        self, server: LiveReloadServer, *, config: MkDocsConfig, builder: Callable[..., None]
    ) -> LiveReloadServer:
        server.watch(str(patterns_folder(config)))
        return server


def patterns_folder(config: MkDocsConfig) -> Path:
    """The folder of the patterns; the option counts from where mkdocs.yml stands."""
    return Path(config.config_file_path).parent / _plugin(config).config.patterns


def _plugin(config: MkDocsConfig) -> RoundproofPlugin:
    plugin = config.plugins[THEME]
    assert isinstance(plugin, RoundproofPlugin)
    return plugin


def _source(address: str) -> str:
    """The host makes `a.html` of `a.md`."""
    page = address.removesuffix(".html")
    return address if page == address else page + ".md"


def _generated(config: MkDocsConfig, source: str, text: str) -> File:
    return File.generated(config, source, content=text, inclusion=InclusionLevel.NOT_IN_NAV)


def _store(config: MkDocsConfig) -> Path:
    return Path(config.config_file_path).parent / FOLDER


def _frame(config: MkDocsConfig, *, serving: bool = False) -> Frame:
    """What stands on every page. The titles of hand-written pages are read for it, as the host
    does; what is wrong with them the host says when it makes them. Raises PluginError for colours
    that do not do."""
    made = {*FOR_MAKERS, *SEARCH, *AT_THE_FOOT}
    colours, troubles = look(config.theme.get("accent"), config.theme.get("strip"))
    if troubles:
        raise PluginError(f"{config.config_file_path} cannot be used. " + " ".join(troubles))
    config.plugins.on_config(config)
    with _quietly():
        files = get_files(config)
        for source in made - {file.src_uri for file in files}:
            files.append(ReadyFile(config, SiteFile(source.removesuffix(".md") + ".html", b"")))
        own = [p for p in get_navigation(files, config).pages if p.file.src_uri != FRONT]
        named = {page.file.src_uri: _title(page, config, files) for page in own}
    nav = FOR_MAKERS | named | SEARCH
    root = urlsplit(config.site_url or "/").path.rstrip("/")

    def links(pages: dict[str, str]) -> tuple[Link, ...]:
        there = {source: files.get_file_from_path(source) for source in pages}
        return tuple(
            Link(title, file.url if (file := there[source]) else "index.html")
            for source, title in pages.items()
        )

    foot = nav | AT_THE_FOOT
    themes = tuple(map(str, config.theme.dirs))
    base = f"{config.site_url.rstrip('/')}/" if config.site_url else ""
    return Frame(config.site_name, root, links(nav), links(foot), themes, colours, serving, base)


def _title(page: Page, config: MkDocsConfig, files: Files) -> str:
    with suppress(Exception):  # whatever a page and the extensions of Markdown come to grief over
        if page.file.is_documentation_page():
            page.read_source(config)
            page.render(config, files)
    return page.title or page.file.name.replace("-", " ").replace("_", " ").capitalize()


def _pages_of_the_theme() -> list[Path]:
    folder = Path(str(resources("roundproof.theme"))) / "pages"
    return sorted(folder.glob("*.md"))


def _kept_back(files: Files) -> list[File]:
    """Files of the theme that no site gets: modules, which the pages get joined, what belongs to
    the preview, and what is for paper."""
    theme = Path(str(resources("roundproof.theme")))
    folders = tuple(f"{theme / name}{os.sep}" for name in ("js", "preview", "print"))
    return [f for f in files if f.abs_src_path and f.abs_src_path.startswith(folders)]


# ---- used by the commands ----


@dataclass(frozen=True, slots=True)
class Settings:
    """What a site's mkdocs.yml says: where its patterns and its hand-written pages are, where the
    site goes, what stands on every page; and the folder of what is kept."""

    patterns: Path
    docs: Path
    site: Path
    frame: Frame
    store: Path


def settings(file: Path, *, serving: bool = False) -> Settings:
    """A site's settings, for a build or for the preview. Raises HostError."""
    with _plainly() as said:
        config = _loaded(file, said)
        try:
            frame = _frame(config, serving=serving)
        except PluginError as stop:
            raise HostError(str(stop)) from stop
    docs, site = Path(config.docs_dir), Path(config.site_dir)
    return Settings(patterns_folder(config), docs, site, frame, _store(config))


def build_site(file: Path, into: Path, given: Given) -> None:
    """Build into an empty folder. Raises HostError, for warnings too."""
    before = os.environ.get("SOURCE_DATE_EPOCH")
    with _plainly() as said:
        config = _loaded(file, said, site_dir=str(into), strict=True)
        _plugin(config).given = given
        try:
            config.plugins.on_startup(command="build", dirty=False)
            build(config)
        except (Abort, PluginError) as stop:
            raise HostError("\n".join(said) or str(stop)) from stop
        finally:
            if before is None:
                os.environ.pop("SOURCE_DATE_EPOCH", None)


def host_pages(
    file: Path, into: Path, site: Site, frame: Frame, others: Iterable[str]
) -> tuple[str, ...]:
    """For the preview: what the host makes, into an empty folder; what it warns of. `others` are
    the addresses of all other pages, for links to them. Raises HostError."""
    before = os.environ.get("SOURCE_DATE_EPOCH")
    files = tuple(SiteFile(address, b"") for address in others)
    with _plainly() as said:
        config = _loaded(file, said, site_dir=str(into), strict=False)
        _plugin(config).given = Given(site, frame, files, written=False)
        try:
            config.plugins.on_startup(command="serve", dirty=False)
            build(config)
        except Exception as stop:  # whatever a page or a plugin comes to grief over
            raise HostError("\n".join(said) or str(stop)) from stop
        finally:
            if before is None:
                os.environ.pop("SOURCE_DATE_EPOCH", None)
    return tuple(said)


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


@contextmanager
def _quietly() -> Iterator[None]:
    """Nothing is said, nor counted."""
    before = logging.root.manager.disable
    logging.disable(logging.CRITICAL)
    try:
        yield
    finally:
        logging.disable(before)

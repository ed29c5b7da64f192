"""Small sites for tests: a folder with a few patterns, built as a user builds it."""

from pathlib import Path

from PIL import Image

from roundproof.making import Making, given, make
from roundproof.mkdocs_plugin import build_site, settings
from roundproof.preview.site import LiveSite

PEBBLE = """\
format: 1
title: {title}
status: {status}
summary: A pebble, grey and round.
designer: Roundproof examples
licence: CC-BY-4.0
contact: https://example.org/errata
terms: US
level: basic
size: {{height: 1.6 cm, width: 2.5 cm}}
yarns:
  slate:
    colour: {{name: slate grey, shade: "#6d7680"}}
    fibre: 100 % cotton
    weight: 3
    ball: 50 g / 125 m
    hook: 3 mm
    gauge: 23 sts x 25 rounds = 10 cm
notions: [fibrefill 1 g, tapestry needle]
safety: {{note: Keep it from young children.}}
care: Hand wash cool.
pieces:
  body:
    name: Body
    yarn: slate
    worked: spiral
    rounds: |
      R1: 6 sc in magic ring (6)
      R2: inc in each st around (12)
      R3: (sc, inc) x 6 ({third})
      R4-R6: sc around (18)
      R7: (sc, dec) x 6 (12)
      Stuff.
      R8: dec x 6 (6)
      Fasten off, leaving a 20 cm tail, and draw the last 6 stitches shut.
photos: [{photos}]
changes: [{{version: 1.0.0, date: {date}, note: First edition.}}]
"""

SETTINGS = """\
site_name: Tideline
site_url: https://example.org/shore/
docs_dir: site_src
theme: {name: roundproof}
plugins: [roundproof]
"""


def pebble(
    title: str = "Pebble",
    status: str = "published",
    third: int = 18,
    date: str = "2026-05-04",
    photos: str = "",
) -> str:
    """A whole pattern file; with `third=19` its third round has a wrong count."""
    return PEBBLE.format(title=title, status=status, third=third, date=date, photos=photos)


def write_site(folder: Path, front: str = "# Tideline\n\nStones.\n", **patterns: str) -> Path:
    """A site with patterns by folder; underscores in a name stand for hyphens."""
    (folder / "site_src").mkdir(parents=True)
    (folder / "mkdocs.yml").write_text(SETTINGS, "utf-8")
    (folder / "site_src/index.md").write_text(front, "utf-8")
    for name, text in patterns.items():
        write_pattern(folder, name.replace("_", "-"), text)
    return folder


def write_pattern(site: Path, name: str, text: str) -> None:
    file = site / "patterns" / name / "pattern.yaml"
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, "utf-8")


def write_photo(site: Path, pattern: str, name: str, **how: object) -> None:
    folder = site / "patterns" / pattern / "photos"
    folder.mkdir(parents=True, exist_ok=True)
    Image.new("RGB", (1600, 900), (90, 110, 130)).save(folder / name, **how)  # type: ignore[arg-type]


def contents(site: Path) -> dict[str, bytes]:
    """Every file of a folder by its address."""
    files = (path for path in site.rglob("*") if path.is_file())
    return {path.relative_to(site).as_posix(): path.read_bytes() for path in files}


def built_quickly(site: Path) -> dict[str, str]:
    """Build into `site/`, without following links; the templates of pages by their addresses, as
    far as those pages are not made of patterns."""
    host = settings(site / "mkdocs.yml")
    making = Making.of(host.frame, host.store)
    whole = given(make(making, host.patterns), making)
    assert not whole.site.troubles
    build_site(site / "mkdocs.yml", site / "site", whole)
    return {page.address: page.template for page in whole.site.pages}


def previewed(site: Path) -> Path:
    """All that the preview of a site shows, as files in `preview/`."""
    live = LiveSite(site / "mkdocs.yml")
    for _ in live.look():
        pass
    addresses = {address for path in live.patterns.all for address in live.patterns.files(path)}
    addresses |= {*live._around().addresses, "overview.html", "index.html"}
    addresses |= {"preview/preview.css", "preview/preview.js"}
    theme = Path(__file__).parents[1] / "theme"
    for kind in ("css/*.css", "fonts/*.woff2", "icon.svg"):
        addresses |= {file.relative_to(theme).as_posix() for file in theme.glob(kind)}
    into = site / "preview"
    for address in sorted(addresses):
        shown = live.file_at(address)
        assert shown, address
        (into / address).parent.mkdir(parents=True, exist_ok=True)
        (into / address).write_bytes(shown.data)
    return into

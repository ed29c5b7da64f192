"""What lets a site be installed, and be had without a network: a manifest (W3C, Web Application
Manifest), its icons, and the worker (W3C, Service Workers) with what it has to know of the site.
"""

from __future__ import annotations

import io
import json
import os
import re
from collections.abc import Iterable, Iterator, Mapping, Set
from hashlib import sha256
from importlib.resources import files as resources
from pathlib import Path

from roundproof.drawing.colour import GROUNDS, RGB, Ground, write_shade
from roundproof.pages.pattern_folder import KeptFile
from roundproof.pages.scripts import joined
from roundproof.store import digest_of

WORKER, MANIFEST = "sw.js", "manifest.webmanifest"
ICONS = {"icons/icon-192.png": 192, "icons/icon-512.png": 512, "icons/maskable-512.png": 512}
"""Sizes in pixels, those that browsers ask for before they offer to install a site."""
LEAST_NAME = 12
"""Characters of a short name, above which it may be cut under an icon."""
DIGITS = 12
"""Of the SHA-256 of a file, in hexadecimal: enough to tell the builds of one site apart."""

ALWAYS = re.compile(
    r"index\.html|patterns/index\.html|glossary\.html|how-to-read\.html|search\.html|404\.html"
    r"|(css|js|fonts|icons)/.*|icon\.svg|[^/]*\.json|manifest\.webmanifest"
)
"""Files that every reader has at once: the frame, the look, and the pages for makers."""
PATTERN = re.compile(r"patterns/[^/]+/(index\.html|yarns\.css)")
_FOLDER = re.compile(r"(patterns/[^/]+)/")
MOST_PATTERNS = 3_000_000
"""Bytes of all pattern pages, before compression, up to which every reader gets all of them; where
they are more, those that a reader has opened."""


def manifest(site_name: str, accent: RGB, ground: Ground = GROUNDS[0]) -> bytes:
    """The manifest. All addresses in it count from where it stands, the site's root."""
    icons = [
        {
            "src": address,
            "sizes": f"{size}x{size}",
            "type": "image/png",
            "purpose": "maskable" if "maskable" in address else "any",
        }
        for address, size in ICONS.items()
    ]
    name = " ".join(site_name.split())
    said = {
        "name": name,
        "short_name": name if len(name) <= LEAST_NAME else name.split()[0][:LEAST_NAME],
        "lang": "en",
        "start_url": "index.html",
        "scope": "./",
        "display": "standalone",
        "background_color": write_shade(ground.paper),
        "theme_color": write_shade(accent),
        "icons": icons,
    }
    return (json.dumps(said, indent=2, ensure_ascii=False) + "\n").encode()


def icon(address: str, accent: RGB, ground: Ground = GROUNDS[0]) -> bytes:
    """The theme's seal as the PNG file of one of the `ICONS`. One that may be masked keeps the seal
    within the middle four fifths (Web Application Manifest, icon masks), on a full ground."""
    import resvg_py
    from PIL import Image

    source = (Path(str(resources("roundproof.theme"))) / "icon.svg").read_text("utf-8")
    way = re.search(r' d="([^"]+)"', source)
    assert way is not None
    size, maskable = ICONS[address], "maskable" in address
    half = 30 if maskable else 22
    colours = (ground.paper, accent) if maskable else (accent, ground.paper)
    stroke, back = map(write_shade, colours)
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{size}" height="{size}"'
        f' viewBox="{-half} {-half} {2 * half} {2 * half}">'
        f'<rect x="{-half}" y="{-half}" width="{2 * half}" height="{2 * half}" fill="{back}"/>'
        f'<path d="{way[1]}" fill="none" stroke="{stroke}" stroke-width="3"/></svg>'
    )
    drawn = resvg_py.svg_to_bytes(svg_string=svg, skip_system_fonts=True)
    out = io.BytesIO()
    Image.open(io.BytesIO(bytes(drawn))).convert("RGB").quantize(64).save(out, "PNG", optimize=True)
    return out.getvalue()


def worker(site: Path, listed: Set[str], kept: Iterable[KeptFile]) -> bytes:
    """The worker of a site that is built in a folder: what it does, and which files there are. Of
    patterns it knows those in folders that are `listed`; it leads to no other. Files that are
    `kept` need not be read once more."""
    files, sizes = dict[str, str](), dict[str, int]()
    known = {file.address: (file.kept.digest, file.kept.size) for file in kept}
    for address in sorted(_told_of(site, listed)):
        if address not in known:
            data = (site / address).read_bytes()
            known[address] = (digest_of(data), len(data))
        digest, sizes[address] = known[address]
        files[address] = digest[:DIGITS]
    source = joined(Path(str(resources("roundproof.theme"))) / "js" / "worker.js")
    told = {
        "key": sha256(json.dumps([files, source]).encode()).hexdigest()[:DIGITS],
        "files": files,
        "first": first(sizes),
    }
    return f"self.BUILD = {json.dumps(told, separators=(',', ':'))};\n{source}".encode()


def _told_of(site: Path, listed: Set[str]) -> Iterator[str]:
    for folder, _, names in os.walk(site):
        within = os.path.relpath(folder, site).replace(os.sep, "/")
        at = "" if within == "." else f"{within}/"
        own = _FOLDER.match(at)
        if not own or own[1] in listed:
            yield from (at + n for n in names if not n.endswith(".gz") and at + n != WORKER)


def first(sizes: Mapping[str, int]) -> list[str]:
    """The files that every reader has after one visit to any page; by their sizes in bytes."""
    patterns = [address for address in sizes if PATTERN.fullmatch(address)]
    light = sum(sizes[address] for address in patterns) <= MOST_PATTERNS
    always = [address for address in sizes if ALWAYS.fullmatch(address)]
    return [*always, *(patterns if light else ())]

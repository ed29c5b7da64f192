"""What others know a site by: its icons and manifest, its feed, the picture beside links to it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from roundproof.pages.feed import FEED, feed
from roundproof.pages.filling import Frame
from roundproof.pages.offline import ICONS, MANIFEST, icon, manifest
from roundproof.pages.once import Once
from roundproof.pages.pattern_folder import Listing, SiteFile
from roundproof.pages.share_card import CARD, share_card, site_card


def known_by(listings: Sequence[Listing], frame: Frame, once: Once) -> Iterator[SiteFile]:
    """The files; none of them in the preview, and what needs an address only where there is one."""
    look, ground = frame.look, frame.look.grounds[0]
    if not frame.serving:
        yield SiteFile(MANIFEST, manifest(frame.name, look.accent, ground))
        for address in ICONS:
            drawn = partial(icon, address, look.accent, ground)
            yield SiteFile(address, once(drawn, "icon", address))
    if frame.told:
        editions = (edition for one in listings for edition in one.editions)
        yield SiteFile(FEED, feed(editions, frame.name, frame.base))
        drawn = partial(share_card, site_card(frame.name), ground)
        yield SiteFile(CARD, once(drawn, "site's card", frame.name))

"""What others know a site by: its icons and manifest, its feed, the picture beside links to it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from roundproof.pages.feed import FEED, feed
from roundproof.pages.filling import Frame
from roundproof.pages.offline import installing
from roundproof.pages.pattern_folder import Listing, SiteFile
from roundproof.pages.share_card import CARD, share_card, site_card


def known_by(listings: Sequence[Listing], frame: Frame) -> Iterator[SiteFile]:
    """The files; none of them in the preview, and what needs an address only where there is one."""
    if not frame.serving:
        for address, data in installing(frame.name, frame.look).items():
            yield SiteFile(address, data)
    if frame.told:
        editions = (edition for one in listings for edition in one.editions)
        yield SiteFile(FEED, feed(editions, frame.name, frame.base))
        yield SiteFile(CARD, share_card(site_card(frame.name), frame.look.grounds[0]))

"""`roundproof serve`: the site while you write, findings beside the rounds they concern."""

from __future__ import annotations

import argparse
import signal
import socket
import sys
from typing import NoReturn

from roundproof.cli.build import Stopped, add_site, site_file
from roundproof.cli.shared import put
from roundproof.words import say


def configure(parser: argparse.ArgumentParser) -> None:
    add_site(parser)
    parser.add_argument(
        "--address", default="127.0.0.1:8000", metavar="HOST:PORT", help=say("options.address")
    )


def run(args: argparse.Namespace) -> int:
    """0 when it is ended, 2 where it cannot begin."""
    from roundproof.mkdocs_plugin import HostError
    from roundproof.preview.serving import serve
    from roundproof.preview.site import LiveSite

    try:
        file = site_file(args)
        host, port = _look_at(args.address)
        site = LiveSite(file)
    except (Stopped, HostError) as stop:
        print(stop, file=sys.stderr)
        return 2
    put(say("serve.starts", address=f"{args.address}{site.root}") + "\n")
    sys.stdout.flush()
    signal.signal(signal.SIGTERM, _interrupted)
    serve(site, file, host, port)
    return 0


def _interrupted(*_: object) -> NoReturn:
    """Ended by another program, the preview puts its files away as after Ctrl-C."""
    raise KeyboardInterrupt


def _look_at(address: str) -> tuple[str, int]:
    """The address, if it is free. Raises Stopped."""
    host, _, port = address.rpartition(":")
    if not host or not port.isdecimal() or not 0 < int(port) < 65536:
        raise Stopped(say("serve.no_address", address=address))
    try:
        with socket.create_server((host, int(port))):
            return host, int(port)
    except OSError as refusal:
        raise Stopped(say("serve.busy", address=address)) from refusal

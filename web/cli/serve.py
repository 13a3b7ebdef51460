"""``lengthwise serve``: the pages, on this computer alone or on the local network."""

from __future__ import annotations

import click

from stash.cli.frame import Desk, pass_desk


@click.command("serve")
@click.option("--port", default=5000, show_default=True, type=click.IntRange(1, 65535),
              help="Where the app answers.")
@click.option("--share", is_flag=True, help="Answer phones and computers on the local network too.")
@click.option("--https/--no-https", default=None,
              help="Also answer securely, on the next port, with a certificate of its own "
                   "[default: with --share]. Over a plain connection nothing can be recorded.")
@pass_desk
def command(desk: Desk, port: int, share: bool, https: bool | None) -> None:
    """Open the app; without --share only this computer can reach it."""
    from web.serving import Serving, run  # the pages are loaded when they are to be answered

    secure = share if https is None else https
    run(desk.data, Serving(port=port, share=share, https=secure))

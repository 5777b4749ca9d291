"""``puttwright serve``: the pages on this machine."""

from __future__ import annotations

from pathlib import Path

import click

from puttwright.cli import options


@click.command("serve", short_help="Open the pages on this machine.")
@click.option(
    "--port",
    type=click.IntRange(1024, 65535),
    default=8417,
    show_default=True,
    help="Port on this machine, 1024 to 65535.",
)
@click.option("--watch", type=options.PATH, metavar="FOLDER",
              help="Where devices' files land; each shows up in the open fitting.")  # fmt: skip
@click.option("--share", is_flag=True, help="Let paired devices of the shop's network in as well.")
@click.option(
    "--share-port",
    type=click.IntRange(1024, 65535),
    default=8418,
    show_default=True,
    help="Port for the network, 1024 to 65535.",
)
@click.option(
    "--share-name",
    default="",
    metavar="NAME",
    help="What this machine is called on the network; found out unless given.",
)
@click.option("--tls-cert", type=options.PATH, metavar="FILE.pem", help="A certificate of yours.")
@click.option("--tls-key", type=options.PATH, metavar="FILE.pem", help="The certificate's key.")
@options.data
@options.database
def command(
    port: int,
    data: Path | None,
    database: str | None,
    watch: Path | None,
    *,
    share: bool,
    share_port: int,
    share_name: str,
    tls_cert: Path | None,
    tls_key: Path | None,
) -> None:
    """Open the pages: fittings, readings, decisions, in a browser on this machine only.

    Every reading is on the disk before it is acknowledged, and backups are taken
    by themselves. Works without a network. Stop with Ctrl+C.

    With --share also tablets and screens that you let in on the page /devices,
    each with a code that is good once, over TLS. Anybody else on the network
    gets nothing.
    """
    from puttwright.deeds.bootstrap import data_folder
    from puttwright.web.serve import serve
    from puttwright.web.sharing import Share

    if (tls_cert is None) != (tls_key is None):
        raise click.UsageError("--tls-cert and --tls-key are given together")
    if not share and (tls_cert or share_name):
        raise click.UsageError("--tls-cert, --tls-key and --share-name go with --share")
    wanted = Share(port=share_port, name=share_name, certificate=tls_cert, key=tls_key)
    how = wanted if share else None
    if watch is not None and not watch.is_dir():
        raise click.BadParameter("there is no such folder", param_hint="--watch")
    serve(port=port, data_dir=data or data_folder(), database=database, watch=watch, share=how)

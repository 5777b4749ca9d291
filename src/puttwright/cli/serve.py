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
@options.data
@options.database
def command(port: int, data: Path | None, database: str | None, watch: Path | None) -> None:
    """Open the pages: fittings, readings, decisions, in a browser on this machine only.

    Every reading is on the disk before it is acknowledged, and backups are taken
    by themselves. Works without a network. Stop with Ctrl+C.
    """
    from puttwright.deeds.bootstrap import data_folder
    from puttwright.web.serve import serve

    if watch is not None and not watch.is_dir():
        raise click.BadParameter("there is no such folder", param_hint="--watch")
    serve(port=port, data_dir=data or data_folder(), database=database, watch=watch)

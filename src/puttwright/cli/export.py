"""``puttwright export``: the whole shop as open files."""

from __future__ import annotations

from pathlib import Path

import click

from puttwright.cli import options


@click.command("export", short_help="The whole shop as open files in a zip.")
@click.option("--out", type=options.PATH, required=True, metavar="FILE.zip", help="The zip.")
@options.data
@options.database
def command(out: Path, data: Path | None, database: str | None) -> None:
    """Write a fitting package for every fitting, every order with its checks, and the rack.

    All of it is plain text that other programs read; puttwright import takes it
    in again. The same shop gives the same bytes.
    """
    from puttwright.deeds.bootstrap import open_shop
    from puttwright.deeds.carry_shop import export_shop
    from puttwright.deeds.look_at_trail import note_on_trail
    from puttwright.deeds.write_whole import write_whole
    from puttwright.store.trail import Deed

    shop = open_shop(data, database=database)
    try:
        write_whole(out, export_shop(shop.store))
        note_on_trail(shop.store, shop.clock, deed=Deed.EXPORTED, who=shop.who)
    finally:
        shop.close()
    click.echo(str(out))

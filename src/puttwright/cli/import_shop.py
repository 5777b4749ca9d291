"""``puttwright import``: what an export gave, into the records."""

from __future__ import annotations

from pathlib import Path

import click

from puttwright.cli import options


@click.command("import", short_help="Take in what an export gave.")
@click.argument("file", type=options.PATH, metavar="FILE.zip")
@options.data
@options.database
def command(file: Path, data: Path | None, database: str | None) -> None:
    """Take the fittings, orders and rack of FILE.zip into the records.

    What is there already is left as it is: the same file twice changes nothing.
    """
    from puttwright.deeds.bootstrap import open_shop
    from puttwright.deeds.carry_shop import import_shop

    shop = open_shop(data, database=database)
    try:
        carried = import_shop(shop.store, shop.clock, file=file, who="import")
    finally:
        shop.close()
    click.echo(f"{carried.fittings} fittings, {carried.orders} orders, {carried.parts} parts")

"""``puttwright trail``: who did what to the records."""

from __future__ import annotations

from pathlib import Path

import click

from puttwright.cli import options


@click.command("trail", short_help="Who did what to the records, and when.")
@click.argument("about", metavar="[ID]", required=False, default="")
@click.option("--most", type=click.IntRange(1, 1_000_000), default=100, show_default=True,
              help="So many of the last lines.")  # fmt: skip
@options.data
@options.database
def command(about: str, most: int, data: Path | None, database: str | None) -> None:
    """List deeds, the last first: when, the device's name, the deed, what it was done to.

    ID is that of a fitting, an order or a part, a deed, or a device's name. What
    was written stands in no line. Times are in UTC. Lines of a fitting go when it
    is erased; that it was erased stays, under a mark.
    """
    from puttwright.deeds.bootstrap import open_shop
    from puttwright.deeds.look_at_trail import look_at_trail, trail_lines

    shop = open_shop(data, database=database)
    try:
        found, total = look_at_trail(shop.store, about, limit=most)
        for line in trail_lines(found):
            click.echo(line)
        click.echo(f"{len(found)} of {total} lines.")
    finally:
        shop.close()

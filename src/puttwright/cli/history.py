"""``puttwright history``: every reading of a fitting, and what was taken back."""

from __future__ import annotations

from pathlib import Path

import click

from puttwright.cli import options


@click.command("history", short_help="Every reading of a fitting, and what was taken back.")
@click.argument("fitting_id", metavar="FITTING")
@options.data
@options.database
def command(fitting_id: str, data: Path | None, database: str | None) -> None:
    """List the readings of FITTING in order: when, by whom, what.

    One that was taken back or replaced stays in its place, with who did so, when
    and why. Times are in UTC.
    """
    from puttwright.deeds.bootstrap import open_shop
    from puttwright.deeds.open_fitting import open_fitting
    from puttwright.deeds.say_history import history_lines

    shop = open_shop(data, database=database)
    try:
        click.echo("\n".join(history_lines(open_fitting(shop.store, fitting_id).history)))
    finally:
        shop.close()

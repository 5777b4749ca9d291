"""``puttwright erase``: a fitting, or all of a golfer, gone for good."""

from __future__ import annotations

from pathlib import Path

import click

from puttwright.cli import options


@click.command("erase", short_help="Erase a fitting or all of a golfer for good.")
@click.argument("fitting_id", metavar="FITTING")
@click.option("--golfer", is_flag=True, help="Every fitting of the same golfer.")
@click.option("--copies", is_flag=True, help="From backups and older copies as well.")
@click.option("--yes", is_flag=True, help="Do not ask.")
@options.data
@options.database
def command(
    fitting_id: str, golfer: bool, copies: bool, yes: bool, data: Path | None, database: str | None
) -> None:
    """Erase FITTING with readings, decisions, orders and checks; bytes are wiped.

    Backups made later do not hold it; which older ones do is told, and --copies
    erases it there too. It does not come back with a restore. Whether a record must
    be kept or erased is for local law, not for this program.
    """
    from puttwright.deeds.bootstrap import open_shop
    from puttwright.deeds.erase_fittings import erase_fittings, erased_lines, fittings_of_golfer
    from puttwright.deeds.shop_settings import backup_settings

    shop = open_shop(data, database=database)
    try:
        of_golfer = fittings_of_golfer(shop.store, fitting_id)
        which = of_golfer if golfer else [fitting_id]
        if not yes:
            click.confirm(f"Erase {', '.join(which)} for good?", abort=True, err=True)
        erased = erase_fittings(
            shop.store,
            which,
            folder=shop.folder,
            backup_folder=backup_settings(shop.folder).folder,
            copies=copies,
            clock=shop.clock,
            who=shop.who,
        )
        click.echo("\n".join(erased_lines(erased)))
    finally:
        shop.close()

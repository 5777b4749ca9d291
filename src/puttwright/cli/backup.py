"""``puttwright backup``: a whole copy of the records, now."""

from __future__ import annotations

from pathlib import Path

import click

from puttwright.cli import options


@click.command("backup", short_help="Take a backup of the records now.")
@options.data
@options.database
@click.option("--out", type=options.PATH, metavar="FILE", help="Into this file instead.")
def command(data: Path | None, database: str | None, out: Path | None) -> None:
    """Copy the records whole, look whether the copy is whole, and keep it.

    The pages may be open. Backups lie in the data folder or where its
    settings.toml says, thinned as they age; while the pages are open they are
    taken by themselves.
    """
    from puttwright.deeds.back_up import back_up, copy_out
    from puttwright.deeds.bootstrap import open_shop
    from puttwright.deeds.shop_settings import backup_settings

    shop = open_shop(data, database=database)
    try:
        if out is not None:
            click.echo(f"{out}  (SHA-256 {copy_out(shop.store, to=out)})")
            return
        done = back_up(shop.store, shop.clock, settings=backup_settings(shop.folder))
    finally:
        shop.close()
    if done.new is None:
        click.echo(f"Nothing has changed since {done.newest.file}")
    else:
        click.echo(str(done.new.file))

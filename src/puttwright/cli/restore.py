"""``puttwright restore``: a backup in the place of lost or damaged records."""

from __future__ import annotations

from pathlib import Path

import click

from puttwright.cli import options


@click.command("restore", short_help="Put a backup in the place of damaged records.")
@click.argument("backup", type=options.PATH, required=False, metavar="[BACKUP]")
@options.data
@options.database
@click.option(
    "--to", type=options.PATH, metavar="DIR", help="Into this data folder instead of the shop's."
)
def command(backup: Path | None, data: Path | None, database: str | None, to: Path | None) -> None:
    """Restore the newest whole backup, or the one named.

    What was written since comes from the journal. Damaged records are set aside;
    where the journal is damaged too, what they hold beyond the backup is added as
    far as it can be read and is what was written. Fittings that were erased do
    not come back. With --database the backup fills that empty database.
    """
    from puttwright.deeds.bootstrap import data_folder, system_clock
    from puttwright.deeds.restore_records import Wanted, restore_records
    from puttwright.deeds.say_restored import restored_lines
    from puttwright.deeds.shop_settings import backup_settings

    folder = data or data_folder()
    wanted = Wanted(
        folder=to or folder,
        backup_folder=backup_settings(folder).folder,
        backup=backup,
        database=database,
    )
    click.echo("\n".join(restored_lines(restore_records(wanted, clock=system_clock))))

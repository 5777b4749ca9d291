"""``puttwright check``: look over the records and the backups for damage."""

from __future__ import annotations

from pathlib import Path

import click

from puttwright.cli import options

_DAMAGE = 1


@click.command("check", short_help="Look over the records for damage.")
@options.data
@options.database
@click.pass_context
def command(ctx: click.Context, data: Path | None, database: str | None) -> None:
    """Look for damage in the records, their journal and every backup; nothing is changed.

    Broken pages, rows without what they belong to, readings that are not what
    was written, decisions that rest on other readings, backups whose SHA-256
    differs, a journal that has gaps or says something else than the records.
    Exit code 1 when anything is wrong. It also reminds of golfers who were kept
    for longer than the shop has set, and erases none.
    """
    from puttwright.deeds.bootstrap import data_folder, system_clock
    from puttwright.deeds.check_records import check_records
    from puttwright.deeds.shop_settings import backup_settings

    folder = data or data_folder()
    settings = backup_settings(folder)
    checked = check_records(
        folder, database=database, backup_folder=settings.folder, clock=system_clock
    )
    records = checked.records
    click.echo(f"{checked.where}: {records.fittings} fittings, {records.readings} readings")
    click.echo(f"{settings.folder}: {checked.backups} backups{_newest(checked.newest)}")
    if checked.journal is not None:
        click.echo(f"{checked.journal.folder}: {checked.journal.lines} entries")
    for sentence in (*checked.notes, *checked.damage):
        click.echo(sentence)
    if checked.mends and database is None:
        click.echo("To mend it: stop the pages, then puttwright restore")
    for sentence in checked.reminders:
        click.echo(sentence)
    if checked.damage:
        ctx.exit(_DAMAGE)
    click.echo("Nothing is wrong.")


def _newest(name: str) -> str:
    return f", the newest {name}" if name else ""

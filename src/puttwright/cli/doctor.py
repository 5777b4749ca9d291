"""``puttwright doctor``: what is wrong with this installation."""

from __future__ import annotations

from pathlib import Path

import click

from puttwright.cli import options

_WRONG = 1


@click.command("doctor", short_help="What is wrong with this installation.")
@options.data
@options.database
@click.pass_context
def command(ctx: click.Context, data: Path | None, database: str | None) -> None:
    """Look at Python, libraries, shipped files, folders, room, records, backups and clock.

    Each with what was seen and, where it is wrong, what to do. Exit code 1 when
    anything is.
    """
    from puttwright.deeds.bootstrap import data_folder, system_clock
    from puttwright.deeds.doctor import doctor_lines, examine_installation

    folder = data or data_folder()
    findings = examine_installation(folder, database=database, clock=system_clock)
    click.echo("\n".join(doctor_lines(findings)))
    if not all(finding.well for finding in findings):
        ctx.exit(_WRONG)

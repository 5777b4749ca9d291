"""``puttwright report``: the golfer's sheet as a PDF."""

from __future__ import annotations

from pathlib import Path

import click

from puttwright.cli import options


@click.command("report", short_help="Print the golfer's sheet.")
@options.package
@options.seed
@options.out_file("Where the sheet goes.")
def command(package: Path, seed: int, out: Path) -> None:
    """Print the golfer's sheet: one page to take home, one of evidence.

    The same package and seed give the same file, byte for byte.
    """
    from puttwright.deeds.write_report import write_report

    write_report(package, out=out, seed=seed)
    click.echo(f"The golfer's sheet is in {out}")

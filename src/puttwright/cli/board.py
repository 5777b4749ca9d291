"""``puttwright board``: the aim board as a PDF to print."""

from __future__ import annotations

from pathlib import Path

import click

from puttwright.cli import options

_PAPERS = ("A4", "A3", "letter", "tabloid")


@click.command("board", short_help="Print the aim board.")
@click.option(
    "--paper",
    type=click.Choice(_PAPERS, case_sensitive=False),
    default="A3",
    show_default=True,
    help="What it is printed on; the larger, the further off the line it reads.",
)
@options.out_file("Where the board goes.")
def command(paper: str, out: Path) -> None:
    """Print the aim board: a millimetre scale, a zero line, and markers for photographs.

    Print it at 100 % and hold a ruler to its bar of 100 mm. Laser class 1 or 2
    only, never toward eyes; the rest of the caution stands on the board.
    """
    from puttwright.deeds.write_board import write_board

    write_board(paper, out=out)
    click.echo(f"The aim board is in {out}; print it at 100 % and check the bar of 100 mm")

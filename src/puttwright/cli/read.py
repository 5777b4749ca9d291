"""``puttwright read``: tables of any kind into a fitting package."""

from __future__ import annotations

import json
from pathlib import Path

import click

from puttwright.cli import options


@click.command("read", short_help="Tables of any device into a package.")
@click.argument("files", type=options.PATH, nargs=-1, required=True, metavar="FILE...")
@click.option("--into", "package", type=options.PATH, required=True, metavar="PACKAGE",
              help="The fitting they belong to.")  # fmt: skip
@click.option("--map", "map_file", type=options.PATH, metavar="MAP.toml",
              help="What the columns mean, confirmed; kept for the next such file.")  # fmt: skip
@click.option("--build", "build_id", metavar="ID",
              help="The putter in hand, where the file does not say.")  # fmt: skip
@options.number("--distance-m", "Ball to hole, or laser to board, where the file does not say",
                between=(0.2, 40), unit="m", needed=False)  # fmt: skip
@options.as_json
def command(
    files: tuple[Path, ...], package: Path, map_file: Path | None, build_id: str | None,
    distance_m: float | None, as_json: bool,
) -> None:  # fmt: skip
    """Read putts, aims or set-ups out of CSV, spreadsheets or JSON lines.

    Columns are known by their meaning, units by the header or the cells. For a
    kind of file not seen before a MAP.toml is written beside it with what you
    should confirm, and nothing is read. Rows that do not fit are kept aside with
    why; a file read again adds nothing twice.
    """
    from puttwright.deeds.bootstrap import data_folder
    from puttwright.deeds.read_tables import Ask, read_tables
    from puttwright.deeds.say_read import read_json, read_lines

    ask = Ask(
        map_file=map_file, build_id=build_id, distance_m=distance_m, shop_folder=data_folder()
    )
    result = read_tables(files, package=package, ask=ask)
    if as_json:
        click.echo(json.dumps(read_json(result), indent=2, ensure_ascii=False))
    else:
        click.echo("\n".join(read_lines(result)))

"""``puttwright copy``: everything that is kept on a golfer, to hand over."""

from __future__ import annotations

from pathlib import Path

import click

from puttwright.cli import options


@click.command("copy", short_help="All that is kept on a golfer, to hand over.")
@click.argument("fitting_id", metavar="FITTING")
@click.option("--out", type=options.PATH, required=True, metavar="FILE.zip", help="The zip.")
@options.data
@options.database
def command(fitting_id: str, out: Path, data: Path | None, database: str | None) -> None:
    """Write everything that is kept on the golfer of FITTING, as text and as open files.

    Every fitting of theirs, what they were told and agreed to, what was corrected,
    and who did what. That the copy was made stands in the trail. What a golfer may
    ask for is for local law, not for this program.
    """
    from puttwright.deeds.bootstrap import open_shop
    from puttwright.deeds.copy_golfer import copy_golfer, golfer_of
    from puttwright.deeds.write_whole import write_whole

    shop = open_shop(data, database=database)
    try:
        golfer = golfer_of(shop.store, fitting_id)
        write_whole(out, copy_golfer(shop.store, shop.clock, golfer=golfer, who=shop.who))
    finally:
        shop.close()
    click.echo(str(out))

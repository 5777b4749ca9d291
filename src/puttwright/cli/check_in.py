"""``puttwright check-in``: the putter on the bench against its order."""

from __future__ import annotations

import json
from pathlib import Path

import click

from puttwright.cli import bench, options


@click.command("check-in", short_help="A finished putter against its order.")
@click.argument("order", type=options.PATH)
@bench.figures
@click.option(
    "--reminders",
    type=options.PATH,
    metavar="FILE.ics",
    help="When it passes, write reminders to check it again as an iCalendar file.",
)
@click.option("--date", "day", metavar="DATE", help="Day of the check-in, such as 2026-05-31.")
@options.as_json
def command(
    order: Path, reminders: Path | None, day: str | None, as_json: bool, **values: float | None
) -> None:
    """Say pass, measure again, rework or refuse, and what to bend by how much.

    ORDER is the .json that lies beside the order's sheet. Give what was
    measured; nothing passes without length, lie and loft. The gauge's error is
    a guard band inside the tolerance.
    """
    from puttwright.deeds.bootstrap import system_clock
    from puttwright.deeds.check_in_order import check_in_order
    from puttwright.deeds.remind import day_from
    from puttwright.deeds.say_check_in import check_in_json, check_in_lines

    measured, error = bench.split(values)
    when = day_from(day) if day else system_clock().date()
    result = check_in_order(order, measured=measured, error=error, reminders_to=reminders, day=when)
    if as_json:
        click.echo(json.dumps(check_in_json(result), indent=2))
        return
    click.echo("\n".join(check_in_lines(result)))
    if reminders and result.verdict == "pass":
        click.echo(f"Reminders to check it again are in {reminders}")

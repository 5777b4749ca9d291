"""``puttwright check-again``: a putter after weeks in play."""

from __future__ import annotations

import json
from pathlib import Path

import click

from puttwright.cli import options


def _many(text: str) -> list[float]:
    return [options.read_number(each) for each in text.replace(";", " ").split()]


@click.command("check-again", short_help="A putter again after weeks in play.")
@click.argument("order", type=options.PATH)
@options.number("--loft-deg", "Loft now", between=(-15, 15), unit="deg", needed=False)
@options.number("--lie-deg", "Lie now", between=(50, 90), unit="deg", needed=False)
@options.number(
    "--loft-was-deg", "Loft as handed over", between=(-15, 15), unit="deg", needed=False
)
@options.number("--lie-was-deg", "Lie as handed over", between=(50, 90), unit="deg", needed=False)
@options.number(
    "--angle-error-deg", "Error of the gauge (k = 2)", between=(0, 50), unit="deg", default=0.3
)
@click.option(
    "--starts-deg",
    type=_many,
    default="",
    metavar="NUMBERS",
    help='Start lines, right positive, with blanks between: "0.4 -0.2 1.1".',
)
@click.option(
    "--aims-mm",
    type=_many,
    default="",
    metavar="NUMBERS",
    help="Dots on the board, right positive, with blanks between.",
)
@options.number(
    "--board-mm", "Laser or face to board", between=(200, 20000), unit="mm", default=2000.0
)
@click.option("--mirror", is_flag=True, help="The beam is reflected by the face.")
@options.as_json
def command(
    order: Path,
    loft_deg: float | None,
    lie_deg: float | None,
    loft_was_deg: float | None,
    lie_was_deg: float | None,
    angle_error_deg: float,
    starts_deg: list[float],
    aims_mm: list[float],
    board_mm: float,
    mirror: bool,
    as_json: bool,
) -> None:
    """Say what drifted and what changed since the fitting, each with its probability.

    ORDER is the .json that lies beside the order's sheet: it holds the
    fitting's own figures. A dozen putts and half a dozen aims make a short test.
    """
    from puttwright.deeds.check_order_again import ShortTest, check_order_again
    from puttwright.deeds.say_check_again import check_again_json, check_again_lines
    from puttwright.readers.order_file import read_order

    given = {"loft_deg": loft_deg, "lie_deg": lie_deg}
    was = {"loft_deg": loft_was_deg, "lie_deg": lie_was_deg}
    result = check_order_again(
        read_order(order),
        ShortTest(
            angles={name: value for name, value in given.items() if value is not None},
            starts_deg=starts_deg,
            aims_mm=aims_mm,
            board_mm=board_mm,
            mirror=mirror,
        ),
        handed_over={name: value for name, value in was.items() if value is not None},
        error=dict.fromkeys(given, angle_error_deg),
    )
    if as_json:
        click.echo(json.dumps(check_again_json(result), indent=2))
    else:
        click.echo("\n".join(check_again_lines(result)))

"""``puttwright calc address``: eyes and hands with another putter, and the putter wanted."""

from __future__ import annotations

import click

from puttwright.cli import options
from puttwright.cli.figures import show_figures
from puttwright.evidence.records import GRIP_STYLES


@click.command("address", short_help="Eyes and hands at address, and the putter they want.")
@options.number(
    "--stature-mm", "Standing height, shoes on",
  between=(900, 2400), unit="mm", needed=False,
)  # fmt: skip
@click.option("--told", is_flag=True, help="The height is what the golfer says, not a tape.")
@options.number(
    "--wrist-height-mm",
    "Floor to wrist crease, arm hanging",
    between=(400, 1300),
    unit="mm",
    needed=False,
)
@options.number("--length-mm", "Length of the putter held", between=(457.2, 1600), unit="mm")
@options.number("--lie-deg", "Its lie", between=(50, 90), unit="deg")
@options.number("--loft-deg", "Its loft", between=(-15, 15), unit="deg", default=3.0)
@options.number(
    "--cg-from-axis-mm",
    "Sweet spot from its shaft axis",
    between=(-60, 100),
    unit="mm",
    needed=False,
)
@options.number(
    "--eyes-inside-mm",
    "Eyes inside the ball line, measured",
    between=(-400, 600),
    unit="mm",
    needed=False,
)
@options.number(
    "--hands-height-mm",
    "Middle of the hands above ground",
    between=(200, 1500),
    unit="mm",
    needed=False,
)
@options.number(
    "--sole-tilt-deg", "Toe up, as it is soled",
  between=(-25, 25), unit="deg", needed=False,
)  # fmt: skip
@click.option(
    "--grip-style", type=click.Choice(GRIP_STYLES), default=GRIP_STYLES[0], show_default=True,
    help="How it is held.",
)  # fmt: skip
@options.number(
    "--want-from-mm", "Eyes wanted from here", between=(-200, 300), unit="mm", default=0.0
)
@options.number(
    "--want-to-mm", "Eyes wanted up to here", between=(-200, 300), unit="mm", default=30.0
)
@options.number(
    "--other-length-mm",
    "Another length to foretell",
    between=(457.2, 1600),
    unit="mm",
    needed=False,
)
@options.number(
    "--other-lie-deg", "Another lie to foretell",
  between=(50, 90), unit="deg", needed=False,
)  # fmt: skip
@click.option(
    "--handed", type=click.Choice(["right", "left"]), default="right", show_default=True,
    help="Which hand: it says to which side a tilted face looks.",
)  # fmt: skip
@options.as_json
def command(as_json: bool, **values: object) -> None:
    """How a golfer stands to a putter: eyes, hands, trunk and sole, with 90 % intervals."""
    from puttwright.fitting.calc_address import calc_address

    show_figures(calc_address(**values), as_json=as_json)  # type: ignore[arg-type]

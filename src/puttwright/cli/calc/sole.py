"""``puttwright calc sole``: a gap under toe or heel, what closes it, where the face looks."""

from __future__ import annotations

import click

from puttwright.cli import options
from puttwright.cli.figures import show_figures


@click.command("sole", short_help="A gap under the sole: lie and face.")
@options.number("--lie-deg", "Lie of the putter", between=(50, 90), unit="deg")
@options.number("--loft-deg", "Its loft", between=(-15, 20), unit="deg", default=3.0)
@options.number("--lean-deg", "Handle toward the target", between=(-25, 25), unit="deg", default=0)
@options.number(
    "--toe-gap-mm", "Gap under the toe, under the heel negative", between=(-60, 60), unit="mm",
    needed=False,
)  # fmt: skip
@options.number(
    "--sole-length-mm", "Flat of the sole to where the gap is", between=(20, 200), unit="mm",
    default=80.0,
)  # fmt: skip
@options.number(
    "--sole-tilt-deg", "Toe up, instead of a gap", between=(-25, 25), unit="deg", needed=False
)
@options.number(
    "--other-lie-deg", "Lie of another neck, or bent", between=(50, 90), unit="deg", needed=False
)
@click.option(
    "--handed", type=click.Choice(["right", "left"]), default="right", show_default=True,
    help="Which hand: it says on which side the toe is.",
)  # fmt: skip
@options.as_json
def command(as_json: bool, handed: str, **values: float) -> None:
    """How the sole lies, the lie that would be flush, and where loft and tilt aim the face."""
    from puttwright.fitting.calc_address import calc_sole

    show_figures(calc_sole(handed=handed, **values), as_json=as_json)

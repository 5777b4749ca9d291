"""``puttwright calc bend``: what a bend of the neck does, and whether it may be done."""

from __future__ import annotations

from typing import Any

import click

from puttwright.cli import options
from puttwright.cli.figures import show_figures

_ALLOYS = (
    "unknown", "carbon_steel", "stainless_304", "stainless_431", "stainless_17_4", "brass",
    "titanium", "aluminium", "zinc", "plastic",
)  # fmt: skip
_NECKS = ("unknown", "one_piece", "welded", "screwed", "glued", "shaft")


@click.command("bend", short_help="What a bend of the neck does, and whether it may be done.")
@options.number("--loft-deg", "Loft now", between=(-15, 20), unit="deg", default=3.0)
@options.number("--lie-deg", "Lie now", between=(50, 90), unit="deg", default=70.0)
@options.number("--add-loft-deg", "More loft wanted", between=(-10, 10), unit="deg", default=0.0)
@options.number("--add-lie-deg", "More upright wanted", between=(-10, 10), unit="deg", default=0.0)
@options.number("--offset-mm", "Offset now", between=(-30, 80), unit="mm", default=0.0)
@options.number("--length-mm", "Length now", between=(457.2, 1600), unit="mm", default=863.6)
@options.number(
    "--cg-from-axis-mm",
    "Centre of gravity from the shaft axis, toe positive",
    between=(-80, 120),
    unit="mm",
    default=20.0,
)
@options.number(
    "--cg-depth-mm", "Centre of gravity behind the face", between=(0, 150), unit="mm", default=20.0
)
@options.number(
    "--bend-high-mm",
    "Where the neck gives, from the sole up along the shaft",
    between=(5, 127),
    unit="mm",
    default=40.0,
)
@click.option(
    "--bar",
    type=click.Choice(["sole", "shaft"]),
    default="sole",
    show_default=True,
    help="The loft bend turns about a line along the sole, or one square to the shaft.",
)
@click.option(
    "--alloy", type=click.Choice(_ALLOYS), default="unknown", show_default=True, help="Metal."
)
@click.option(
    "--neck",
    type=click.Choice(_NECKS),
    default="unknown",
    show_default=True,
    help="How the neck is joined to the head.",
)
@options.number(
    "--before-deg", "What the neck was bent before", between=(0, 20), unit="deg", default=0.0
)
@click.option(
    "--handed",
    type=click.Choice(["right", "left"]),
    default="right",
    show_default=True,
    help="Which hand: it says on which side the toe is.",
)
@options.as_json
def command(as_json: bool, **values: Any) -> None:
    """Loft, lie, offset, length, hang and aim after a bend, the order of work and its cautions.

    Zinc, aluminium, titanium, plastic and glued necks are never bent.
    """
    from puttwright.club.calc import calc_bend

    show_figures(calc_bend(**values), as_json=as_json)

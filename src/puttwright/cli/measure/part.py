"""``puttwright measure part``: a head or putter on the bench, and its sheet for the rack."""

from __future__ import annotations

import json
from collections.abc import Callable
from functools import reduce
from pathlib import Path
from typing import Any, Final

import click

from puttwright.cli import options

_READ: Final = {
    "loft_deg": "Loft on the gauge [deg]",
    "lie_deg": "Lie on the gauge [deg]",
    "mass_g": "Mass on the scale [g]",
    "offset_mm": "Shaft axis ahead of the face [mm]",
    "cg_depth_mm": "Centre of gravity behind the face [mm]",
    "cg_from_axis_mm": "Centre of gravity from the shaft axis, toe positive [mm]",
    "toe_hang_deg": "Hang on a protractor, toe down positive [deg]",
    "length_mm": "Of a putter: butt to sole [mm]",
    "balance_from_butt_mm": "Of a putter: butt to the rail it balances on [mm]",
    "grip_diameter_mm": "Of a putter: diameter of the grip [mm]",
}


def _readings(function: Callable[..., Any]) -> Callable[..., Any]:
    made = [
        click.option(
            f"--{name.replace('_', '-')}",
            name,
            multiple=True,
            type=options.read_number,
            metavar="NUMBER",
            help=f"{meaning}; once for each reading.",
        )
        for name, meaning in _READ.items()
    ]
    return reduce(lambda done, option: option(done), reversed(made), function)


def _pair(text: str) -> tuple[tuple[float, float], tuple[float, float]]:
    try:
        (x0, y0), (x1, y1) = (map(float, end.split(",")) for end in text.split(":"))
    except ValueError:
        raise click.BadParameter(f"{text!r} is no two points; write X,Y:X,Y in pixels") from None
    return (x0, y0), (x1, y1)


@click.command("part", short_help="A head or putter on the bench, for the rack.")
@click.argument("part_id", metavar="ID")
@click.option(
    "--kind", type=click.Choice(["head", "putter"]), default="head", show_default=True,
    help="A bare head, or a putter that is built.",
)  # fmt: skip
@click.option("--label", metavar="NAME", help="What the shop calls it.")
@click.option("--alloy", default="", metavar="NAME", help="As in carbon_steel, 17-4 or zinc.")
@click.option(
    "--neck-joint", default="", metavar="NAME",
    help="How the neck is joined: one_piece, welded, screwed, glued or shaft.",
)  # fmt: skip
@options.number(
    "--bent-before-deg", "What the neck was bent before, there and back", between=(0, 20),
    unit="deg", default=0.0,
)  # fmt: skip
@click.option(
    "--head-shape", type=click.Choice(["blade", "half_mallet", "mallet"]), help="Shape of head."
)
@_readings
@click.option(
    "--face-px", type=_pair, metavar="X,Y:X,Y",
    help="Hang from a photo along the shaft from the butt: the face's edge at heel and toe.",
)  # fmt: skip
@click.option(
    "--plumb-px", type=_pair, metavar="X,Y:X,Y", help="and the plumb line's top and foot."
)
@options.number(
    "--spacing-mm", "Turned on two threads: between them", between=(5, 1500), unit="mm",
    needed=False,
)  # fmt: skip
@options.number("--thread-mm", "their length", between=(20, 5000), unit="mm", needed=False)
@click.option(
    "--period-s", "periods_s", multiple=True, type=options.read_number, metavar="SECONDS",
    help="and one turn there and back; once for each timing.",
)  # fmt: skip
@click.option("--into", type=options.PATH, metavar="RACK.csv", help="Put it into this rack file.")
@options.as_json
def command(
    part_id: str, label: str | None, into: Path | None, as_json: bool, **asked: Any
) -> None:
    """Mean and 90 % interval of everything read, and the part for the rack.

    Take each reading anew, three times where it matters. Bend limits follow from
    alloy, neck and what was bent before.
    """
    from puttwright.deeds.measure_part import OnBench, bench_sheet, put_sheet_into
    from puttwright.deeds.say_part import sheet_json, sheet_lines

    readings = {name: asked.pop(name) for name in _READ}
    sheet = bench_sheet(OnBench(part_id=part_id, label=label, readings=readings, **asked))
    if into is not None:
        put_sheet_into(into, sheet)
    if as_json:
        click.echo(json.dumps(sheet_json(sheet), indent=2))
        return
    click.echo("\n".join(sheet_lines(sheet)))
    if into is not None:
        click.echo(f"{part_id} is in {into}")

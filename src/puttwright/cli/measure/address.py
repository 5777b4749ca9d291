"""``puttwright measure address``: a set-up from points tapped in a photo."""

from __future__ import annotations

import dataclasses
import json
from pathlib import Path
from typing import TYPE_CHECKING

import click

from puttwright.cli import options

if TYPE_CHECKING:
    from puttwright.address.posture import Measured, Posture

_POINTS = (
    "eye, hands, grip_end, shaft_foot, ball_near, ball_far; plumb_top and plumb_foot with a plumb "
    "line; scale_a and scale_b with a card or length"
)


@click.command("address", short_help="Eyes, hands and lie from points in a photo.")
@click.argument("photo", type=options.PATH)
@click.option("--handed", type=click.Choice(("right", "left")), required=True,
              help="The side the golfer plays from.")  # fmt: skip
@click.option("--scale", default="ball", show_default=True, metavar="WHAT",
              help="The known length: ball, card, club=MM (butt to sole), length=MM.")  # fmt: skip
@click.option("--point", "points", multiple=True, metavar="NAME=X,Y",
              help=f"A tapped point, in pixels: {_POINTS}.")  # fmt: skip
@click.option("--points", "points_file", type=options.PATH, metavar="FILE",
              help="The same as a table, name,x,y.")  # fmt: skip
@click.option("--camera-distance-m", type=options.read_number, metavar="NUMBER",
              help="Camera to ball; else from the lens's note, or assumed.")  # fmt: skip
@options.number("--camera-distance-sd-m", "How well that was measured", between=(0.005, 2),
                unit="m", default=0.1)  # fmt: skip
@click.option("--eye-behind-mm", type=options.read_number, metavar="NUMBER",
              help="Eyes behind the ball, when it was measured; else 50 ± 60.")  # fmt: skip
@click.option("--lie-deg", type=options.read_number, metavar="NUMBER",
              help="The putter's own lie, to tell how its sole tilts.")  # fmt: skip
@click.option("--level", is_flag=True, help="The camera was held level by a level, not by eye.")
@click.option("--minor", is_flag=True, help="The golfer is a minor: photos are then off.")
@click.option("--guardian-agrees", is_flag=True, help="The minor's guardian allowed this photo.")
@options.as_json
def command(
    photo: Path, handed: str, scale: str, points: tuple[str, ...], points_file: Path | None,
    camera_distance_m: float | None, camera_distance_sd_m: float, eye_behind_mm: float | None,
    lie_deg: float | None, level: bool, minor: bool, guardian_agrees: bool, as_json: bool,
) -> None:  # fmt: skip
    """Measure a set-up in a photo taken from down the line, level, behind the golfer.

    No body is searched for in the photo: a person taps the points. Nothing of
    it is kept, and nothing leaves this machine. Ask the golfer before you take
    it; of a minor, ask the guardian.
    """
    from puttwright.deeds.measure_address import PostureAsked, measure_address

    found = measure_address(
        photo,
        PostureAsked(
            handed=handed, scale=scale, points=points, points_file=points_file,
            distance_m=_between("--camera-distance-m", camera_distance_m, ends=(0.5, 20.0)),
            distance_sd_m=camera_distance_sd_m,
            eye_behind_mm=_between("--eye-behind-mm", eye_behind_mm, ends=(-600.0, 600.0)),
            lie_deg=_between("--lie-deg", lie_deg, ends=(50.0, 90.0)), level=level,
            minor=minor, minor_agreed=guardian_agrees,
        ),
    )  # fmt: skip
    click.echo(_as_json(found) if as_json else "\n".join(_lines(found)))


def _between(name: str, value: float | None, *, ends: tuple[float, float]) -> float | None:
    from puttwright.errors import OutOfRange

    if value is not None and not ends[0] <= value <= ends[1]:
        raise OutOfRange(name=name, value=value, low=ends[0], high=ends[1])
    return value


def _as_json(found: Posture) -> str:
    def short(value: object) -> object:
        if isinstance(value, dict):
            return {name: short(each) for name, each in value.items()}
        return round(value, 3) if isinstance(value, float) else value

    return json.dumps(short(dataclasses.asdict(found)), indent=2)


def _lines(found: Posture) -> list[str]:
    eye = found.eye_inside_mm
    where = "inside the ball's line, toward the golfer" if eye.mean >= 0 else "beyond the ball"
    rows = [
        f"Eyes {abs(eye.mean):.0f} mm {where}, give or take {eye.sd:.0f}",
        _row("Eyes above the ground", found.eye_height_mm, unit=" mm"),
        _row("Hands from the ball's line", found.hands_inside_mm, unit=" mm"),
        _row("Hands above the ground", found.hands_height_mm, unit=" mm"),
        _row("Shaft to the ground, the lie that sits flush", found.shaft_deg, unit="°", digits=1),
    ]
    if found.sole_tilt_deg is not None:
        rows.append(_row("Sole, toe up positive", found.sole_tilt_deg, unit="°", digits=1))
    rows += [
        _row("Camera from the ball", found.camera_m, unit=" m", digits=1),
        f"What widens the eyes' interval most: {found.most_doubt}.",
    ]
    return rows


def _row(words: str, value: Measured, *, unit: str, digits: int = 0) -> str:
    return f"{words}: {value.mean:.{digits}f}{unit}, give or take {value.sd:.{digits}f}"

"""``puttwright measure roll``: speed, launch, spin, skid and roll out of a phone's video."""

from __future__ import annotations

import dataclasses
import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from puttwright.cli import options
from puttwright.cli.progress import progress

if TYPE_CHECKING:
    from puttwright.deeds.measure_roll import Figure, RollReading

_DIGITS = 4
_USUAL_PICTURES = 240
_FIGURES = (
    "ball_speed_mps", "launch_deg", "spin_rpm", "skid_m", "skid_s", "roll_share_pct", "total_m",
)  # fmt: skip


@click.command("roll", short_help="Read speed, launch, skid and roll off a phone's video.")
@click.argument("video", type=options.PATH)
@options.number("--fps", "Pictures a second the camera took, where the file plays slower",
                between=(50, 1000), needed=False)  # fmt: skip
@options.number("--green-ft", "Measured speed of this green", between=(3, 16), unit="ft",
                needed=False)  # fmt: skip
@options.number("--went-m", "How far the putt went in all, if it ran out", between=(0.3, 40),
                unit="m", needed=False)  # fmt: skip
@click.option("--picture", type=options.PATH, metavar="FILE.svg",
              help="Draw ball speed and turning along the way.")  # fmt: skip
@click.option("--into", "package", type=options.PATH, metavar="PACKAGE",
              help="Enter the putt into this fitting; needs --distance-m.")  # fmt: skip
@click.option("--build", "build_id", metavar="ID",
              help="The putter in hand; the only one, if there is one.")  # fmt: skip
@options.number("--distance-m", "From ball to hole, for --into", between=(0.2, 40), unit="m",
                needed=False)  # fmt: skip
@options.as_json
@options.show_progress
def command(
    video: Path, fps: float | None, green_ft: float | None, went_m: float | None,
    picture: Path | None, package: Path | None, build_id: str | None, distance_m: float | None,
    as_json: bool, progress_wanted: bool,
) -> None:  # fmt: skip
    """Read a putt off slow motion filmed from the side, of a ball with a line drawn across it.

    Ball speed, launch, spin, skid and true roll, each with a 90 % interval. A clip
    that cannot carry them gets one sentence why, and exit code 2.
    """
    from puttwright.deeds.measure_roll import STEPS, RollAsk, measure_roll, pictures_in

    if package is not None and distance_m is None:
        raise click.UsageError("--into needs --distance-m, from ball to hole")
    total = (pictures_in(video) or _USUAL_PICTURES) + STEPS
    with progress("Reading the video", total, show=progress_wanted) as tell:
        ask = RollAsk(fps=fps, green_ft=green_ft, went_m=went_m)
        reading = measure_roll(video, ask, tell=tell)
    _keep(reading, picture=picture, package=package, build_id=build_id, distance_m=distance_m)
    if as_json:
        click.echo(json.dumps(_plain(reading), indent=2, ensure_ascii=False))
        return
    click.echo("\n".join(_lines(reading)))


def _keep(
    reading: RollReading, *, picture: Path | None, package: Path | None, build_id: str | None,
    distance_m: float | None,
) -> None:  # fmt: skip
    if picture is not None:
        from puttwright.deeds.draw_roll import draw_roll

        draw_roll(reading, picture)
    if package is not None and distance_m is not None:
        from puttwright.deeds.enter_roll import enter_roll

        seq = enter_roll(reading, package=package, build_id=build_id, distance_m=distance_m)
        click.echo(f"Entered as putt {seq}.", err=True)


def _plain(reading: RollReading) -> dict[str, Any]:
    def short(value: Any) -> Any:
        if isinstance(value, float):
            return round(value, _DIGITS)
        if isinstance(value, dict):
            return {name: short(item) for name, item in value.items()}
        return [short(item) for item in value] if isinstance(value, list | tuple) else value

    plain: dict[str, Any] = short(dataclasses.asdict(reading))
    for name in _FIGURES:
        figure = plain[name]
        plain[name] = {"value": figure["value"], "interval_90": [figure["low"], figure["high"]]}
    along = {
        name: plain.pop(name) for name in tuple(plain) if name.startswith(("seen_", "fitted_"))
    }
    return {**plain, "along": along}


def _lines(reading: RollReading) -> list[str]:
    speed, launch = reading.ball_speed_mps, reading.launch_deg
    lines = [
        f"{reading.video}: {reading.pictures} pictures, the ball {reading.ball_px:.0f} pixels wide",
        f"  ball speed {_with(speed, 'm/s', 2)}, launch {_with(launch, '°', 1)}",
        f"  spin at launch {_spin(reading.spin_rpm)}",
        f"  {_skid(reading)}",
        f"  {_share(reading)}",
    ]
    return [*lines, *(f"  {note}" for note in reading.notes)]


def _skid(reading: RollReading) -> str:
    skid = _with(reading.skid_m, "m", _skid_digits(reading.skid_m))
    return f"skid {skid} in {_with(reading.skid_s, 's', 2)}{_meets(reading)}"


def _share(reading: RollReading) -> str:
    figure = reading.roll_share_pct
    share = _with(figure, "%", 1 if figure.high - figure.low < 1.0 else 0)
    return f"true roll {share} of a putt of {_with(reading.total_m, 'm', 1)}"


def _skid_digits(skid: Figure) -> int:
    return 3 if skid.high - skid.low < 0.01 else 2


def _with(figure: Figure, unit: str, digits: int) -> str:
    if figure.value is None:
        return "not to be told"
    space = "" if unit == "°" else " "
    low, high = (f"{value:.{digits}f}" for value in (figure.low, figure.high))
    value = f"{figure.value:.{digits}f}{space}{unit}"
    if figure.low == figure.high:  # what the person said
        return value
    return f"{value} ({low} to {high})".replace("-", "−")


def _spin(figure: Figure) -> str:
    if figure.value is None:
        return "not to be told"
    way = "forward" if figure.value >= 0 else "backward"
    text = f"{abs(figure.value):.0f} rpm {way} ({figure.low:.0f} to {figure.high:.0f})"
    return text.replace("-", "−")


def _meets(reading: RollReading) -> str:
    if reading.meets_m is None:
        return ""
    return f"; speed and turning meet at {reading.meets_m:.2f} m in the film itself"

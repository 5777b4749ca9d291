"""``puttwright measure board``: the laser's dot in photos of the aim board."""

from __future__ import annotations

import dataclasses
import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from puttwright.cli import options
from puttwright.cli.progress import progress

if TYPE_CHECKING:
    from puttwright.deeds.measure_board import PhotoReading

_DIGITS = 4


def _read_tap(text: str) -> tuple[float, float]:
    """Two numbers with a comma between."""
    parts = text.split(",")
    if len(parts) != 2:
        raise click.BadParameter(f"{text!r} is not X,Y, two numbers with a comma between")
    x, y = (options.read_number(part) for part in parts)
    return x, y


@click.command("board", short_help="Read the dot off photos of the aim board.")
@click.argument("photos", type=options.PATH, nargs=-1, required=True, metavar="PHOTO...")
@options.number("--distance-m", "From where the light leaves to the board", between=(0.2, 20),
                unit="m")  # fmt: skip
@options.number("--distance-sd-mm", "How well that was measured", between=(0, 1000), unit="mm",
                default=10)  # fmt: skip
@click.option("--mirror", is_flag=True, help="The beam comes off a mirror on the face.")
@click.option("--laser", type=click.Choice(("red", "green", "any")), default="any",
              show_default=True, help="The laser's colour.")  # fmt: skip
@click.option("--bar-mm", type=options.read_number, metavar="NUMBER",
              help="Measured length of the bar of 100 mm, when it was measured.")  # fmt: skip
@options.number("--zero-mm", "Reading with the face square, taken off every other",
                between=(-300, 300), unit="mm", default=0)  # fmt: skip
@click.option("--tap", type=_read_tap, metavar="X,Y",
              help="Where the dot is, in pixels of the upright photo; for one photo.")  # fmt: skip
@click.option("--pictures", type=options.PATH, metavar="DIR",
              help="Put a small picture of each doubtful photo here.")  # fmt: skip
@options.as_json
@options.show_progress
def command(
    photos: tuple[Path, ...], distance_m: float, distance_sd_mm: float, mirror: bool, laser: str,
    bar_mm: float | None, zero_mm: float, tap: tuple[float, float] | None, pictures: Path | None,
    as_json: bool, progress_wanted: bool,
) -> None:  # fmt: skip
    """Read the laser's dot off photos of the printed aim board.

    Right is positive as seen from the ball. A photo in which the dot is not
    clear gives no reading and says why. A file that cannot be read gets one
    sentence; the others are read all the same, and the exit code is then 2.

    Laser class 1 or 2 only, never toward eyes.
    """
    from puttwright.deeds.measure_board import BoardSetup, into_folder, measure_board

    if tap and len(photos) > 1:
        raise click.UsageError("--tap is for one photo at a time")
    setup = BoardSetup(
        distance_m=distance_m, distance_sd_m=distance_sd_mm / 1000, mirror=mirror, laser=laser,
        bar_mm=bar_mm, zero_mm=zero_mm,
    )  # fmt: skip
    with progress("Reading photos", len(photos), show=progress_wanted) as tell:
        show = into_folder(pictures) if pictures else None
        found = measure_board(photos, setup, tap_px=tap, show=show, tell=tell)
    _show(found, as_json=as_json)
    if any(each.trouble for each in found):
        click.get_current_context().exit(2)


def _show(found: tuple[PhotoReading, ...], *, as_json: bool) -> None:
    if as_json:
        click.echo(json.dumps([_plain(each) for each in found], indent=2, ensure_ascii=False))
        return
    for each in found:
        click.echo("\n".join(_lines(each)), err=bool(each.trouble))
    _sum_up(found)


def _plain(each: PhotoReading) -> dict[str, Any]:
    def short(value: Any) -> Any:
        if isinstance(value, float):
            return round(value, _DIGITS)
        if isinstance(value, dict):
            return {name: short(item) for name, item in value.items()}
        return [short(item) for item in value] if isinstance(value, list | tuple) else value

    plain: dict[str, Any] = short(dataclasses.asdict(each))
    return plain


def _lines(each: PhotoReading) -> list[str]:
    if each.trouble:
        return [f"{each.photo}: {each.trouble}" + ("" if each.trouble.endswith("?") else ".")]
    if each.reading_mm is None or each.face_deg is None:
        head = f"{each.photo}: no reading: {each.doubt}."
        picture = [f"  see {each.picture}"] if each.picture else []
        return [head, *(_choice(c) for c in each.candidates), *picture]
    dot = f"dot {_way(each.reading_mm, 'mm')}, give or take {each.reading_sd_mm:.1f} mm"
    face = f"face {_way(each.face_deg, '°', digits=2)} ± {max(each.face_sd_deg or 0.0, 0.01):.2f}°"
    return [f"{each.photo}: {dot}; {face}"]


def _choice(candidate: Any) -> str:
    x, y = candidate.tap_px
    return (
        f"  {candidate.number}: {candidate.colour}, {_way(candidate.reading_mm, 'mm')}; "
        f"if this is it, --tap {x},{y}"
    )


def _way(value: float, unit: str, *, digits: int = 1) -> str:
    size = f"{abs(value):.{digits}f}{'' if unit == '°' else ' '}{unit}"
    if float(f"{abs(value):.{digits}f}") == 0.0:
        return f"{size}, on the line"
    return f"{size} {'right' if value > 0 else 'left'}"


def _sum_up(found: tuple[PhotoReading, ...]) -> None:
    import statistics

    faces = [each.face_deg for each in found if each.face_deg is not None]
    if len(found) < 2:
        return
    unclear = len(found) - len(faces)
    more = f"; {unclear} without" if unclear else ""
    click.echo(f"{len(faces)} of {len(found)} photos gave a reading{more}.", err=True)
    if len(faces) > 1:
        mean, spread = statistics.fmean(faces), statistics.stdev(faces)
        click.echo(f"The face looks {_way(mean, '°', digits=2)} on average, spread {spread:.2f}°.")

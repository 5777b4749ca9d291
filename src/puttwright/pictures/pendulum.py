"""The two pendulums of the bench: swung from a pivot, turned on two threads."""

from __future__ import annotations

import math

from puttwright.pictures.annotation import angle_dimension, dimension
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.grounds import Ground
from puttwright.pictures.hand import measure

PHYSICAL = "physical"


def pendulum(
    way: str, *, distance_mm: float | None = None, spacing_mm: float | None = None,
    thread_mm: float | None = None, amplitude_deg: float = 0.0, ground: Ground,
    prefix: str = "pendulum", width: float = 620.0,
) -> str:  # fmt: skip
    """Draw how the putter hangs, with what has to be measured.

    Parameters
    ----------
    way
        "physical" (from a pivot) or "bifilar" (on two threads).
    distance_mm, spacing_mm, thread_mm, amplitude_deg
        As the way asks for them; what is not known yet is named without a figure.
    ground, prefix, width
        As for every drawing.

    Examples
    --------
    >>> from puttwright.pictures.grounds import PAPER
    >>> "balance point" in pendulum("physical", ground=PAPER)
    True
    """
    sheet = Sheet(width=width, height=300, ground=ground, prefix=prefix)
    if way == PHYSICAL:
        _physical(sheet, distance_mm=distance_mm, amplitude_deg=amplitude_deg)
        told = "Hung from a pivot and swung; measure pivot to balance point."
        return sheet.svg(title="Pendulum from a pivot", description=told)
    _bifilar(sheet, spacing_mm=spacing_mm, thread_mm=thread_mm)
    told = "Hung level on two threads and turned; measure their distance and their length."
    return sheet.svg(title="Pendulum on two threads", description=told)


def _figure(name: str, value_mm: float | None) -> str:
    return name if value_mm is None else f"{name} {measure(value_mm, 'mm')}"


def _physical(sheet: Sheet, *, distance_mm: float | None, amplitude_deg: float) -> None:
    pivot = (sheet.width / 2, 34.0)
    turn = math.radians(max(amplitude_deg, 8.0))
    down, reach = 170.0, 226.0
    beam = [(pivot[0] - 40, 20), (pivot[0] + 40, 20), (pivot[0] + 40, 30), (pivot[0] - 40, 30)]
    sheet.hatch(beam)
    sheet.path(beam, closed=True)
    for way in (-1, 1):
        foot = (pivot[0] + way * reach * math.sin(turn), pivot[1] + reach * math.cos(turn))
        sheet.line(pivot, foot, style="hidden", ink="muted")
    sheet.line(pivot, (pivot[0], pivot[1] + reach), weight="bold")
    head = [(pivot[0] - 26, 258), (pivot[0] + 26, 258), (pivot[0] + 26, 276), (pivot[0] - 26, 276)]
    sheet.path(head, closed=True)
    balance = (pivot[0], pivot[1] + down)
    sheet.circle(balance, radius=5, ink="accent", fill="paper")
    sheet.text((pivot[0] - 12, balance[1] + 4), "balance point", size="small", anchor="end",
               halo=True)  # fmt: skip
    dimension(sheet, (pivot, balance), label=_figure("distance", distance_mm), offset=-58)
    if amplitude_deg:
        angle_dimension(sheet, pivot, radius=120, from_deg=-90, to_deg=-90 + amplitude_deg,
                        label=measure(amplitude_deg, "°"))  # fmt: skip
    sheet.circle(pivot, radius=4, fill="paper")


def _bifilar(sheet: Sheet, *, spacing_mm: float | None, thread_mm: float | None) -> None:
    middle, top, bottom = sheet.width / 2, 34.0, 210.0
    half = 0.2 * sheet.width
    beam = [(middle - half - 24, 20), (middle + half + 24, 20), (middle + half + 24, 30),
            (middle - half - 24, 30)]  # fmt: skip
    sheet.hatch(beam)
    sheet.path(beam, closed=True)
    for side in (-1, 1):
        sheet.line((middle + side * half, top - 4), (middle + side * half, bottom))
    sheet.line((middle - 1.7 * half, bottom), (middle + 1.5 * half, bottom), weight="bold")
    end = middle + 1.5 * half
    head = [(end, bottom - 9), (end + 22, bottom - 9), (end + 22, bottom + 14), (end, bottom + 14)]
    sheet.path(head, closed=True)
    sheet.circle((middle, bottom), radius=5, ink="accent", fill="paper")
    sheet.ellipse((middle, bottom), radii=(0.8 * half, 12), ink="muted", style="dotted")
    ends = ((middle - half, bottom), (middle + half, bottom))
    dimension(sheet, ends, label=_figure("between the threads", spacing_mm), offset=46)
    up = ((middle - half, top - 4), (middle - half, bottom))
    dimension(sheet, up, label=_figure("thread", thread_mm), offset=40)
    sheet.text((middle, bottom - 10), "balance point", size="small", anchor="middle", halo=True)

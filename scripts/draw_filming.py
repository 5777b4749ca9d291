"""Draw the pictures of docs/guide/filming.md.

``python scripts/draw_filming.py`` writes docs/pictures/film-*.svg.
"""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np

from puttwright.ball.side_view import SideStrike, side_view
from puttwright.pictures.annotation import arrowhead, dimension, leader
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.filmed_roll import FilmedRoll, draw_filmed_roll
from puttwright.pictures.grounds import PAPER

PICTURES = Path(__file__).resolve().parents[1] / "docs" / "pictures"


def _sheet(name: str, *, width: float, height: float) -> Sheet:
    return Sheet(width=width, height=height, ground=PAPER, prefix=f"film-{name}")


def setup() -> str:
    """The phone beside the putt, seen from above."""
    sheet = _sheet("setup", width=720.0, height=330.0)
    line, left, right = 70.0, 120.0, 640.0
    sheet.line((left - 60, line), (right + 40, line), weight="hair", style="centre")
    for place, ink in ((left, "ink"), (left + 130, "muted"), (left + 290, "muted")):
        sheet.circle((place, line), radius=9.0, weight="line", ink=ink, fill="paper")
    sheet.solid([(left - 22, line - 34), (left - 11, line - 34), (left - 11, line + 34),
                 (left - 22, line + 34)])  # fmt: skip
    arrowhead(sheet, (right + 40, line), towards=(1.0, 0.0), ink="ink")
    sheet.text((right - 20, line - 14), "the putt", size="small")
    phone = (0.5 * (left + right) - 20, 270.0)
    sheet.path(
        [(phone[0] - 30, phone[1]), (phone[0] + 30, phone[1]), (phone[0] + 30, phone[1] + 10),
         (phone[0] - 30, phone[1] + 10), (phone[0] - 30, phone[1])], weight="bold",
    )  # fmt: skip
    for end in (left - 40, right - 10):
        sheet.line((phone[0], phone[1]), (end, line), ink="muted", weight="hair", style="dotted")
    sheet.text((phone[0] + 40, phone[1] + 10), "phone on the green, lens square to the putt",
               size="small")  # fmt: skip
    dimension(sheet, ((left - 40, 122.0), (right - 10, 122.0)), label="1.0 to 1.4 m in the picture")
    dimension(sheet, ((phone[0] + 90, line + 12), (phone[0] + 90, phone[1] - 4)), label="about 1 m")
    leader(sheet, (left, line - 9), to=(left + 40, 26.0), words="ball at rest, near the edge")
    return sheet.svg(
        title="Where the phone stands",
        description="From above: the phone one metre beside the putt, square to it, with the ball "
        "near one edge of the picture and more than a metre of its way in view.",
        backed=True,
    )


def _ball(sheet: Sheet, centre: tuple[float, float], *, name: str, mark: str) -> None:
    radius = 46.0
    x, y = centre
    sheet.circle(centre, radius=radius, weight="line", fill="paper")
    if mark == "across":
        # A hoop seen a little from the side, its top leaning half way toward the hole.
        half = np.linspace(-1.0, 1.0, 17)
        long, wide = (radius - 1) * half, 4.0 * np.sqrt(1.0 - half**2)
        share = math.sqrt(0.5)
        sheet.path(
            [(x + share * (a + b), y - share * (a - b)) for a, b in zip(long, wide, strict=True)],
            weight="bold",
        )  # fmt: skip
        sheet.line((x + 58, y), (x + 84, y), weight="hair")
        arrowhead(sheet, (x + 92, y), towards=(1.0, 0.0), ink="ink")
    if mark == "along":
        ahead = np.linspace(-22.0, 22.0, 9)
        top = y + 1.5 - np.sqrt(radius**2 - ahead**2)
        sheet.path([(x + a, b) for a, b in zip(ahead, top, strict=True)], weight="bold")
    if mark == "dots":
        for angle in range(0, 360, 60):
            at = (x + 24 * math.cos(math.radians(angle)), y + 24 * math.sin(math.radians(angle)))
            sheet.circle(at, radius=2.0, weight="hair", ink="faint", fill="paper")
    sheet.line((x - 66, y + radius), (x + 66, y + radius), weight="line")
    sheet.text((x, y + radius + 22), name, size="small", anchor="middle")


def mark() -> str:
    """The line on the ball as the phone sees it: right, along the putt, none."""
    sheet = _sheet("mark", width=720.0, height=190.0)
    _ball(sheet, (130.0, 80.0), name="so: across, leaning to the hole", mark="across")
    _ball(sheet, (360.0, 80.0), name="not along the putt: edge-on", mark="along")
    _ball(sheet, (590.0, 80.0), name="not dimples alone", mark="dots")
    return sheet.svg(
        title="The line on the ball, as the phone sees it",
        description="A thick black line across the ball, its top leaning half way toward the hole "
        "at address, can be read; one along the putt is seen edge-on, dimples are too faint.",
        backed=True,
    )


def curves() -> str:
    """Ball speed and turning of a putt, as `measure roll --picture` draws them."""
    strike = SideStrike(
        along_mps=2.1, rise_mps=0.08, surface_mps=0.1, frictions=(0.4,), deceleration_mps2=0.55
    )
    rng = np.random.default_rng(3)
    times = np.linspace(0.0, 0.62, 150)
    seen = side_view(strike, time_s=times)
    speeds = seen.speed_mps + rng.normal(0, 0.008, len(times))
    surfaces = seen.surface_mps + rng.normal(0, 0.01, len(times))
    roll = FilmedRoll(
        seen_m=tuple(seen.along_m), seen_speed_mps=tuple(speeds), seen_surface_mps=tuple(surfaces),
        fitted_m=tuple(seen.along_m), fitted_speed_mps=tuple(seen.speed_mps),
        fitted_surface_mps=tuple(seen.surface_mps),
        skid_m=(seen.skid_m, seen.skid_m - 0.008, seen.skid_m + 0.008),
        meets_m=seen.skid_m + 0.006,
    )  # fmt: skip
    return draw_filmed_roll(roll, ground=PAPER, prefix="film-curves")


DRAWINGS = {"film-setup": setup, "film-mark": mark, "film-curves": curves}


def main() -> None:
    """Write the files."""
    for name, draw in DRAWINGS.items():
        (PICTURES / f"{name}.svg").write_text(draw() + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()

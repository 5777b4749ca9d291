"""Draw the pictures of docs/concepts/putt.md from the models themselves.

``python scripts/draw_putt.py`` writes docs/pictures/putt-*.svg; a test holds the files to it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path

import numpy as np

from puttwright.ball.crossing import rim_entry
from puttwright.ball.green import GreenPlane
from puttwright.ball.hole import (
    capture_speed_mps,
    capture_speed_penner2002,
    effective_half_width_m,
)
from puttwright.ball.impact import Delivery
from puttwright.ball.loft import grass_of_speed_m, launch_window
from puttwright.ball.pace import read
from puttwright.ball.rim import track
from puttwright.ball.roll import Launch, rolled_to, to_true_roll, true_roll
from puttwright.ball.startline import explain
from puttwright.pictures.annotation import arrowhead, dimension, leader, scale_line
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.grounds import PAPER
from puttwright.pictures.of_putt import roll_track
from puttwright.pictures.roll import skid_and_roll
from puttwright.pictures.svg import Point
from puttwright.units import BALL_RADIUS_M, HOLE_RADIUS_M

PICTURES = Path(__file__).resolve().parents[1] / "docs" / "pictures"


def _sheet(name: str, *, width: float, height: float) -> Sheet:
    return Sheet(width=width, height=height, ground=PAPER, prefix=f"putt-{name}")


def stages() -> str:
    """A putt of about four metres from the side."""
    of = roll_track(
        ball_speed_mps=2.7,
        launch_deg=2.5,
        spin_rpm=-30.0,
        green_ft=10.0,
        title="Hop, skid and true roll",
    )
    return skid_and_roll(of, ground=PAPER, prefix="putt-stages")


def strike() -> str:
    """Face, path and start line from above."""
    parts = explain(
        delivery=Delivery(
            head_speed_mps=1.5, loft_rad=0.05, face_rad=math.radians(2), path_rad=math.radians(-3)
        )
    )
    start_deg = math.degrees(float(parts.start_rad))
    sheet = _sheet("strike", width=720, height=250)
    ball, stretch = (150.0, 125.0), 6.0

    def ray(angle_deg: float, length: float, *, back: float = 0.0) -> tuple[Point, Point]:
        """Angles are drawn six times as wide as they are, or nobody would see them."""
        turn = math.radians(stretch * angle_deg)
        at = (math.cos(turn), math.sin(turn))
        return (
            (ball[0] - back * at[0], ball[1] - back * at[1]),
            (ball[0] + length * at[0], ball[1] + length * at[1]),
        )

    sheet.line((40, ball[1]), (690, ball[1]), style="centre", ink="faint")
    sheet.text((690, ball[1] - 6), "target line", size="small", ink="muted", anchor="end")
    for angle, words, style in ((2.0, "face 2° right", "hidden"), (-3.0, "path 3° left", "dotted")):
        a, b = ray(angle, 330, back=0 if angle > 0 else 90)
        sheet.line(a, b, style=style, ink="muted")
        sheet.text((b[0] + 6, b[1] + 4), words, size="small")
    a, b = ray(start_deg, 400)
    sheet.line(a, b, ink="accent", weight="bold")
    arrowhead(sheet, b, towards=(b[0] - a[0], b[1] - a[1]), ink="accent")
    sheet.text((b[0] + 8, b[1] + 4), f"starts {start_deg:.1f}° right", bold=True)
    turn = math.radians(2.0 * stretch)
    foot = (ball[0] - 11 * math.cos(turn), ball[1] - 11 * math.sin(turn))
    along = (-math.sin(turn), math.cos(turn))
    edges = [(foot[0] + s * along[0], foot[1] + s * along[1]) for s in (-48, 48)]
    deep = [(x - 26 * math.cos(turn), y - 26 * math.sin(turn)) for x, y in reversed(edges)]
    sheet.hatch([*edges, *deep])
    sheet.path([*edges, *deep], closed=True)
    sheet.circle(ball, radius=10, fill="paper")
    face, path = (math.degrees(float(part)) for part in (parts.face_rad, parts.path_rad))
    sheet.text((40, 228), f"the face gives {face:+.1f}°, the path {path:+.1f}°".replace("-", "−"))
    sheet.text(
        (690, 228), "angles drawn six times as wide", size="small", ink="muted", anchor="end"
    )
    return sheet.svg(
        title="Face, path and start line",
        description=f"A face 2 degrees right with a path 3 degrees left starts the ball "
        f"{start_deg:.1f} degrees right: mostly where the face looks.",
    )


def loft() -> str:
    """The window of delivered loft over green speed."""
    speeds = np.arange(7.0, 13.01, 0.5)
    windows = [
        launch_window(
            green=GreenPlane.of_speed(speed_ft=float(feet)),
            grass_m=float(grass_of_speed_m(speed_ft=feet)),
        )
        for feet in speeds
    ]
    low, high = (
        [math.degrees(getattr(window, name)) for window in windows]
        for name in ("low_loft_rad", "high_loft_rad")
    )
    sheet = _sheet("loft", width=720, height=300)

    def at(feet: float, degrees: float) -> Point:
        return (70 + (feet - 7) / 6.0 * 560, 240 - degrees / 7 * 210)

    lower = [at(*pair) for pair in zip(speeds, low, strict=True)]
    upper = [at(*pair) for pair in zip(speeds, high, strict=True)]
    sheet.hatch([*lower, *reversed(upper)], ink="faint")
    sheet.path(lower, ink="accent", weight="bold")
    sheet.path(upper, weight="line")
    for degrees in range(0, 7, 1):
        x, y = at(7, degrees)
        sheet.line((x - 5, y), (x, y), ink="muted", weight="hair")
        sheet.text((x - 9, y + 4), f"{degrees}°", size="small", ink="muted", anchor="end")
    scale_line(
        sheet,
        [7, 8, 9, 10, 11, 12, 13],
        place=lambda feet: at(feet, 0)[0],
        level=244,
        label=lambda feet: f"{feet:g}",
    )
    sheet.text((630, 282), "green speed, ft", size="small", ink="muted", anchor="end")
    sheet.text((70, 22), "delivered loft: static loft less shaft lean", size="small", ink="muted")
    leader(sheet, upper[3], to=(330, 62), words="more: flies, and skids 3 % longer")
    leader(sheet, lower[8], to=(470, 196), words="less: ploughs out of its own hollow")
    return sheet.svg(
        title="Loft that suits a green",
        description=f"At 7 ft the ball wants {low[0]:.1f} to {high[0]:.1f} degrees of delivered "
        f"loft, at 13 ft {low[-1]:.1f} to {high[-1]:.1f}.",
    )


def _path(*, past_m: float, green: GreenPlane, distance_m: float) -> list[Point]:
    """The line of a read putt from the ball to the rim, in metres."""
    plan = read(distance_m=distance_m, past_m=past_m, green=green)
    launch = Launch(ball_speed_mps=plan.ball_speed_mps, start_rad=plan.aim_rad)
    stages = to_true_roll(launch=launch, green=green)
    entry = rim_entry(stages=stages, green=green, distance_m=distance_m)
    ball = stages.rolling
    points = [(0.0, 0.0)]
    for z in np.linspace(0.0, 1.0, 240)[:-1]:
        rolled = true_roll(ball, green=green, p=-np.log1p(-z))
        x, y = rolled_to(ball, rolled=rolled, green=green)[:, 0]
        points.append((float(x), float(y)))
        if entry.reached and math.hypot(x - distance_m, y) < HOLE_RADIUS_M:
            break
    return points


def breaking() -> str:
    """One putt at three paces across a slope."""
    green = GreenPlane.of_speed(speed_ft=10, slope=0.025, slope_towards_rad=math.pi / 2)
    distance_m, scale = 4.0, 150.0
    sheet = _sheet("break", width=720, height=250)

    def at(point: Point) -> Point:
        return (60 + scale * point[0], 185 + scale * point[1])

    paces = (
        (0.05, "hair", "dies in the hole"),
        (0.43, "bold", "0.4 m past"),
        (1.2, "line", "1.2 m past"),
    )
    lines = []
    for past_m, weight, words in paces:
        points = [at(point) for point in _path(past_m=past_m, green=green, distance_m=distance_m)]
        sheet.path(points, weight=weight, ink="accent" if weight == "bold" else "ink")
        lines.append((points, words))
    sheet.line(at((0.0, 0.0)), at((distance_m, 0.0)), style="centre", ink="faint")
    for (points, words), share in zip(lines, (0.30, 0.55, 0.80), strict=True):
        tip = points[round(share * (len(points) - 1))]
        leader(sheet, tip, to=(tip[0] + 26, tip[1] - 60), words=words)
    sheet.circle(at((distance_m, 0.0)), radius=HOLE_RADIUS_M * scale, fill="paper")
    sheet.circle(at((0.0, 0.0)), radius=4, fill="paper")
    for x in (150, 360, 570):
        sheet.line((x, 205), (x, 232), ink="muted", weight="hair")
        arrowhead(sheet, (x, 236), towards=(0.0, 1.0))
    sheet.text((590, 228), "downhill, 2.5 %", size="small", ink="muted")
    return sheet.svg(
        title="One putt, three paces",
        description="Four metres across a slope of 2.5 per cent on a 10 ft green: the firmer the "
        "putt, the straighter its line and the smaller the hole it sees.",
    )


def hole() -> str:
    """How wide the hole is at a speed, and the capture curve beside the published law."""
    sheet = _sheet("hole", width=720, height=320)
    centre, scale = (150.0, 150.0), 2400.0
    sheet.circle(centre, radius=HOLE_RADIUS_M * scale, weight="bold")
    for speed, words in ((0.3, "0.3 m/s"), (0.8, "0.8 m/s"), (1.3, "1.3 m/s")):
        half = scale * float(effective_half_width_m(speed_mps=speed))
        y = centre[1] + {0.3: 12.0, 0.8: -34.0, 1.3: -78.0}[speed]
        dimension(
            sheet,
            ((centre[0] - half, y), (centre[0] + half, y)),
            label=f"{words}: {2e3 * half / scale:.0f} mm",
        )
    ball = (centre[0], centre[1] + 66.0)
    sheet.circle(ball, radius=BALL_RADIUS_M * scale, ink="muted", weight="hair", style="dotted")
    sheet.text((ball[0], ball[1] + 4), "ball", size="small", ink="muted", anchor="middle")
    sheet.text((centre[0], 312), "ball's centre must cross within", size="small", ink="muted",
               anchor="middle")  # fmt: skip
    offsets = np.linspace(0.0, HOLE_RADIUS_M, 109)

    def at(offset_m: float, speed: float) -> Point:
        return (360 + offset_m / 0.054 * 320, 270 - speed / 1.8 * 240)

    ours, law = capture_speed_mps(offset_m=offsets), capture_speed_penner2002(offset_m=offsets)
    sheet.path([at(*pair) for pair in zip(offsets, law, strict=True)], style="hidden", ink="muted")
    sheet.path([at(*pair) for pair in zip(offsets, ours, strict=True)], ink="accent", weight="bold")
    for speed in (0.0, 0.5, 1.0, 1.5):
        x, y = at(0.0, speed)
        sheet.line((x - 5, y), (x, y), ink="muted", weight="hair")
        sheet.text((x - 8, y + 4), f"{speed:g}", size="small", ink="muted", anchor="end")
    scale_line(sheet, [0, 10, 20, 30, 40, 50], place=lambda mm: at(mm / 1e3, 0)[0], level=274,
               label=lambda mm: f"{mm:g}")  # fmt: skip
    sheet.text((680, 312), "mm off the middle", size="small", ink="muted", anchor="end")
    sheet.text((352, 20), "m/s at the rim", size="small", ink="muted")
    leader(sheet, at(0.015, float(capture_speed_mps(offset_m=0.015))), to=(400, 140), words="ours")
    leader(sheet, at(0.022, float(capture_speed_penner2002(offset_m=0.022))), to=(560, 60),
           words="published law")  # fmt: skip
    return sheet.svg(
        title="The hole shrinks with speed",
        description="At 0.3 metres a second the hole takes balls over nearly its whole width, at "
        "1.3 over less than half of it; nothing faster than 1.63 drops.",
    )


def rim() -> str:
    """Three balls at the hole, seen from the side: in, off the far rim, and out."""
    sheet = _sheet("rim", width=720, height=270)
    scale, left = 1150.0, 84.0
    cases = (
        (0.7, 0.0, "0.7 m/s, centred"),
        (1.5, 0.0, "1.5 m/s, centred"),
        (1.2, 0.035, "1.2 m/s, 35 mm off"),
    )
    for number, (speed, offset, words) in enumerate(cases):
        run = track(speed_mps=speed, offset_m=offset, points=6000)
        middle = left + 40 + 232.0 * number
        floor = 70.0

        def at(point: np.ndarray, middle: float = middle, floor: float = floor) -> Point:
            return (middle + scale * float(point[0]), floor - scale * float(point[2]))

        edge = HOLE_RADIUS_M * scale
        for side in (-1, 1):
            wall = middle + side * edge
            sheet.line((wall + side * 36, floor), (wall, floor), weight="bold")
            sheet.line((wall, floor), (wall, floor + 116), weight="bold")
        kept = [point for point in run.centre_m if point[2] > -0.082 and abs(point[0]) < 0.083]
        sheet.path([at(point) for point in kept], ink="accent", weight="line")
        for share in (0.0, 0.5, 1.0):
            where = at(kept[round(share * (len(kept) - 1))])
            sheet.circle(where, radius=BALL_RADIUS_M * scale, weight="hair")
        sheet.text((middle, 220), words, size="small", anchor="middle")
        sheet.text((middle, 240), run.fate, anchor="middle", bold=True)
    sheet.text((360, 262), "line: the ball's centre", size="small", ink="muted", anchor="middle")
    return sheet.svg(
        title="In, in off the far rim, and out",
        description="A slow ball falls clean; at 1.5 metres a second the far rim stops it and it "
        "drops; 35 millimetres off the middle at 1.2 it dips, rides the rim and comes out.",
    )


DRAWINGS: dict[str, Callable[[], str]] = {
    "stages": stages,
    "strike": strike,
    "loft": loft,
    "break": breaking,
    "hole": hole,
    "rim": rim,
}


def drawn(name: str) -> str:
    """A drawing as its file holds it: on its own paper, so that a dark page does not hide it."""
    backing = f'<rect width="100%" height="100%" fill="{PAPER.paper}"/>'
    return DRAWINGS[name]().replace("</desc>", f"</desc>{backing}", 1) + "\n"


if __name__ == "__main__":
    for name in DRAWINGS:
        (PICTURES / f"putt-{name}.svg").write_text(drawn(name), encoding="utf-8")
        print(f"docs/pictures/putt-{name}.svg")

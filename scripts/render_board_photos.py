"""Make the photos that the guide is tried with: docs/guide/board-photos, with their truth.

The same seeds give the same pictures, up to the JPEG of the library at hand.
"""

from __future__ import annotations

import csv
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))

from board_scene import Dot, Shot, jpeg

FOLDER = Path(__file__).resolve().parent.parent / "docs" / "guide" / "board-photos"
_CLOSE = {"size": (1000, 760), "camera_m": 1.4, "focal_px": 2600.0, "quality": 80}
SHOTS = {
    "1-red.jpg": Shot(dots=(Dot(x_mm=21.0, y_mm=12.0),), yaw_deg=9, pitch_deg=-6, seed=1, **_CLOSE),
    "2-red.jpg": Shot(dots=(Dot(x_mm=26.5, y_mm=-9.0),), yaw_deg=-7, roll_deg=3, seed=2, **_CLOSE),
    "3-green.jpg": Shot(
        dots=(Dot(x_mm=17.2, y_mm=4.0, colour="green", peak=6.0),), yaw_deg=14, k1=0.05, glare=0.3,
        seed=3, **_CLOSE,
    ),
    "4-two.jpg": Shot(
        dots=(Dot(x_mm=23.4, y_mm=20.0), Dot(x_mm=-8.0, y_mm=31.0, peak=0.8)), pitch_deg=8, seed=4,
        **_CLOSE,
    ),
    "5-none.jpg": Shot(yaw_deg=-12, glare=0.5, seed=5, **_CLOSE),
    "6-covered.jpg": Shot(
        dots=(Dot(x_mm=24.1, y_mm=-2.0),), covered=((-176, 114, 45), (176, -114, 45)), yaw_deg=6,
        seed=6, **_CLOSE,
    ),
}  # fmt: skip


def main() -> None:
    """Write the photos and a table of what is in them."""
    FOLDER.mkdir(parents=True, exist_ok=True)
    with (FOLDER / "truth.csv").open("w", encoding="utf-8", newline="") as stream:
        table = csv.writer(stream, lineterminator="\n")
        table.writerow(["photo", "reading_mm", "colour"])
        for name, shot in SHOTS.items():
            (FOLDER / name).write_bytes(jpeg(shot))
            one = shot.dots[0] if len(shot.dots) == 1 else None
            table.writerow([name, one.x_mm if one else "", one.colour if one else ""])


if __name__ == "__main__":
    main()

"""The laser's dot on the board's field: every spot of laser colour, how bright and how sure.

The field is laid flat first. Then what the print and the room's light make is taken
away: the light changes slowly from place to place, and all print in the field runs
from its top to its foot. What is left and has more of one colour is a spot. A glare
is white, a colour fringe at a printed line runs through: neither passes for a dot.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

Plane = NDArray[np.float32]

RED, GREEN = "red", "green"
_CELL_MM: Final = 16.0
_SMOOTH_MM: Final = 0.7
_LEAST_SNR: Final = 8.0
_LEAST_LEVELS: Final = 3.5
"""Colour above the paper's, in 256 levels: what JPEG makes of nothing stays below."""
_LEAST_COLOUR_SHARE: Final = 0.06
_WIDEST_MM: Final = 25.0
_STREAK: Final = 3.2
_ROUNDS: Final = 12
_PIXEL_SD_PX: Final = 0.06
_SHAPE_SHARE: Final = 0.025
"""A spot's middle is not where its light's middle is, by about this part of its width; a guess."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A spot of laser colour on the field: middle, its spread, width; ``light`` ranks spots."""

    x_mm: float
    y_mm: float
    sd_mm: float
    width_mm: float
    streak: float
    colour: str
    light: float
    at_edge: bool = False

    @property
    def round_enough(self) -> bool:
        """Whether it may be a dot, and no streak or lamp."""
        return self.streak <= _STREAK and self.width_mm <= _WIDEST_MM


def find_spots(field: NDArray[np.uint8], *, px_per_mm: float, colour: str) -> list[Spot]:
    """Spots on a field laid flat, the brightest first.

    Parameters
    ----------
    field
        Colours, red first, shape (height, width, 3); its middle is the board's middle,
        its top the board's top.
    px_per_mm
        Pixels a millimetre.
    colour
        ``red``, ``green`` or ``any``.

    Returns
    -------
    list of Spot
        At most one per place; places in millimetres of the board.
    """
    above = _above_paper(field, px_per_mm)
    found: list[Spot] = []
    for name, channel in ((RED, 0), (GREEN, 1)):
        if colour in {name, "any"}:
            found += _spots_of(above, channel, name=name, px_per_mm=px_per_mm)
    found.sort(key=lambda spot: -spot.light)
    kept: list[Spot] = []
    for spot in found:
        if all(np.hypot(spot.x_mm - k.x_mm, spot.y_mm - k.y_mm) > 2.0 for k in kept):
            kept.append(spot)
    return kept


def _above_paper(field: NDArray[np.uint8], px_per_mm: float) -> NDArray[np.float32]:
    """What the field shows beyond paper, print and the room's light, in levels."""
    import cv2  # noqa: PLC0415 - a large library, needed only for photos

    cell = max(4, round(_CELL_MM * px_per_mm))
    height, width = field.shape[:2]
    rows, columns = max(1, round(height / cell)), max(1, round(width / cell))
    light = np.empty((rows, columns, 3), np.float32)
    for row in range(rows):
        for column in range(columns):
            patch = field[
                row * height // rows : (row + 1) * height // rows : 2,
                column * width // columns : (column + 1) * width // columns : 2,
            ]
            light[row, column] = np.median(patch.reshape(-1, 3), axis=0)
    smooth = cv2.resize(light, (width, height), interpolation=cv2.INTER_LINEAR)
    above = field.astype(np.float32) - smooth
    above -= np.median(above[::2], axis=0)[None]
    return above


def _spots_of(
    above: NDArray[np.float32], channel: int, *, name: str, px_per_mm: float
) -> list[Spot]:
    import cv2  # noqa: PLC0415 - as above

    own = above[..., channel]
    others = np.maximum(above[..., 1 - channel], above[..., 2])
    smooth = cv2.GaussianBlur(own - others, (0, 0), _SMOOTH_MM * px_per_mm)
    colour = np.asarray(smooth, np.float32)
    noise = 1.4826 * float(np.median(np.abs(colour)))
    mask = (colour > max(_LEAST_SNR * noise, _LEAST_LEVELS)).astype(np.uint8)
    if not mask.any():
        return []
    # A core that is burnt to white leaves a ring of colour: close it.
    reach = 2 * round(1.5 * px_per_mm) + 1
    ring = cv2.morphologyEx(
        mask, cv2.MORPH_CLOSE, cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (reach, reach))
    )
    count, labels, boxes, _ = cv2.connectedComponentsWithStats(ring)
    grain = 1.4826 * float(np.median(np.abs(own - np.median(own))))
    spots = []
    for label in range(1, min(count, 200)):
        left, top, across, down, _area = (int(value) for value in boxes[label])
        pad = round(3.0 * px_per_mm)
        rows = slice(max(0, top - pad), min(own.shape[0], top + down + pad))
        columns = slice(max(0, left - pad), min(own.shape[1], left + across + pad))
        inside = labels[rows, columns] == label
        spot = _measured(
            own[rows, columns], colour[rows, columns], inside, grain=max(grain, 0.5),
            px_per_mm=px_per_mm,
        )  # fmt: skip
        if spot is not None:
            spots.append(
                _on_board(
                    spot, (columns.start, rows.start), shape=own.shape, name=name, scale=px_per_mm
                )
            )
    return spots


def _measured(
    own: Plane, colour: Plane, inside: NDArray[np.bool_], *, grain: float, px_per_mm: float
) -> dict[str, float] | None:
    """Middle, widths and light of one spot, in pixels of its patch; ``None`` for no light."""
    light = np.maximum(own, 0.0) * inside
    total = float(light.sum())
    tint = float((np.maximum(colour, 0.0) * inside).sum())
    if total <= 0.0 or tint < _LEAST_COLOUR_SHARE * total:
        return None
    y, x = np.mgrid[: own.shape[0], : own.shape[1]].astype(np.float32)
    middle = np.array([(light * x).sum(), (light * y).sum()]) / total
    spread = np.array([
        [(light * (x - middle[0]) ** 2).sum(), (light * (x - middle[0]) * (y - middle[1])).sum()],
        [0.0, (light * (y - middle[1]) ** 2).sum()],
    ]) / total  # fmt: skip
    spread[1, 0] = spread[0, 1]
    small, large = np.sqrt(np.maximum(np.linalg.eigvalsh(spread), 0.08))
    middle, noise = _centred(
        own, (x, y), start=middle, sigma=max(small, 0.6 * px_per_mm), grain=grain
    )
    uneven = 0.5 * max(np.sqrt(max(spread[0, 0], 0.08)) - small, 0.0)
    return {
        "x": float(middle[0]), "y": float(middle[1]), "light": total,
        "width": 4.0 * float(np.sqrt(small * large)), "streak": float(large / small),
        "sd": float(np.hypot(noise, uneven)),
    }  # fmt: skip


def _centred(
    own: Plane, place: tuple[Plane, Plane], *, start: NDArray[Any], sigma: float, grain: float
) -> tuple[NDArray[Any], float]:
    """The middle under a Gaussian window that follows it, and its spread from the grain [px].

    Bertin and Arnouts 1996 (and the manual of their program): the step is doubled because the
    window pulls the mean half way back.
    """
    x, y = place
    middle = start.copy()
    window = light = np.zeros_like(own)
    for _ in range(_ROUNDS):
        window = np.exp(-((x - middle[0]) ** 2 + (y - middle[1]) ** 2) / (2 * sigma**2))
        light = window * own
        total = max(float(light.sum()), 1e-6)
        step = np.array([(light * (x - middle[0])).sum(), (light * (y - middle[1])).sum()]) / total
        middle = middle + 2.0 * step
        if float(np.abs(step).max()) < 1e-3:
            break
    if float(np.abs(middle - start).max()) > 2.0 * sigma + 1.0:
        middle = start
    spread = 2.0 * grain * float(np.sqrt((window**2 * (x - middle[0]) ** 2).sum()))
    return middle, spread / max(float(light.sum()), 1e-6)


def _on_board(
    spot: dict[str, float], corner: tuple[int, int], *, shape: tuple[int, ...], name: str,
    scale: float,
) -> Spot:  # fmt: skip
    x, y = corner[0] + spot["x"], corner[1] + spot["y"]
    width = spot["width"] / scale
    sd = np.sqrt(
        (spot["sd"] / scale) ** 2 + (_PIXEL_SD_PX / scale) ** 2 + (_SHAPE_SHARE * width) ** 2
    )
    margin = 0.5 * spot["width"]
    inside = margin < x < shape[1] - margin and margin < y < shape[0] - margin
    return Spot(
        x_mm=(x + 0.5 - shape[1] / 2) / scale, y_mm=(shape[0] / 2 - y - 0.5) / scale,
        sd_mm=float(sd), width_mm=width, streak=spot["streak"], colour=name, light=spot["light"],
        at_edge=not inside,
    )  # fmt: skip

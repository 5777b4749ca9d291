"""A camera in front of the printed aim board: photos whose truth is known.

The sheet in the picture is the PDF that `puttwright board` prints, set as an image, so that a
fault in what is printed shows as a fault in what is read. Light adds up before the lens blurs it,
the lens bends and darkens it, the sensor counts it with noise and clips it, and JPEG has the last
word.
"""

from __future__ import annotations

import functools
import json
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

import cv2
import numpy as np
import typst
from numpy.typing import NDArray

import puttwright.paper.typesetting as setting
from puttwright.paper.board import board_data, board_on

Image = NDArray[np.uint8]
SHEET_PX_PER_MM = 10.0
# Linear response of blue, green and red to a laser: filters of a sensor overlap.
LASERS = {"red": (0.03, 0.10, 1.0), "green": (0.18, 1.0, 0.12)}


@dataclass(frozen=True, kw_only=True)
class Dot:
    """A spot of light on the board: where, which, how wide (1 sigma), how bright beside white 1."""

    x_mm: float
    y_mm: float
    colour: str = "red"
    sigma_mm: float = 0.9
    peak: float = 1.5


@dataclass(frozen=True, kw_only=True)
class Shot:
    """Everything a photo depends on. Angles turn the board away from the camera."""

    paper: str = "A3"
    dots: tuple[Dot, ...] = ()
    size: tuple[int, int] = (900, 700)
    focal_px: float = 3000.0
    camera_m: float = 3.0
    yaw_deg: float = 0.0
    pitch_deg: float = 0.0
    roll_deg: float = 0.0
    off_mm: tuple[float, float] = (0.0, 0.0)
    k1: float = 0.0
    blur_px: float = 0.7
    light: tuple[float, float, float] = (0.5, 0.5, 0.5)
    glare: float = 0.0
    vignette: float = 0.2
    noise: float = 0.006
    quality: int = 88
    seed: int = 1
    covered: tuple[tuple[float, float, float], ...] = field(default=())
    """Discs laid over the board: x, y, radius in mm."""


@functools.lru_cache(maxsize=8)
def printed(paper: str) -> Image:
    """The sheet as printed, in grey, ten pixels a millimetre."""
    folder = Path(setting.__file__).resolve().parent
    png = typst.compile(
        str(folder / "templates" / "board.typ"),
        root=str(folder / "templates"),
        font_paths=[str(folder / "fonts")],
        ignore_system_fonts=True,
        format="png",
        ppi=25.4 * SHEET_PX_PER_MM,
        sys_inputs={"data": json.dumps(board_data(board_on(paper))), "sheet": "a4"},
    )
    return cv2.imdecode(np.frombuffer(png, np.uint8), cv2.IMREAD_GRAYSCALE)


def _turn(shot: Shot) -> NDArray[np.float64]:
    turns = np.radians([shot.pitch_deg, shot.yaw_deg, shot.roll_deg])
    axes = (np.array([1.0, 0, 0]), np.array([0, 1.0, 0]), np.array([0, 0, 1.0]))
    pitch, yaw, roll = (
        cv2.Rodrigues(axis * turn)[0] for axis, turn in zip(axes, turns, strict=True)
    )
    return roll @ pitch @ yaw


def _board_mm(shot: Shot, x_px: NDArray, y_px: NDArray) -> tuple[NDArray, NDArray]:
    """Where on the board's plane each pixel looks [mm], right and up positive."""
    width, height = shot.size
    bent = np.stack(
        [(x_px - (width - 1) / 2) / shot.focal_px, (y_px - (height - 1) / 2) / shot.focal_px]
    )
    straight = bent.copy()
    for _ in range(20):
        straight = bent / (1.0 + shot.k1 * (straight**2).sum(axis=0))
    turn, away = _turn(shot), np.array([*shot.off_mm, 1000.0 * shot.camera_m])
    plane = np.column_stack([turn[:, 0], -turn[:, 1], away])
    back = np.linalg.inv(plane)
    rays = np.stack([straight[0], straight[1], np.ones_like(straight[0])])
    x, y, w = np.tensordot(back, rays, axes=1)
    return x / w, y / w


def pixel_of(shot: Shot, *, x_mm: float, y_mm: float) -> tuple[float, float]:
    """Where a point of the board comes to lie in the photo."""
    turn, away = _turn(shot), np.array([*shot.off_mm, 1000.0 * shot.camera_m])
    x, y, z = turn[:, 0] * x_mm - turn[:, 1] * y_mm + away
    bend = 1.0 + shot.k1 * ((x / z) ** 2 + (y / z) ** 2)
    width, height = shot.size
    return (
        (width - 1) / 2 + shot.focal_px * bend * x / z,
        (height - 1) / 2 + shot.focal_px * bend * y / z,
    )


def _maps(shot: Shot) -> tuple[NDArray[np.float32], NDArray[np.float32]]:
    """The board's millimetres under every pixel, from an exact grid eight pixels wide."""
    width, height = shot.size
    step = 8
    columns, rows = -(-width // step) + 1, -(-height // step) + 1
    grid = np.meshgrid(np.arange(columns) * step * 1.0, np.arange(rows) * step * 1.0)
    coarse = [m.astype(np.float32) for m in _board_mm(shot, *grid)]
    x, y = np.meshgrid(
        np.arange(width, dtype=np.float32) / step, np.arange(height, dtype=np.float32) / step
    )
    return tuple(cv2.remap(each, x, y, cv2.INTER_LINEAR) for each in coarse)


def render(shot: Shot) -> Image:
    """The photo, before JPEG."""
    rng = np.random.default_rng(shot.seed)
    x_mm, y_mm = _maps(shot)
    white = _sheet_in_view(shot, x_mm, y_mm, rng)
    scene = white[..., None] * np.array(shot.light, np.float32)
    for dot in shot.dots:
        far2 = (x_mm - dot.x_mm) ** 2 + (y_mm - dot.y_mm) ** 2
        spot = np.exp(-far2 / (2 * dot.sigma_mm**2)) + 0.02 * np.exp(-far2 / (32 * dot.sigma_mm**2))
        colour = np.array(LASERS[dot.colour], np.float32)
        scene += (dot.peak * spot * white)[..., None] * colour
    if shot.blur_px:
        scene = cv2.GaussianBlur(scene, (0, 0), shot.blur_px)
    return _exposed(_with_lens(shot, scene, x_mm, y_mm), shot=shot, rng=rng)


def _sheet_in_view(shot: Shot, x_mm: NDArray, y_mm: NDArray, rng: np.random.Generator) -> NDArray:
    board = board_on(shot.paper)
    sheet = printed(shot.paper)
    scale = min(SHEET_PX_PER_MM, 2.5 * shot.focal_px / (1000.0 * shot.camera_m))
    if scale < SHEET_PX_PER_MM:
        size = (
            round(sheet.shape[1] * scale / SHEET_PX_PER_MM),
            round(sheet.shape[0] * scale / SHEET_PX_PER_MM),
        )
        sheet = cv2.resize(sheet, size, interpolation=cv2.INTER_AREA)
    across, down = sheet.shape[1] / board.width_mm, sheet.shape[0] / board.height_mm
    u = (x_mm + board.width_mm / 2) * across - 0.5
    v = (board.height_mm / 2 - y_mm) * down - 0.5
    paper = 0.04 + 0.86 * cv2.remap(sheet, u, v, cv2.INTER_LINEAR).astype(np.float32) / 255.0
    for x, y, radius in shot.covered:
        paper[(x_mm - x) ** 2 + (y_mm - y) ** 2 < radius**2] = 0.35
    outside = (np.abs(x_mm) > board.width_mm / 2) | (np.abs(y_mm) > board.height_mm / 2)
    wall = cv2.resize(rng.uniform(0.15, 0.7, (12, 16)).astype(np.float32), shot.size)
    return np.where(outside, wall, paper)


def _with_lens(shot: Shot, scene: NDArray, x_mm: NDArray, y_mm: NDArray) -> NDArray:
    width, height = shot.size
    u, v = np.meshgrid(
        np.linspace(-1, 1, width, dtype=np.float32), np.linspace(-1, 1, height, dtype=np.float32)
    )
    scene *= (1.0 - shot.vignette * (u**2 + v**2) / 2)[..., None]
    if shot.glare:
        lamp = np.exp(-(((x_mm - 40) / 60) ** 2 + ((y_mm + 15) / 30) ** 2))
        scene += (shot.glare * lamp)[..., None]
    return scene


def _exposed(scene: NDArray, *, shot: Shot, rng: np.random.Generator) -> Image:
    """Counted with shot and read noise, clipped, and put on the sRGB curve (IEC 61966-2-1)."""
    sd = shot.noise * np.sqrt(0.1 + np.maximum(scene, 0.0))
    counted = np.clip(scene + sd * rng.standard_normal(scene.shape, dtype=np.float32), 0.0, 1.0)
    curve = np.where(counted <= 0.0031308, 12.92 * counted, 1.055 * counted ** (1 / 2.4) - 0.055)
    return np.round(255 * curve).astype(np.uint8)


def jpeg(shot: Shot) -> bytes:
    """The photo as a camera hands it over."""
    done, data = cv2.imencode(".jpg", render(shot), [cv2.IMWRITE_JPEG_QUALITY, shot.quality])
    assert done
    return data.tobytes()


def a_dot(rng: np.random.Generator, **given: object) -> Dot:
    """A dot anywhere on the field, of either colour, from weak to burnt to white."""
    drawn = {
        "x_mm": rng.uniform(-150, 150), "y_mm": rng.uniform(-55, 55),
        "colour": str(rng.choice(["red", "green"])), "sigma_mm": rng.uniform(0.8, 1.6),
        "peak": rng.choice([0.7, 1.5, 4.0, 10.0]),
    }  # fmt: skip
    return Dot(**(drawn | given))


def a_shot(rng: np.random.Generator, dots: Iterable[Dot], **given: object) -> Shot:
    """A hand-held photo from three metres: turned, bent, blurred, noisy, maybe with glare."""
    drawn = {
        "dots": tuple(dots), "yaw_deg": rng.uniform(-20, 20), "pitch_deg": rng.uniform(-15, 15),
        "roll_deg": rng.uniform(-6, 6), "off_mm": (rng.uniform(-60, 60), rng.uniform(-40, 40)),
        "k1": rng.uniform(-0.06, 0.06), "blur_px": rng.uniform(0.4, 1.2),
        "glare": rng.choice([0.0, 0.0, 0.2, 0.4]), "vignette": rng.uniform(0.0, 0.4),
        "noise": rng.choice([0.004, 0.008, 0.012]), "quality": int(rng.choice([78, 85, 92])),
        "light": tuple(rng.uniform(0.25, 0.55) * np.array([rng.uniform(0.75, 1), 1, 1.1])),
        "seed": int(rng.integers(1 << 30)), "size": (640, 480),
    }  # fmt: skip
    return Shot(**(drawn | given))

"""A phone beside a putt: clips whose truth is known.

A ball with a hand-drawn line, turf, a putter head and its follow-through, seen through a lens of
known perspective: light falls on the ball, is smeared while the shutter is open, blurred by the
lens, buried in noise, and packed by a video codec.
"""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass, replace
from pathlib import Path
from typing import cast

import av
import cv2
import numpy as np
from numpy.typing import NDArray
from roll_paint import paint
from roll_truth import RADIUS_M, Floats, Rough, Strike, Truth, follow

Image = NDArray[np.uint8]
Plane = NDArray[np.float32]
_TILE_M = 1.6
_TILE_PX = 2048
PHONE_BITS_PS = 40e6
"""What a phone writes in a second of 240 pictures of 1280 x 720 (common practice, no source)."""


@dataclass(frozen=True, kw_only=True)
class Ball:
    """What is drawn on the ball. Angles tilt the line from upright and square to the putt;
    ``lean_deg`` is how far its top leans toward the hole at rest, like a clock's hand.
    """

    line: bool = True
    width_mm: float = 2.0
    off_mm: float = 0.0
    tilt_deg: float = 0.0
    turn_deg: float = 0.0
    lean_deg: float = 0.0
    reach_deg: float = 180.0
    wobble_mm: float = 0.4
    ink: float = 0.15
    dimples: float = 0.04


@dataclass(frozen=True, kw_only=True)
class Shot:
    """Camera, light and file. ``before_s`` is how long the ball rests before the strike."""

    size: tuple[int, int] = (1280, 720)
    fps: float = 240.0
    said_fps: float | None = None
    exposure_s: float = 1e-3
    seconds: float = 1.0
    before_s: float = 0.15
    lens_mm: float = 26.0
    width_m: float = 1.2
    start_m: float = 0.1
    height_m: float = 0.2
    yaw_deg: float = 0.0
    roll_deg: float = 0.0
    high_px: float = 60.0
    mirrored: bool = False
    sideways: bool = False
    blur_px: float = 0.7
    noise: float = 3.0
    light: float = 1.0
    sun: tuple[float, float, float] = (-0.4, -0.5, 0.8)
    grass_mm: float = 0.0
    head: bool = True
    packing: str = "mpeg4"
    seed: int = 0


@dataclass(frozen=True, kw_only=True)
class View:
    """The pinhole: world axes are along the putt, away from the camera, up."""

    focal: float
    middle: tuple[float, float]
    place: Floats
    turn: Floats

    def camera(self, points: Floats) -> Floats:
        """Into the camera's axes: right, down, forward."""
        return np.asarray((points - self.place) @ self.turn.T)

    def pixels(self, points: Floats) -> Floats:
        """Into pixels."""
        x, y, z = np.moveaxis(self.camera(points), -1, 0)
        return np.stack(
            [self.middle[0] + self.focal * x / z, self.middle[1] + self.focal * y / z], -1
        )

    def cut(self, *, left: int, top: int) -> View:
        """The same camera, pixels counted from another corner."""
        return replace(self, middle=(self.middle[0] - left, self.middle[1] - top))

    def rays(self, x_px: Floats, y_px: Floats) -> Floats:
        """Unit directions in the world, through pixels."""
        x = (x_px - self.middle[0]) / self.focal
        y = (y_px - self.middle[1]) / self.focal
        way = np.stack([x, y, np.ones_like(x)], -1) @ self.turn
        return np.asarray(way / np.linalg.norm(way, axis=-1, keepdims=True))


def view_of(shot: Shot) -> View:
    """Where the camera stands so that it sees ``width_m`` of the ball's way."""
    wide, high = shot.size
    focal = shot.lens_mm / 36.0 * max(wide, high)
    away = shot.width_m * focal / wide
    yaw, roll = math.radians(shot.yaw_deg), math.radians(shot.roll_deg)
    middle_m = 0.5 * shot.width_m - shot.start_m
    place = np.array([
        middle_m - away * math.sin(yaw), -away * math.cos(yaw), shot.height_m,
    ])  # fmt: skip
    # Look so that the ball's way lies `high_px` below the middle.
    down = math.atan2(shot.height_m - RADIUS_M, away) - math.atan2(shot.high_px, focal)
    forward = np.array([
        math.sin(yaw) * math.cos(down), math.cos(yaw) * math.cos(down), -math.sin(down),
    ])  # fmt: skip
    right = np.cross(forward, [0.0, 0.0, 1.0])
    right /= np.linalg.norm(right)
    below = np.cross(forward, right)
    c, s = math.cos(roll), math.sin(roll)
    turn = np.stack([c * right + s * below, c * below - s * right, forward])
    return View(focal=focal, middle=((wide - 1) / 2, (high - 1) / 2), place=place, turn=turn)


@functools.cache
def _turf(seed: int) -> Plane:
    """A tile of grass seen from near, that repeats."""
    rng = np.random.default_rng([7, seed])
    grown = np.zeros((_TILE_PX, _TILE_PX), np.float32)
    for coarse, share in ((1, 9.0), (2, 7.0), (8, 5.0), (64, 5.0)):
        side = _TILE_PX // coarse
        grain = cv2.GaussianBlur(rng.normal(size=(side, side)).astype(np.float32), (0, 0), 1.2)
        layer = cv2.resize(grain, grown.shape, interpolation=cv2.INTER_LINEAR)
        grown += share * layer / layer.std()
    return np.clip(88.0 + grown, 25, 170)


def _ground(shot: Shot, view: View) -> Plane:
    """The still picture: grass to where it ends, dusk beyond."""
    wide, high = shot.size
    x, y = np.meshgrid(np.arange(wide, dtype=np.float64), np.arange(high, dtype=np.float64))
    way = view.rays(x, y)
    far = np.where(way[..., 2] < -1e-3, -view.place[2] / np.minimum(way[..., 2], -1e-3), 1e3)
    at = view.place + far[..., None] * way
    scale = _TILE_PX / _TILE_M
    tile = _turf(shot.seed % 3)
    seen = cv2.remap(
        tile, (np.mod(at[..., 0] * scale, _TILE_PX)).astype(np.float32),
        (np.mod(at[..., 1] * scale, _TILE_PX)).astype(np.float32),
        cv2.INTER_LINEAR, borderMode=cv2.BORDER_WRAP,
    )  # fmt: skip
    fog = np.clip((far - 1.5) / 4.0, 0.0, 1.0)
    return np.asarray(seen * (1 - fog) + 70.0 * fog, np.float32)


def _drawn(ball: Ball) -> Floats:
    """What :func:`roll_paint.paint` is told of the ball."""
    tilt, turn = math.radians(ball.tilt_deg), math.radians(ball.turn_deg)
    normal = (math.cos(tilt) * math.cos(turn), math.sin(turn) * math.cos(tilt), math.sin(tilt))
    return np.array([
        float(ball.line), 0.5 * ball.width_mm, ball.off_mm, ball.wobble_mm, *normal,
        math.radians(ball.reach_deg), ball.ink, ball.dimples, 1e3 * RADIUS_M,
    ])  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Clip:
    """One putt as filmed."""

    truth: Truth
    shot: Shot
    ball: Ball = Ball()

    def place(self, time_s: Floats) -> tuple[Floats, Floats, Floats]:
        """Along, up (of the middle) and turn at times from the strike."""
        t = self.truth
        along = np.interp(time_s, t.time_s, t.along_m, left=0.0)
        up = np.interp(time_s, t.time_s, t.up_m, left=t.rest_up_m)
        return along, up + RADIUS_M, np.interp(time_s, t.time_s, t.turn_rad, left=0.0)


def _paint_ball(frame: Plane, clip: Clip, view: View, *, time_s: float) -> None:
    """Sixteen rays a pixel, each at its own moment of the exposure."""
    shot = clip.shot
    middle = [float(part) for part in clip.place(np.array(time_s))]
    centre = view.pixels(np.array([middle[0], 0.0, middle[1]]))
    reach = (
        1.35 * view.focal * RADIUS_M / float(view.camera(np.array([middle[0], 0, middle[1]]))[2])
    )
    reach += 0.6 * shot.exposure_s * clip.truth.strike.ball_speed_mps / shot.width_m * shot.size[0]
    left, right = max(0, int(centre[0] - reach)), min(frame.shape[1], int(centre[0] + reach) + 2)
    top, foot = max(0, int(centre[1] - reach)), min(frame.shape[0], int(centre[1] + reach) + 2)
    if right - left < 2 or foot - top < 2:
        return
    moments = time_s + shot.exposure_s * ((np.arange(16) + 0.5) / 16 - 0.5)
    along, up, turn = clip.place(moments)
    lens = np.array([view.focal, view.middle[0] - left, view.middle[1] - top, shot.light])
    paint(
        frame[top:foot, left:right], lens, np.vstack([view.turn, view.place]),
        np.stack([along, up, turn + math.radians(clip.ball.lean_deg)]), _drawn(clip.ball),
        np.array(shot.sun) / np.linalg.norm(shot.sun), shot.grass_mm / 1e3,
    )  # fmt: skip


def _paint_shadow(frame: Plane, clip: Clip, view: View, *, time_s: float) -> None:
    along = float(clip.place(np.array(time_s))[0])
    foot = np.array([along + 0.004, 0.006, 0.0])
    x, y = view.pixels(foot)
    wide = view.focal * RADIUS_M / float(view.camera(foot)[2])
    low, high = (
        np.array([x - 2.5 * wide, y - 1.5 * wide]),
        np.array([x + 2.5 * wide, y + 1.5 * wide]),
    )
    left, top = np.maximum(low, 0).astype(int)
    right, base = np.minimum(high, frame.shape[::-1]).astype(int)
    if right <= left or base <= top:
        return
    px, py = np.meshgrid(np.arange(left, right), np.arange(top, base))
    far = ((px - x) / (1.1 * wide)) ** 2 + ((py - y) / (0.45 * wide)) ** 2
    frame[top:base, left:right] *= (1.0 - 0.45 * np.exp(-(far**1.5))).astype(np.float32)


def _paint_head(frame: Plane, clip: Clip, view: View, *, time_s: float) -> None:
    """The putter's head: a dark bar behind the ball that slows in its follow-through."""
    speed = clip.truth.strike.ball_speed_mps / 1.6
    swing = 0.45
    face = -RADIUS_M + (speed * swing * math.tanh(time_s / swing) if time_s > 0 else speed * time_s)
    up = 0.004 + 0.15 * max(face, 0.0) ** 2 + 0.3 * min(face, 0.0) ** 2
    corners = np.array([
        [face - 0.022 * a, -0.055 + 0.11 * b, up + 0.026 * c]
        for a in (0, 1) for b in (0, 1) for c in (0, 1)
    ])  # fmt: skip
    hull = cv2.convexHull(view.pixels(corners).astype(np.float32))
    cv2.fillConvexPoly(frame, np.round(hull * 16).astype(np.int32), 52.0, cv2.LINE_AA, 4)


def _near(clip: Clip, view: View, *, time_s: float) -> tuple[slice, slice]:
    """The part of the picture in which ball, shadow and head are."""
    along = float(clip.place(np.array(time_s))[0])
    x, y = view.pixels(np.array([along, 0.0, RADIUS_M]))
    reach = 7.0 * view.focal * RADIUS_M / float(view.camera(np.array([along, 0, RADIUS_M]))[2])
    left, right = np.clip([x - 2.5 * reach, x + 0.6 * reach], 0, clip.shot.size[0]).astype(int)
    top, foot = np.clip([y - 0.6 * reach, y + 0.6 * reach], 0, clip.shot.size[1]).astype(int)
    return slice(int(top), int(max(foot, top + 1))), slice(int(min(left, right - 1)), int(right))


def frames(clip: Clip) -> list[Image]:
    """The pictures, grey, as the codec gets them."""
    shot, view = clip.shot, view_of(clip.shot)
    rng = np.random.default_rng([5, shot.seed])
    still = _ground(shot, view)
    flat = cv2.GaussianBlur(still, (0, 0), shot.blur_px)
    spare = (still.shape[0] + 97, still.shape[1] + 97)
    layers = (_paint_shadow, *([_paint_head] if shot.head else []), _paint_ball)
    noise = [np.round(rng.normal(0.0, shot.noise, spare)).astype(np.int16) for _ in range(5)]
    made = []
    for number in range(round(shot.seconds * shot.fps)):
        # The strike falls between two pictures, differently in each clip.
        time_s = (number + (0.37 * shot.seed) % 1.0) / shot.fps - shot.before_s
        frame = flat.copy()
        rows, columns = _near(clip, view, time_s=time_s)
        patch = still[rows, columns].copy()
        moved = view.cut(left=columns.start, top=rows.start)
        for layer in layers:
            layer(patch, clip, moved, time_s=time_s)
        frame[rows, columns] = cv2.GaussianBlur(patch, (0, 0), shot.blur_px)
        down, across = (int(part) for part in rng.integers(0, 97, 2))
        grain = noise[number % 5][down : down + len(frame), across : across + frame.shape[1]]
        grey = cv2.add(np.round(frame).astype(np.uint8), grain, dtype=cv2.CV_8U)
        made.append(_turned(grey, shot))
    return made


def _turned(frame: Image, shot: Shot) -> Image:
    if shot.mirrored:
        frame = np.ascontiguousarray(frame[:, ::-1])
    return np.ascontiguousarray(np.rot90(frame)) if shot.sideways else frame


def write_as_phones_do(
    path: Path, pictures: list[Image], *, fps: float, codec: str = "libx264",
    format_: str = "yuv420p", bits: float = PHONE_BITS_PS / 240.0,
) -> None:  # fmt: skip
    """Pack pictures at once as they come, so many bits a picture, as a phone's own chip does."""
    high, wide = pictures[0].shape[:2]
    with av.open(str(path), "w") as file:
        stream = cast("av.VideoStream", file.add_stream(codec, rate=round(fps)))
        stream.width, stream.height, stream.pix_fmt = wide, high, format_
        stream.bit_rate = round(bits * fps)
        stream.options = {"preset": "veryfast", "tune": "zerolatency", "threads": "1"}
        for grey in pictures:
            file.mux(stream.encode(av.VideoFrame.from_ndarray(grey, format="gray")))
        file.mux(stream.encode())


def write_clip(path: Path, pictures: list[Image], *, fps: float) -> None:
    """Pack pictures; a file that says fewer pictures a second is packed harder."""
    packed = "MJPG" if path.suffix == ".avi" else "mp4v"
    high, wide = pictures[0].shape[:2]
    writer = cv2.VideoWriter(str(path), cv2.VideoWriter.fourcc(*packed), fps, (wide, high))
    if not writer.isOpened():
        raise OSError(f"no codec to write {path}")
    for grey in pictures:
        # Grass is green, the ball is white: colour is thrown away again by what reads it.
        writer.write(cv2.cvtColor(grey, cv2.COLOR_GRAY2BGR))
    writer.release()


def film(path: Path, clip: Clip) -> None:
    """Render a clip into a file."""
    write = write_as_phones_do if clip.shot.packing == "h264" else write_clip
    write(path, frames(clip), fps=clip.shot.said_fps or clip.shot.fps)


def a_clip(number: int, *, rough: bool = False, shot: Shot | None = None, ball: Ball | None = None,
           seconds: float = 1.0) -> Clip:  # fmt: skip
    """One of a study's putts, of any phone beside any green; the number is its seed."""
    rng = np.random.default_rng([3, number, int(rough)])
    speed = rng.uniform(1.4, 2.7)
    strike = Strike(
        ball_speed_mps=speed, launch_deg=rng.uniform(0.5, 4.5),
        spin_radps=rng.uniform(-0.12, 0.25) * speed / RADIUS_M,
        friction=rng.uniform(0.32, 0.5), deceleration_mps2=rng.uniform(0.42, 0.75),
    )  # fmt: skip
    how = Rough(hollow_m=rng.uniform(2e-4, 9e-4), radius_share=rng.uniform(0.99, 1.01), seed=number)
    base = shot or Shot()
    shot = replace(
        base, seed=number, seconds=seconds, before_s=rng.uniform(0.08, 0.2),
        lens_mm=rng.uniform(24, 29), width_m=rng.uniform(1.0, 1.35),
        start_m=rng.uniform(0.07, 0.12), height_m=rng.uniform(0.08, 0.35),
        yaw_deg=rng.uniform(-5, 5), roll_deg=rng.uniform(-2, 2), high_px=rng.uniform(20, 110),
        mirrored=bool(rng.integers(2)), blur_px=rng.uniform(0.6, 1.0), noise=rng.uniform(2, 5),
        said_fps=base.said_fps or (None if number % 3 else base.fps / 8),
        sun=(rng.uniform(-0.8, 0.8), rng.uniform(-0.8, 0.2), 0.8),
    )  # fmt: skip
    ball = ball or Ball(
        width_mm=rng.uniform(1.3, 2.6), off_mm=rng.uniform(-1.5, 1.5),
        tilt_deg=rng.uniform(-8, 8), turn_deg=rng.uniform(-12, 12),
        reach_deg=float(rng.choice([70.0, 100.0, 180.0])), ink=rng.uniform(0.1, 0.3),
    )  # fmt: skip
    return Clip(truth=follow(strike, rough=how if rough else None), shot=shot, ball=ball)

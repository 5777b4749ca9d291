"""How far the ball has turned in each picture, from the line drawn on it.

What is seen of the ball is laid out round the axis it turns about, like a clock face. The line's
darkness at rest is the hand; how far the hand has gone in a picture is where the two match best.
The whole turning is chosen at once, among all that a ball can do which slides and then rolls, so
that a line with two equal ends, or a fast ball, is not misread.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.readers.files import Unreadable
from puttwright.readers.roll.clip import Clip
from puttwright.readers.roll.local import local_parabola
from puttwright.readers.roll.look_kernel import on_ball
from puttwright.readers.roll.way import Way, upright
from puttwright.units import BALL_RADIUS_M

Floats = NDArray[np.float64]
Waves = NDArray[np.complex128]

_ANGLES: Final = 120
_RINGS: Final = np.radians(np.linspace(14.0, 66.0, 11))
_LEAST_DARK: Final = 0.22
"""A line's darkness beside the white, on the clock face; dimples and dirt stay below."""
_LEAST_MATCH: Final = 0.45
_FACING: Final = 0.28
_SHADE: Final = 0.75
_NEAR_RAD: Final = 0.42
_SHARE_STEP: Final = 0.05
_SHARES: Final = np.arange(-0.40, 1.16, _SHARE_STEP)
_GROWS_PS: Final = 30.0
"""The share of true roll grows by no more than this a second: a slow ball on grippy turf."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Turning:
    """Angle turned since rest in each picture, its spread, and how well line and hand match."""

    angle_rad: Floats
    sd_rad: Floats
    match: Floats
    axis: Axis


@dataclass(frozen=True, slots=True, kw_only=True)
class Rolling:
    """What the places already say: speed in each picture and which pictures are at rest."""

    time_s: Floats
    along_m: Floats
    up_m: Floats
    speed_mps: Floats
    strike_s: float


def read_turning(clip: Clip, *, number: NDArray[np.intp], way: Way, rolling: Rolling) -> Turning:
    """Read the turning off the pictures.

    Raises
    ------
    Unreadable
        There is no line on the ball, or it is lost.
    """
    face = _Face(clip=clip, number=number, way=way, rolling=rolling)
    axis = Axis()
    dark = face.darkness(axis)
    angle, _ = _best_path(_matches(dark, _hand(dark, rolling)), rolling)
    angle, _ = _near_path(dark, angle, rolling)
    some = face.some()
    axis = _best_axis(some, axis, angle=angle[some.of])
    return _refined(face.darkness(axis), angle, rolling, axis=axis)


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """The axis of turning: how far the camera looks down on it, and how far it is turned aside."""

    pitch_rad: float = 0.12
    yaw_rad: float = 0.0

    def frame(self, way: Way) -> tuple[Floats, Floats, Floats]:
        """Travel, up, and the axis toward the camera, square to each other."""
        up = upright(way, pitch_rad=self.pitch_rad)
        axis = np.cross(way.along, up)
        axis = axis if axis[2] < 0 else -axis
        c, s = math.cos(self.yaw_rad), math.sin(self.yaw_rad)
        return c * way.along - s * axis, up, np.asarray(c * axis + s * way.along)


def _best_axis(some: _Face, axis: Axis, *, angle: Floats) -> Axis:
    """The axis about which the line keeps its shape best, from a part of the pictures."""

    def kept(trial: Axis) -> float:
        dark = some.darkness(trial)
        hand = _drawn(dark, angle, weight=np.ones(len(angle)))
        found, match = _peaks(dark, hand, angle, near_rad=0.25)
        hand = _drawn(dark, found, weight=np.clip(match, 0.05, None))
        return float(_peaks(dark, hand, found, near_rad=0.15)[1].mean())

    here = kept(axis)
    for step in (0.12, 0.06, 0.03):
        for name in ("pitch_rad", "yaw_rad"):
            value = getattr(axis, name)
            low = kept(replace(axis, **{name: value - step}))
            high = kept(replace(axis, **{name: value + step}))
            bend = low - 2.0 * here + high
            move = 0.5 * (low - high) / bend if bend < 0 else float(np.sign(high - low))
            moved = replace(axis, **{name: value + step * min(max(move, -1.5), 1.5)})
            there = kept(moved)
            if there > here:
                axis, here = moved, there
    return axis


@dataclass(frozen=True, kw_only=True)
class _Seen:
    """How dark each place of the clock face is, 0 where it is hidden, and 1 where it is seen."""

    dark: Floats
    seen: Floats

    @cached_property
    def spectra(self) -> tuple[Waves, Waves]:
        """Both over the angle, ring by ring, as their waves."""
        return np.fft.rfft(self.dark, axis=-1), np.fft.rfft(self.seen, axis=-1)

    @cached_property
    def level(self) -> tuple[Floats, Floats]:
        """See :func:`_level`; and the sum of its squares, picture by picture."""
        level = _level(self.dark)
        return level, np.asarray(np.einsum("nra,nra->n", level, level))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Face:
    """The ball's side in some pictures; ``of`` says which of all pictures they are."""

    clip: Clip
    number: NDArray[np.intp]
    way: Way
    rolling: Rolling
    of: NDArray[np.intp] = field(default_factory=lambda: np.empty(0, np.intp))

    def some(self) -> _Face:
        """Every fourth picture that moves, and the last at rest."""
        rest = np.flatnonzero(self.rolling.time_s <= self.rolling.strike_s)[-6:]
        moving = np.flatnonzero(self.rolling.time_s > self.rolling.strike_s)[::4]
        of = np.concatenate([rest, moving])
        part = Rolling(
            time_s=self.rolling.time_s[of], along_m=self.rolling.along_m[of],
            up_m=self.rolling.up_m[of], speed_mps=self.rolling.speed_mps[of],
            strike_s=self.rolling.strike_s,
        )  # fmt: skip
        return replace(self, number=self.number[of], rolling=part, of=of)

    def darkness(self, axis: Axis) -> _Seen:
        """See :func:`_darkness`."""
        return _darkness(self.clip, self.number, self.way, self.rolling, axis=axis)


def _darkness(
    clip: Clip, number: NDArray[np.intp], way: Way, rolling: Rolling, *, axis: Axis
) -> _Seen:
    """How much darker than its white the ball is, (pictures, rings, angles)."""
    forward, up, pole = axis.frame(way)
    turn = np.arange(_ANGLES) * (2.0 * np.pi / _ANGLES)
    # The angle is counted the way a rolling ball turns: from up toward travel.
    rim = np.cos(turn)[:, None] * up + np.sin(turn)[:, None] * forward
    normal = np.cos(_RINGS)[:, None, None] * pole + np.sin(_RINGS)[:, None, None] * rim
    middle = way.start + rolling.along_m[:, None] * way.along + rolling.up_m[:, None] * up
    light = np.empty((len(number), len(_RINGS), _ANGLES), np.float32)
    seen = np.empty(light.shape, bool)
    lens = np.array([way.lens.focal_px, *way.lens.middle_px])
    for row, which in enumerate(number):
        on_ball(
            clip.pictures[which], middle[row], normal, lens, BALL_RADIUS_M, _FACING,
            light[row], seen[row],
        )  # fmt: skip
    moving = rolling.time_s > rolling.strike_s
    rank = np.sort(np.where(seen[moving], light[moving], -1.0), axis=0)
    count = seen[moving].sum(axis=0)
    place = np.clip(len(rank) - 1 - ((1.0 - _SHADE) * count).astype(int), 0, len(rank) - 1)
    white = np.take_along_axis(rank, place[None], axis=0)[0]
    dark = np.clip(1.0 - light / np.maximum(white, 8.0), -0.1, 1.0)
    seen &= count > 8
    return _Seen(dark=np.where(seen, dark, 0.0), seen=seen.astype(np.float64))


def _hand(face: _Seen, rolling: Rolling) -> Floats:
    """The line at rest, from the last pictures before the strike."""
    rest = np.flatnonzero(rolling.time_s < rolling.strike_s)[-24:]
    return np.asarray(face.dark[rest].mean(axis=0))


def _level(dark: Floats) -> Floats:
    """Each ring less its mean, weighted by how much of the ball it is."""
    flat = dark - dark.mean(axis=-1, keepdims=True)
    return np.asarray(flat * np.sqrt(np.sin(_RINGS))[:, None])


def _matches(face: _Seen, hand: Floats) -> Floats:
    """Correlation of each picture with the hand turned on by each angle, (pictures, angles)."""
    (ours, squares), theirs = face.level, _level(hand)
    spectrum = np.fft.rfft(ours, axis=-1) * np.conj(np.fft.rfft(theirs, axis=-1))
    table = np.fft.irfft(spectrum.sum(axis=-2), n=_ANGLES, axis=-1)
    norm = np.sqrt(squares * (theirs**2).sum())
    return np.asarray(table / np.maximum(norm, 1e-9)[:, None])


def _match_at(face: _Seen, hand: Floats, cell: NDArray[np.intp]) -> Floats:
    """:func:`_matches` at one angle each, (pictures,)."""
    (ours, squares), theirs = face.level, _level(hand)
    back = (np.arange(_ANGLES) - cell[:, None]) % _ANGLES
    turned = np.moveaxis(theirs[:, back], 1, 0)
    norm = np.sqrt(squares * (theirs**2).sum())
    return np.asarray(np.einsum("nra,nra->n", ours, turned) / np.maximum(norm, 1e-9))


def _fits(face: _Seen, hand: Floats) -> Floats:
    """Squares left over where each picture shows the hand turned on by each angle, sign changed.

    Only what is seen of the ball counts: looked at from before or behind, a part of the
    clock face is hidden, and a correlation would lean to what is not.
    """
    much = np.sin(_RINGS)[:, None]
    theirs = [np.conj(np.fft.rfft(each * much, axis=-1)) for each in (2.0 * hand, -hand * hand)]
    both = sum(np.einsum("nrk,rk->nk", a, b) for a, b in zip(face.spectra, theirs, strict=True))
    return np.asarray(np.fft.irfft(both, n=_ANGLES, axis=-1))


def _soft(table: Floats, *, width_rad: float) -> Floats:
    """The matches smeared over angle, so that a coarse search does not step over them."""
    order = np.arange(_ANGLES // 2 + 1)
    damp = np.exp(-0.5 * (order * width_rad) ** 2)
    return np.asarray(np.fft.irfft(np.fft.rfft(table, axis=-1) * damp, n=_ANGLES, axis=-1))


def _best_path(table: Floats, rolling: Rolling) -> tuple[Floats, float]:
    """The turning along which the matches sum highest, and their mean (Viterbi 1967).

    A state is an angle and how much of true roll the ball has. That share grows while the ball
    slides, no faster than turf can make it grow, and hardly ever falls. At rest it is free.
    """
    fine = _finer(_soft(table, width_rad=0.06))
    cells = fine.shape[1]
    since = rolling.time_s - rolling.strike_s
    step = np.diff(since, prepend=since[0])
    passed = np.where(since > 0, np.minimum(step, since), 0.0)
    rolled = cells / (2.0 * np.pi) * rolling.speed_mps / BALL_RADIUS_M * passed
    most = np.maximum(np.ceil(step * _GROWS_PS / _SHARE_STEP), 1).astype(int)
    total = np.full((len(_SHARES), cells), -np.inf)
    total[:, 0] = fine[0, 0]
    from_share = np.zeros((len(since), *total.shape), np.int16)
    ahead = np.round(_SHARES[None, :] * rolled[:, None]).astype(np.intp)
    place = np.arange(cells)
    for row in range(1, len(since)):
        total, from_share[row] = _grown(total, most=int(most[row]))
        back = (place[None, :] - ahead[row][:, None]) % cells
        total = np.take_along_axis(total, back, axis=1) + fine[row]
        from_share[row] = np.take_along_axis(from_share[row], back, axis=1)
    share, cell = (int(part) for part in np.unravel_index(int(np.argmax(total)), total.shape))
    turned = np.zeros(len(since))
    for row in range(len(since) - 1, 0, -1):
        moved = int(ahead[row, share])
        turned[row] = moved
        share, cell = int(from_share[row, share, cell]), (cell - moved) % cells
    return np.cumsum(turned) * (2.0 * np.pi / cells), float(total.max() / len(since))


def _grown(total: Floats, *, most: int) -> tuple[Floats, NDArray[np.int16]]:
    """The best way to each share from one a little higher, the same, or up to ``most`` lower."""
    count = len(total)
    best = np.full_like(total, -np.inf)
    origin = np.zeros(total.shape, np.int16)
    for change in range(-1, most + 1):
        here = slice(max(0, change), min(count, count + change))
        there = slice(here.start - change, here.stop - change)
        better = total[there] > best[here]
        np.copyto(best[here], total[there], where=better)
        share = np.arange(there.start, there.stop, dtype=np.int16)
        np.copyto(origin[here], share[:, None], where=better)
    return best, origin


def _finer(table: Floats) -> Floats:
    """The matches at twice as many angles."""
    spectrum = np.fft.rfft(table, axis=-1)
    return np.asarray(2.0 * np.fft.irfft(spectrum, n=2 * table.shape[-1], axis=-1))


def _near_path(dark: _Seen, angle: Floats, rolling: Rolling) -> tuple[Floats, Floats]:
    """The path moved to where the pictures match best, smooth; the hand drawn from all of them."""
    hand = _hand(dark, rolling)
    angle = _smooth(rolling.time_s, angle, strike_s=rolling.strike_s)
    for near in (_NEAR_RAD, 0.7 * _NEAR_RAD):
        found, match = _peaks(dark, hand, angle, near_rad=near)
        held = match > 0.5 * float(np.median(match))
        angle = _smooth(rolling.time_s, np.where(held, found, angle), strike_s=rolling.strike_s)
        hand = _drawn(dark, angle, weight=np.clip(match, 0.05, None))
    return angle, hand


def _refined(dark: _Seen, angle: Floats, rolling: Rolling, *, axis: Axis) -> Turning:
    """Each picture's own best angle near the path, the hand drawn from all of them."""
    angle, hand = _near_path(dark, angle, rolling)
    peak, match = _peaks(dark, hand, angle, near_rad=0.7 * _NEAR_RAD)
    angle = _smooth(rolling.time_s, peak, strike_s=rolling.strike_s)
    darkest = float(np.quantile(hand, 0.985))
    after = rolling.time_s > rolling.strike_s
    usual = float(np.median(match[after]))
    if darkest < _LEAST_DARK:
        raise Unreadable(
            "shows no line on the ball to read its spin from; draw one across the ball, square to "
            "the putt, with a thick black pen, and turn it to the camera"
        )
    if usual < _LEAST_MATCH:
        raise Unreadable(
            "blurs the line on the ball, so its spin cannot be read; more light, or a shorter "
            "exposure, and the line square to the putt"
        )
    rough = peak - angle
    local = _running(np.abs(rough))
    weak = np.maximum(0.6 / np.maximum(match / usual, 0.15), 1.0)
    sd = np.maximum(1.4826 * local, math.radians(0.15)) * weak
    return Turning(angle_rad=peak, sd_rad=sd, match=match, axis=axis)


def _peaks(face: _Seen, hand: Floats, angle: Floats, *, near_rad: float) -> tuple[Floats, Floats]:
    """Where within reach of each angle the hand fits best, to a part of a cell; the match there."""
    table, cells = _fits(face, hand), _ANGLES / (2.0 * np.pi)
    reach = int(near_rad * cells)
    centre = np.round(angle * cells).astype(np.intp)
    around = centre[:, None] + np.arange(-reach - 1, reach + 2)[None, :]
    values = np.take_along_axis(table, around % _ANGLES, axis=1)
    top = 1 + np.argmax(values[:, 1:-1], axis=1)
    rows = np.arange(len(angle))
    low, high, beyond = values[rows, top - 1], values[rows, top], values[rows, top + 1]
    bend = low - 2.0 * high + beyond
    off = np.where(bend < 0, 0.5 * (low - beyond) / np.where(bend < 0, bend, -1.0), 0.0)
    at = around[rows, top]
    return (at + np.clip(off, -1, 1)) / cells, _match_at(face, hand, at)


def _smooth(time_s: Floats, angle: Floats, *, strike_s: float) -> Floats:
    """The path through the pictures after the strike; rest stays at rest."""
    moving = time_s > strike_s
    smooth = np.full_like(angle, float(np.median(angle[~moving])) if (~moving).any() else 0.0)
    smooth[moving] = local_parabola(time_s[moving], angle[moving], floor=0.004)[0]
    return smooth


def _running(values: Floats) -> Floats:
    """Median over 21 pictures."""
    padded = np.pad(values, 10, mode="reflect" if len(values) > 10 else "edge")
    return np.median(np.lib.stride_tricks.sliding_window_view(padded, 21), axis=-1)


def _drawn(face: _Seen, angle: Floats, *, weight: Floats) -> Floats:
    """The line from all pictures, each turned back; each place from those that show it."""
    order = np.arange(_ANGLES // 2 + 1)
    back = np.exp(1j * order[None, :] * angle[:, None]) * weight[:, None]
    dark, seen = (
        np.fft.irfft(np.einsum("nrk,nk->rk", each, back), n=_ANGLES) for each in face.spectra
    )
    return np.asarray(dark / np.maximum(seen, 0.05 * weight.sum()))

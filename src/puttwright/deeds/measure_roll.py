"""Read speed, launch, spin, skid and roll off a phone's video of one putt."""

from __future__ import annotations

import hashlib
import math
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from puttwright.errors import CannotRead
from puttwright.readers.files import Unreadable

if TYPE_CHECKING:
    from puttwright.ball.roll_fit import RollFit
    from puttwright.readers.roll.read import Track

STEPS: Final = 7
"""How often ``tell`` is called beside once a picture: four steps of reading, three fits."""
_RPM: Final = 60.0 / (2.0 * math.pi)
_LATE_OFF: Final = 0.04
_AFTER_S: Final = 0.04
_WIDEST: Final = {
    "ball_speed_mps": 0.15, "launch_deg": 4.0, "spin_rpm": 120.0, "skid_m": 0.15, "skid_s": 0.12,
    "roll_share_pct": 10.0,
}  # fmt: skip
"""Half of an interval beyond which a figure is not given, for it would tell nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RollAsk:
    """What the person says besides: pictures a second taken, green speed, how far it went."""

    fps: float | None = None
    green_ft: float | None = None
    went_m: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A figure with its central 90 % interval; no value where the clip cannot carry it."""

    value: float | None
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RollReading:
    """What one clip gave.

    ``sha256`` is the file's, so that one clip is not two putts. ``meets_m`` is where ball speed
    and turning meet without any law of friction, ``fits`` whether the turf behaved as the
    physics says, ``notes`` what is to be said besides. The rest is for the drawing: places and
    speeds picture by picture, and the fitted curves.
    """

    video: str
    sha256: str
    fps: float
    pictures: int
    ball_px: float
    ball_speed_mps: Figure
    launch_deg: Figure
    spin_rpm: Figure
    skid_m: Figure
    skid_s: Figure
    roll_share_pct: Figure
    total_m: Figure
    meets_m: float | None
    fits: bool
    notes: tuple[str, ...]
    seen_m: tuple[float, ...]
    seen_speed_mps: tuple[float, ...]
    seen_surface_mps: tuple[float, ...]
    fitted_m: tuple[float, ...]
    fitted_speed_mps: tuple[float, ...]
    fitted_surface_mps: tuple[float, ...]


def measure_roll(
    video: Path, ask: RollAsk, *, tell: Callable[[int], object] = lambda _more: None
) -> RollReading:
    """Read a putt off a clip.

    Parameters
    ----------
    video
        The file.
    ask
        What is known besides.
    tell
        Called with 1 after each picture read and each step.

    Returns
    -------
    RollReading
        The figures with their intervals.

    Raises
    ------
    CannotRead
        The clip cannot carry the figures; the sentence says why and what to do.
    """
    from puttwright.ball.green import deceleration_mps2  # noqa: PLC0415 - starts numpy
    from puttwright.ball.roll_fit import fit_roll  # noqa: PLC0415 - as above
    from puttwright.readers.roll.clip import read_clip  # noqa: PLC0415 - as above
    from puttwright.readers.roll.read import read_track  # noqa: PLC0415 - as above

    brake = None
    if ask.green_ft is not None:
        brake = float(deceleration_mps2(speed_ft=ask.green_ft))
    try:
        track = read_track(read_clip(video, fps=ask.fps, tell=tell), tell=tell)
        fit = fit_roll(track.filmed, deceleration_mps2=brake, tell=tell)
        _refuse_short(track, fit)
        _refuse_lost(track, fit)
    except Unreadable as trouble:
        raise CannotRead(path=video, reason=str(trouble)) from trouble
    with video.open("rb") as stream:
        sha256 = hashlib.file_digest(stream, "sha256").hexdigest()
    return _reading(video, track, fit, ask, sha256=sha256)


def pictures_in(video: Path) -> int:
    """How many pictures the file says it holds, for the progress shown; 0 when it cannot say."""
    from puttwright.readers.roll.clip import count_of  # noqa: PLC0415 - starts numpy

    return count_of(video)


def _moving(track: Track) -> Any:
    return track.filmed.time_s > track.filmed.strike_s


def _refuse_lost(track: Track, fit: RollFit) -> None:
    """At the end the ball rolls, and speed and turning are one, whatever the film's scale."""
    from puttwright.ball.roll_meets import late_ratio  # noqa: PLC0415 - starts numpy

    now = _moving(track)
    _, speed = fit.undone(along_m=track.filmed.along_m[now], speed_mps=track.speed_mps[now])
    ratio = late_ratio(speed_mps=speed, surface_mps=track.surface_mps[now])
    if abs(ratio - 1.0) > _LATE_OFF:
        off = 100.0 * abs(ratio - 1.0)
        raise Unreadable(
            f"does not show the ball in true roll: at the end it still turns {off:.0f} % "
            f"{'slower' if ratio < 1.0 else 'faster'} than it rolls; show more of its way, or "
            "draw a clearer line"
        )


def _refuse_short(track: Track, fit: RollFit) -> None:
    import numpy as np  # noqa: PLC0415 - starts slowly

    left_s = float(track.filmed.time_s[-1]) - fit.strike_s - float(np.median(fit.skid_s))
    if left_s < _AFTER_S:
        raise Unreadable(
            "ends while the ball still slides; show more of its way, about a metre and a half "
            "for a long putt"
        )


def _figure(draws: Any, *, name: str = "") -> Figure:
    import numpy as np  # noqa: PLC0415 - as above

    low, middle, high = (float(part) for part in np.quantile(draws, [0.05, 0.5, 0.95]))
    carried = high - low <= 2.0 * _WIDEST.get(name, math.inf)
    return Figure(value=middle if carried else None, low=low, high=high)


def _reading(video: Path, track: Track, fit: RollFit, ask: RollAsk, *, sha256: str) -> RollReading:
    import numpy as np  # noqa: PLC0415 - as above

    now = _moving(track)
    meets_m = _meets_m(track, fit)
    skid = fit.skid_m + _apart(fit, meets_m)
    total = np.full_like(skid, ask.went_m) if ask.went_m else fit.total_m
    figures = {
        "ball_speed_mps": fit.ball_speed_mps, "launch_deg": np.degrees(fit.launch_rad),
        "spin_rpm": _RPM * fit.spin_radps, "skid_m": np.maximum(skid, 0.0), "skid_s": fit.skid_s,
        "roll_share_pct": 100.0 * np.clip(1.0 - skid / total, 0.0, 1.0),
    }  # fmt: skip
    told = {name: _figure(draws, name=name) for name, draws in figures.items()}
    fits = fit.misfit < 2.0 and fit.loose < 0.05
    seen, seen_speed = fit.undone(along_m=track.filmed.along_m[now], speed_mps=track.speed_mps[now])
    until_s = float(track.filmed.time_s[-1]) - fit.strike_s
    fitted = fit.curves(until_s=until_s)
    return RollReading(
        video=str(video), sha256=sha256, fps=track.fps, pictures=len(track.filmed.time_s),
        ball_px=2 * track.radius_px, **told, total_m=_figure(total), meets_m=meets_m, fits=fits,
        notes=_notes(told, fits, ask),
        seen_m=_floats(seen), seen_speed_mps=_floats(seen_speed),
        seen_surface_mps=_floats(track.surface_mps[now]), fitted_m=_floats(fitted[0]),
        fitted_speed_mps=_floats(fitted[1]), fitted_surface_mps=_floats(fitted[2]),
    )  # fmt: skip


def _floats(values: Any) -> tuple[float, ...]:
    return tuple(float(value) for value in values)


def _meets_m(track: Track, fit: RollFit) -> float | None:
    import numpy as np  # noqa: PLC0415 - as above

    from puttwright.ball.roll_meets import meeting_s  # noqa: PLC0415 - as above

    now = _moving(track)
    since = track.filmed.time_s[now] - fit.strike_s
    along, speed = fit.undone(along_m=track.filmed.along_m[now], speed_mps=track.speed_mps[now])
    met = meeting_s(since_s=since, speed_mps=speed, surface_mps=track.surface_mps[now])
    if met is None:
        return None
    return float(np.interp(met, since, along))


def _apart(fit: RollFit, meets_m: float | None) -> Any:
    """A widening of the skid's draws where the law and the plain look at the film disagree."""
    import numpy as np  # noqa: PLC0415 - as above

    if meets_m is None:
        return np.zeros_like(fit.skid_m)
    apart = abs(meets_m - float(np.median(fit.skid_m)))
    spread = max(apart - _MEETS_SD_M, 0.0)
    return spread * np.random.default_rng(3).standard_normal(len(fit.skid_m))


_MEETS_SD_M: Final = 0.009
"""How well the plain look tells the skid's end, one spread (trial on rendered clips)."""
_WORDS: Final = {
    "ball_speed_mps": "ball speed", "launch_deg": "launch", "spin_rpm": "spin at launch",
    "skid_m": "skid", "skid_s": "time of the skid", "roll_share_pct": "share of true roll",
}  # fmt: skip


def _notes(told: dict[str, Figure], fits: bool, ask: RollAsk) -> tuple[str, ...]:
    notes = []
    lost = [_WORDS[name] for name, each in told.items() if each.value is None]
    if lost:
        notes.append(
            f"The clip does not carry {' and '.join(lost)}: more light, a nearer camera or a "
            "clearer line would."
        )
    if not fits:
        notes.append(
            "This turf does not behave as the physics of an even green: the intervals are wider "
            "for it."
        )
    if ask.green_ft is None and ask.went_m is None:
        notes.append(
            "The share of true roll takes the green's speed from a metre of film; say --green-ft, "
            "or --went-m for a putt that ran out, and it is narrower."
        )
    return tuple(notes)

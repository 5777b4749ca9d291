"""From evidence to the arrays that belief works on: one list of readings per quantity.

Start lines come from a sensor where there is one, else from where the ball
stopped; pace from where it stopped, else from its speed. A holed putt whose
speed or line nobody measured still says that it lay inside what the hole takes.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from puttwright.address.laser import angle_sd_rad, face_angle_rad
from puttwright.ball.green import GreenPlane
from puttwright.ball.hole import fastest_capture_mps
from puttwright.belief.model import Readings
from puttwright.evidence import AimReading, Fitting, Putt
from puttwright.fitting.delivered_line import line_from_face
from puttwright.fitting.roll import (
    needed_line_rad,
    plane_of,
    sensed_rolls_m,
    stops_towards_rad,
)
from puttwright.fitting.without_bias import without_bias
from puttwright.units import BALL_RADIUS_M, HOLE_RADIUS_M
from puttwright.worth.pattern import PLANNED_PAST_M

BOARD_READING_SD_M = 0.0015
"""How well a dot is read off a board with no gauge study to say; common practice, no source."""
GREEN_LINE_SD_DEG = 0.25
"""What the green does to a start line judged by where the ball stopped; from judgement."""
GREEN_PACE_SD = 0.025
"""What the green adds to rolled length: 2.5 %, Karlsen & Nilsson 2008."""
_SHORTEST_TO_JUDGE_M = 0.3
SENSOR_START_SD_DEG = 0.1
SENSOR_SPEED_SD = 0.01
"""A sensor nobody studied is taken to repeat to 0.1° and 1 %; test benches claim no better."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One reading of one quantity, with the evidence it came from.

    ``missed``: line and length of this putt are known not to lie both within their
    limits, which are what the hole takes.
    """

    seq: int
    build_id: str
    value: float = math.nan
    low: float = math.nan
    high: float = math.nan
    instrument_sd: float = 0.0
    missed: bool = False
    table: str = "putts"


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathered:
    """All readings of a fitting, by quantity."""

    rows: dict[str, tuple[Row, ...]]

    def readings(self, quantity: str, *, builds: Sequence[str]) -> Readings:
        """The arrays of one quantity, builds numbered as given."""
        rows = [row for row in self.rows[quantity] if row.build_id in builds]
        number = {build_id: index for index, build_id in enumerate(builds)}
        return Readings(
            value=np.array([row.value for row in rows], dtype=float),
            low=np.array([row.low for row in rows], dtype=float),
            high=np.array([row.high for row in rows], dtype=float),
            group=np.array([number[row.build_id] for row in rows], dtype=np.int64),
            instrument_sd=np.array([row.instrument_sd for row in rows], dtype=float),
            order=_order([row.seq for row in rows]),
            pair=np.array([row.seq if row.missed else -1 for row in rows], dtype=np.int64),
        )

    def seqs(self, quantity: str, *, build_id: str) -> tuple[int, ...]:
        """Rows that speak of a quantity of one build."""
        return tuple(row.seq for row in self.rows[quantity] if row.build_id == build_id)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Shop:
    """What readings are read against: instruments, the green, and how far sensed putts rolled.

    ``rolls_m`` is by seq, scaled so that it agrees with where missed putts stopped.
    """

    instruments: dict[tuple[str, str], float]
    plane: GreenPlane
    rolls_m: dict[int, float]


def gather(fitting: Fitting) -> Gathered:
    """Turn a fitting's tables into readings by quantity (degrees, fractions of roll, mm)."""
    fitting = without_bias(fitting)
    putts = fitting.used_putts
    shop = _Shop(
        instruments={(i.name, i.quantity): i.repeatability_sd for i in fitting.instruments},
        plane=plane_of(fitting.fitting_green),
        rolls_m=_rolls_m(fitting),
    )
    rows = {
        "aim": tuple(_aim_row(aim, shop.instruments) for aim in fitting.aims),
        "start": _present(_start_row(putt, shop) for putt in putts),
        "pace": _present(_pace_row(putt, shop) for putt in putts),
        "launch": _plain(putts, "launch_deg", shop=shop),
        "strike": _plain(putts, "strike_toe_mm", shop=shop),
        "skid": _plain(putts, "skid_m", shop=shop, over=lambda putt: putt.distance_m),
        "roll_share": _plain(putts, "roll_share_pct", shop=shop),
    }
    return Gathered(rows=rows)


def _order(seqs: list[int]) -> np.ndarray:
    if len(set(seqs)) < 2:
        return np.zeros(len(seqs))
    ranks = np.argsort(np.argsort(seqs, kind="stable"), kind="stable")
    return ranks / (len(seqs) - 1.0) - 0.5


def _present(rows: Iterable[Row | None]) -> tuple[Row, ...]:
    return tuple(row for row in rows if row is not None)


def _plain(
    putts: Sequence[Putt], column: str, *, shop: _Shop,
    over: Callable[[Putt], float] = lambda _putt: 1.0,
) -> tuple[Row, ...]:  # fmt: skip
    """A column as it was read, with its instrument's spread where a study or a film told it."""
    return tuple(
        Row(
            seq=putt.seq,
            build_id=putt.build_id,
            value=value / over(putt),
            instrument_sd=shop.instruments.get((putt.instrument or "", column), 0.0) / over(putt),
        )
        for putt in putts
        if (value := getattr(putt, column)) is not None
    )


def _aim_row(aim: AimReading, instruments: dict[tuple[str, str], float]) -> Row:
    distance_m = aim.board_distance_mm / 1000.0
    told = instruments.get((aim.instrument or "", "reading_mm"))
    sd_m = BOARD_READING_SD_M if told is None else told / 1000.0
    angle = face_angle_rad(
        reading_m=aim.reading_mm / 1000.0, board_distance_m=distance_m, mirror=aim.mirror
    )
    sd = angle_sd_rad(reading_sd_m=sd_m, board_distance_m=distance_m, mirror=aim.mirror)
    return Row(
        seq=aim.seq,
        build_id=aim.build_id,
        value=math.degrees(angle),
        instrument_sd=math.degrees(sd),
        table="aims",
    )


def _start_row(putt: Putt, shop: _Shop) -> Row | None:
    """The start line from a sensor, the face, where it stopped or whether it went in."""
    read = _sensed_line(putt, shop) or _line_from_stop(putt, shop.plane)
    if read and not _only_missed(putt, shop):
        return read
    if putt.holed is None:
        return read
    window = math.degrees(math.asin(min(HOLE_RADIUS_M / putt.distance_m, 1.0)))
    return Row(
        seq=putt.seq,
        build_id=putt.build_id,
        value=read.value if read else math.nan,
        low=-window,
        high=window,
        instrument_sd=read.instrument_sd if read else GREEN_LINE_SD_DEG,
        missed=not putt.holed,
    )


def _sensed_line(putt: Putt, shop: _Shop) -> Row | None:
    if putt.start_deg is not None:
        told = shop.instruments.get((putt.instrument or "", "start_deg"))
        sd = SENSOR_START_SD_DEG if told is None else told
        return Row(seq=putt.seq, build_id=putt.build_id, value=putt.start_deg, instrument_sd=sd)
    if putt.face_deg is None:
        return None
    line = line_from_face(putt, instruments=shop.instruments)
    return Row(
        seq=putt.seq, build_id=putt.build_id, value=line.start_deg, instrument_sd=line.sd_deg
    )


def _line_from_stop(putt: Putt, plane: GreenPlane) -> Row | None:
    along = putt.distance_m + (putt.stop_past_m or 0.0)
    if putt.holed or putt.stop_right_m is None or along < _SHORTEST_TO_JUDGE_M:
        return None
    return Row(
        seq=putt.seq,
        build_id=putt.build_id,
        value=math.degrees(_line_from_stop_rad(putt, along_m=along, plane=plane)),
        instrument_sd=GREEN_LINE_SD_DEG,
    )


def _only_missed(putt: Putt, shop: _Shop) -> bool:
    """A missed putt of which the line or the length was not read."""
    lines = (_sensed_line(putt, shop), _line_from_stop(putt, shop.plane))
    return putt.holed is False and None in (lines[0] or lines[1], _read_pace(putt, shop))


def _line_from_stop_rad(putt: Putt, *, along_m: float, plane: GreenPlane) -> float:
    """Start line against the one needed, from where the ball stopped, the break taken out."""
    assert putt.stop_right_m is not None
    needed = needed_line_rad(distance_m=putt.distance_m, plane=plane)
    length = math.hypot(along_m, putt.stop_right_m)
    would_stop = stops_towards_rad(length_m=length, start_rad=needed, plane=plane)
    return math.atan2(putt.stop_right_m, along_m) - would_stop


def _pace_row(putt: Putt, shop: _Shop) -> Row | None:
    """Rolled length against the intended, as a fraction; 0 is as intended."""
    read = _read_pace(putt, shop)
    if putt.holed is None or (read and not _only_missed(putt, shop)):
        return read
    return _pace_of_the_hole(putt, shop.plane, read=read)


def _read_pace(putt: Putt, shop: _Shop) -> Row | None:
    """From where it stopped, else from its speed."""
    intended = putt.distance_m + PLANNED_PAST_M
    stopped_m = _stopped_roll_m(putt)
    if stopped_m is not None:
        value, sd = stopped_m / intended - 1.0, GREEN_PACE_SD
        return Row(seq=putt.seq, build_id=putt.build_id, value=value, instrument_sd=sd)
    if putt.seq not in shop.rolls_m or putt.ball_speed_mps is None:
        return None
    rolled = shop.rolls_m[putt.seq] / intended
    told = shop.instruments.get((putt.instrument or "", "ball_speed_mps"))
    relative = SENSOR_SPEED_SD if told is None else told / putt.ball_speed_mps
    return Row(
        seq=putt.seq,
        build_id=putt.build_id,
        value=rolled - 1.0,
        instrument_sd=2.0 * relative * rolled,
    )


def _pace_of_the_hole(putt: Putt, plane: GreenPlane, *, read: Row | None) -> Row:
    """A holed putt reached the hole, no faster than it takes a ball; a missed one may not have."""
    intended = putt.distance_m + PLANNED_PAST_M
    longest = putt.distance_m + fastest_capture_mps() ** 2 / (2.0 * plane.deceleration_mps2)
    shortest = putt.distance_m - HOLE_RADIUS_M + BALL_RADIUS_M
    return Row(
        seq=putt.seq,
        build_id=putt.build_id,
        value=read.value if read else math.nan,
        low=shortest / intended - 1.0,
        high=longest / intended - 1.0,
        instrument_sd=read.instrument_sd if read else GREEN_PACE_SD,
        missed=not putt.holed,
    )


def _stopped_roll_m(putt: Putt) -> float | None:
    if putt.holed or putt.stop_past_m is None:
        return None
    return math.hypot(putt.distance_m + putt.stop_past_m, putt.stop_right_m or 0.0)


_PAIRS_TO_SCALE = 5


def _rolls_m(fitting: Fitting) -> dict[int, float]:
    """How far each sensed putt would have rolled, by seq.

    Where enough putts show both speed and stop, all are scaled by the median of
    their ratio: it takes out what the sensor, the turf's sliding friction and the
    green's speed have wrong in common, which would split holed from missed putts.
    """
    sensed = [putt for putt in fitting.used_putts if putt.ball_speed_mps is not None]
    if not sensed:
        return {}
    rolls = sensed_rolls_m(sensed, plane=plane_of(fitting.fitting_green))
    pairs = [
        stopped / rolled
        for putt, rolled in zip(sensed, rolls, strict=True)
        if (stopped := _stopped_roll_m(putt)) is not None and np.isfinite(rolled)
    ]
    scale = float(np.median(pairs)) if len(pairs) >= _PAIRS_TO_SCALE else 1.0
    return {
        putt.seq: scale * float(rolled)
        for putt, rolled in zip(sensed, rolls, strict=True)
        if np.isfinite(rolled)
    }

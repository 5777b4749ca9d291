"""An invented right-hander, fitted by hand: what pictures and paper are tried on.

The numbers of the decision are written down here, not computed, so that these
tests say nothing of the models. ``evidence.signs.mirrored`` makes the left-hander.
"""

from __future__ import annotations

import dataclasses
import math
import random

from puttwright.evidence import (
    LEFT,
    RIGHT,
    AimReading,
    Build,
    FirstPutt,
    Fitting,
    FittingGreen,
    Golfer,
    Green,
    Part,
    Putt,
)
from puttwright.evidence.signs import mirrored
from puttwright.fitting.decision import (
    Block,
    BuildVerdict,
    Decision,
    Estimate,
    ModelRun,
    NextTrial,
    Reason,
    RestsOn,
)

BUILDS = (
    Build(
        build_id="own", label="Old blade", length_mm=889, lie_deg=72, loft_deg=4,
        head_shape="blade", sight_line="none", neck_style="plumber's neck", offset_mm=16,
        head_id="H1", neck_id="N1", head_mass_g=345, toe_hang_deg=42,
        cg_from_axis_mm=34, cg_depth_mm=11, grip_id="G1",
        grip_diameter_mm=25, total_mass_g=512,
    ),
    Build(
        build_id="mallet-slant", label="Mallet, slant neck", length_mm=864, lie_deg=70,
        loft_deg=2.5, head_shape="mallet", sight_line="multi", neck_style="slant neck", offset_mm=8,
        head_id="H3", neck_id="N2", head_mass_g=358, toe_hang_deg=28,
        cg_from_axis_mm=24, cg_depth_mm=35,
        grip_id="G2", grip_diameter_mm=29, grip_mass_g=80, total_mass_g=548, price=310,
    ),
    Build(
        build_id="half-plumber", label="Half mallet, plumber's neck", length_mm=876, lie_deg=71,
        loft_deg=3, head_shape="half_mallet", sight_line="line", neck_style="plumber's neck",
        offset_mm=14, head_id="H2", neck_id="N1", head_mass_g=350, toe_hang_deg=34, grip_id="G1",
        total_mass_g=528, price=260,
    ),
)  # fmt: skip

RACK = (
    Part(part_id="H3", kind="head", label="Mallet, three lines", head_shape="mallet", mass_g=358,
         lie_deg=71, loft_deg=3.5, loft_min_deg=1.5, loft_max_deg=5.5, lie_min_deg=69,
         lie_max_deg=73, stock=2, price=190),
    Part(part_id="N2", kind="neck", label="Slant, short", neck_style="slant neck", offset_mm=8,
         stock=4, price=35),
    Part(part_id="G2", kind="grip", label="Soft, round", grip_diameter_mm=29, mass_g=80, stock=7,
         price=28),
)  # fmt: skip

_AIM = {"own": (1.3, 0.5), "mallet-slant": (0.2, 0.4), "half-plumber": (0.7, 0.55)}
_PUTT = {"own": (0.8, 1.1, 0.02), "mallet-slant": (0.1, 0.8, 0.0), "half-plumber": (0.5, 1.0, 0.03)}


def _aims() -> tuple[AimReading, ...]:
    rng = random.Random(11)
    readings, seq = [], 0
    for block in range(2):
        for build_id, (bias, sd) in _AIM.items():
            for _ in range(4):
                seq += 1
                angle = math.radians(rng.gauss(bias, sd))
                reading_mm = round(2000.0 * math.tan(angle), 0)
                readings.append(
                    AimReading(
                        seq=seq, block=block, build_id=build_id, board_distance_mm=2000.0,
                        reading_mm=reading_mm,
                    )
                )  # fmt: skip
    return tuple(readings)


def _putt(rng: random.Random, *, seq: int, build_id: str, distance_m: float) -> Putt:
    line_deg, spread_deg, pace = _PUTT[build_id]
    start_deg = rng.gauss(line_deg, spread_deg)
    roll_m = (distance_m + 0.43) * (1.0 + rng.gauss(pace, 0.09))
    right_m = roll_m * math.sin(math.radians(start_deg))
    past_m = roll_m - distance_m
    holed = abs(right_m) < 0.045 and 0.0 < past_m < 1.2
    return Putt(
        seq=seq, build_id=build_id, distance_m=distance_m, block=seq // 30, holed=holed,
        ball_speed_mps=round(math.sqrt(roll_m / 0.526), 2),
        start_deg=round(start_deg, 1), launch_deg=round(rng.gauss(1.8, 0.6), 1),
        stop_past_m=None if holed else round(past_m, 2),
        stop_right_m=None if holed else round(right_m, 2),
    )  # fmt: skip


def _putts() -> tuple[Putt, ...]:
    rng = random.Random(5)
    putts: list[Putt] = []
    for _ in range(2):
        for build_id in _PUTT:
            for distance_m in (3.0, 9.0):
                for _ in range(7):
                    putt = _putt(rng, seq=len(putts) + 1, build_id=build_id, distance_m=distance_m)
                    putts.append(putt)
    putts[3] = dataclasses.replace(putts[3], void=True, note="phone rang")
    return tuple(putts)


def _close(mean: float, sd: float) -> Estimate:
    return Estimate(
        mean=mean,
        sd=sd,
        interval_90=(mean - 1.645 * sd, mean + 1.645 * sd),
        interval_50=(mean - 0.6745 * sd, mean + 0.6745 * sd),
    )


def _makes(shift: float) -> dict[float, Estimate]:
    usual = {1.0: 91, 2.0: 62, 3.0: 38, 4.5: 22, 6.0: 14, 9.0: 7}
    return {distance: _close(base + shift, 2.4) for distance, base in usual.items()}


def _verdict(*, saved: Estimate, better: float, best: float, build_id: str) -> BuildVerdict:
    aim, aim_sd = _AIM[build_id]
    line, line_sd, pace = _PUTT[build_id]
    return BuildVerdict(
        strokes_saved_per_round=saved,
        probability_better=better,
        probability_best=best,
        make_pct=_makes({"own": 0.0, "mallet-slant": 5.0, "half-plumber": 2.0}[build_id]),
        quantities={
            "aim_bias_deg": _close(aim, 0.18),
            "aim_sd_deg": _close(aim_sd, 0.08),
            "start_bias_deg": _close(line, 0.22),
            "start_sd_deg": _close(line_sd, 0.12),
            "pace_bias_pct": _close(100 * pace, 1.8),
            "pace_sd_pct": _close(9.0, 1.1),
            "launch_deg": _close(1.8, 0.12),
        },
        putts_used=28 - (build_id == "own"),
        putts_left_out=int(build_id == "own"),
    )


FITTING = Fitting(
    fitting_id="F-0007",
    date="2026-05-14",
    golfer=Golfer(alias="Robin", handed=RIGHT, stature_mm=1820, handicap=14, eye_dominant=RIGHT),
    greens=(
        Green(name="Lower Meadow", speed_ft=9.5, share=0.7),
        Green(name="Old Quarry", speed_ft=11, share=0.3),
    ),
    fitting_green=FittingGreen(speed_ft=10),
    own_build="own",
    builds=BUILDS,
    first_putts=(FirstPutt(distance_m=3, per_round=5), FirstPutt(distance_m=9, per_round=9)),
    aims=_aims(),
    putts=_putts(),
    rack=RACK,
)

DECISION = Decision(
    choice="mallet-slant",
    spec={"build_id": "mallet-slant", "length_mm": 864.0, "lie_deg": 70.0, "loft_deg": 2.5},
    builds={
        "own": _verdict(saved=_close(0.0, 0.0), better=0.0, best=0.06, build_id="own"),
        "mallet-slant": _verdict(saved=_close(0.46, 0.32), better=0.92, best=0.75,
                                 build_id="mallet-slant"),
        "half-plumber": _verdict(saved=_close(0.17, 0.34), better=0.69, best=0.19,
                                 build_id="half-plumber"),
    },
    next_trial=NextTrial(
        build_id="half-plumber", distance_m=3.0, putts=6, aims=4,
        settles="whether Half mallet, plumber's neck is better than Old blade",
        running_order=(
            Block(build_id="half-plumber", putts=6, aims=4),
            Block(build_id="own", putts=4, aims=2),
            Block(build_id="mallet-slant", putts=4, aims=2),
        ),
    ),
    reasons=(
        Reason(
            text="Mallet, slant neck aims nearer the line: 0.2° right to Old blade's 1.3° right.",
            rests_on=(RestsOn(table="aims", seq=(1, 2, 3, 4, 5, 6, 7, 8, 13, 14, 15, 16, 17)),),
        ),
        Reason(
            text="Mallet, slant neck starts more alike: 0.8° to Old blade's 1.1°.",
            rests_on=(RestsOn(table="putts", seq=tuple(range(1, 29))),),
        ),
    ),
    cautions=("The fitting green slopes; start lines from where balls stopped hold its break.",),
    model=ModelRun(version="0.1.0", seed=1, draws=4000, r_hat_max=1.003, ess_min=1850.0),
    inputs_sha256="5b1e" * 16,
)  # fmt: skip


def _mirrored_figure(name: str, estimate: Estimate) -> Estimate:
    if not name.endswith("bias_deg"):
        return estimate
    low, high = estimate.interval_90
    return Estimate(mean=-estimate.mean, sd=estimate.sd, interval_90=(-high, -low))


LEFT_FITTING = dataclasses.replace(
    mirrored(FITTING), golfer=dataclasses.replace(FITTING.golfer, alias="Kim", handed=LEFT)
)

LEFT_DECISION = dataclasses.replace(
    DECISION,
    builds={
        build_id: dataclasses.replace(
            verdict,
            quantities={
                name: _mirrored_figure(name, found) for name, found in verdict.quantities.items()
            },
        )
        for build_id, verdict in DECISION.builds.items()
    },
)
KEEP = dataclasses.replace(
    DECISION, choice="keep", spec={}, next_trial=None, reasons=DECISION.reasons[:1]
)
UNDECIDED = dataclasses.replace(DECISION, choice="undecided", spec={}, more_putts=12)

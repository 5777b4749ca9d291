"""Putting counts and the models others fitted to them: Berry 1995, Broadie 2012 and 2018."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest
from scipy.optimize import minimize
from scipy.stats import norm

from puttwright.units import FOOT_M
from puttwright.worth.baseline import (
    make_broadie2012,
    make_broadie2018,
    make_fearing2011,
    make_gelman_nolan2002,
)
from puttwright.worth.holing import outcome
from puttwright.worth.noise import (
    TOUR_PACE_SD_PCT,
    TOUR_READ_NOISE,
    TOUR_START_SD_DEG,
    read_noise_for,
)
from puttwright.worth.pattern import Pattern
from puttwright.worth.rounds import deceleration_of

REFERENCES = Path(__file__).parents[2] / "references"
TOUR = Pattern.of(
    start_sd_deg=TOUR_START_SD_DEG,
    start_bias_deg=0.0,
    pace_sd_pct=TOUR_PACE_SD_PCT,
    pace_bias_pct=0.0,
)
TOUR_GREEN = deceleration_of(speed_ft=11.0)


def rows(key: str, name: str = "holed.csv") -> np.ndarray:
    return np.loadtxt(REFERENCES / key / name, delimiter=",", comments=("#", "distance"))


def fit_angle(distance_ft: np.ndarray, tries: np.ndarray, made: np.ndarray) -> tuple[float, float]:
    """Most likely spread [rad] of the angle-only model and its log likelihood."""

    def cost(log_sd: np.ndarray) -> float:
        p = make_gelman_nolan2002(distance_m=distance_ft * FOOT_M, start_sd_rad=math.exp(log_sd[0]))
        p = np.clip(p, 1e-12, 1.0 - 1e-12)
        return -float(np.sum(made * np.log(p) + (tries - made) * np.log1p(-p)))

    fit = minimize(cost, [math.log(0.02)], method="Nelder-Mead", options={"xatol": 1e-9})
    return math.exp(fit.x[0]), -fit.fun


def test_angle_only_fit_to_berry1995(validate):
    spread, log_likelihood = fit_angle(*rows("berry1995").T)
    validate(
        "start-line spread, angle-only model",
        source="berry1995; Stan golf case study",
        evidence="published fit, text seen",
        ours=math.degrees(spread),
        theirs=1.5276,
        atol=0.005,
        unit="deg",
    )
    validate(
        "log likelihood at the best angle-only fit",
        source="berry1995; recomputed",
        evidence="derived from seen counts",
        ours=log_likelihood,
        theirs=-2922.639,
        atol=0.01,
    )


def fit_extra_error(start: tuple[float, float, float]) -> np.ndarray:
    """Angle, pace and extra error of the Stan case study's third model, by posterior mode."""
    distance_ft, tries, made = rows("broadie2018").T
    share = made / tries

    def cost(log_parameters: np.ndarray) -> float:
        angle, pace, extra = np.exp(log_parameters)
        p = make_broadie2018(distance_m=distance_ft * FOOT_M, start_sd_rad=angle, pace_sd=pace)
        sd = np.sqrt(p * (1.0 - p) / tries + extra**2)
        return -float(norm.logpdf(share, p, sd).sum())

    fit = minimize(
        cost, np.log(start), method="Nelder-Mead", options={"xatol": 1e-8, "maxiter": 4000}
    )
    return np.exp(fit.x)


@pytest.mark.parametrize("start", [(0.013, 0.14, 0.003), (0.03, 0.05, 0.01)])
def test_angle_and_pace_fit_to_broadie2018(validate, start):
    angle, pace, extra = fit_extra_error(start)
    source = f"broadie2018; Stan golf case study, from {start}"
    kind = "published fit, text seen"
    validate("start-line spread, angle and pace with extra error", source=source, evidence=kind,
             ours=math.degrees(angle), theirs=1.020, atol=0.01, unit="deg")  # fmt: skip
    validate("pace spread, angle and pace with extra error", source=source, evidence=kind,
             ours=pace, theirs=0.0800, atol=0.002)  # fmt: skip
    validate("extra error", source=source, evidence=kind, ours=extra, theirs=0.0031, atol=0.0007)


@pytest.mark.parametrize(
    ("distance_ft", "theirs"),
    [(2, 0.9974), (3, 0.9542), (5, 0.7566), (8, 0.5011), (10, 0.3893), (15, 0.2254), (20, 0.1435),
     (30, 0.0709), (50, 0.0273)],
)  # fmt: skip
def test_broadie2018_curve(validate, distance_ft, theirs):
    ours = make_broadie2018(distance_m=distance_ft * FOOT_M, start_sd_rad=0.017807, pace_sd=0.08003)
    validate(f"angle-and-pace model at {distance_ft} ft", source="broadie2018; recomputed",
             evidence="derived", ours=float(ours), theirs=theirs, atol=0.0005)  # fmt: skip


@pytest.mark.parametrize(
    ("distance_ft", "theirs"),
    [(3, 0.9542), (5, 0.7612), (8, 0.5038), (10, 0.3929), (15, 0.2309), (20, 0.1489),
     (30, 0.0747), (50, 0.0291)],
)  # fmt: skip
def test_broadie2012_curve(validate, distance_ft, theirs):
    ours = float(make_broadie2012(distance_m=distance_ft * FOOT_M))
    validate(f"one-putt formula at {distance_ft} ft", source="Broadie 2012, second hand",
             evidence="derived", ours=ours, theirs=theirs, atol=0.0005)  # fmt: skip


def test_fearing2011_against_the_counts(validate):
    distance_ft, tries, made = rows("broadie2018").T
    near = (distance_ft >= 1.9) & (distance_ft <= 60.0)
    gap = make_fearing2011(distance_m=distance_ft[near] * FOOT_M) - (made / tries)[near]
    validate("worst gap of the logit polynomial to the counts, 2-60 ft",
             source="Fearing et al. 2011, second hand; broadie2018", evidence="derived",
             ours=float(np.abs(gap).max()), theirs=0.0, atol=0.0235)  # fmt: skip


def test_our_capture_model_against_broadie2018(validate):
    distance_ft, tries, made = rows("broadie2018").T
    result = outcome(
        TOUR, distance_m=distance_ft * FOOT_M, deceleration_mps2=TOUR_GREEN, noise=TOUR_READ_NOISE
    )
    points = 100.0 * (result.make[0] - made / tries)
    source = "broadie2018, 31 rows"
    validate("rms misfit of chance to hole, simulated capture, three fitted numbers", source=source,
             evidence="published counts, text seen", ours=float(np.sqrt(np.mean(points**2))),
             theirs=0.0, atol=0.5, unit="points")  # fmt: skip
    validate("worst misfit of chance to hole", source=source,
             evidence="published counts, text seen", ours=float(np.abs(points).max()), theirs=0.0,
             atol=1.0, unit="points")  # fmt: skip


@pytest.mark.parametrize(("distance_ft", "theirs"), rows("tour_putts", "putts.csv").tolist())
def test_tour_expected_putts(validate, distance_ft, theirs):
    result = outcome(
        TOUR,
        distance_m=np.array([distance_ft * FOOT_M]),
        deceleration_mps2=TOUR_GREEN,
        noise=TOUR_READ_NOISE,
    )
    validate(f"tour expected putts from {distance_ft:.0f} ft", source="tour_putts",
             evidence="second hand", ours=float(result.putts[0, 0]), theirs=theirs, atol=0.03,
             unit="putts")  # fmt: skip


def test_half_are_holed_at_eight_feet(validate):
    distances = np.linspace(1.5, 4.0, 251)
    result = outcome(
        TOUR, distance_m=distances, deceleration_mps2=TOUR_GREEN, noise=TOUR_READ_NOISE
    )
    half = float(np.interp(-0.5, -result.make[0], distances)) / FOOT_M
    validate("distance at which a tour player holes half", source="Broadie, second hand",
             evidence="second hand", ours=half, theirs=8.0, atol=0.5, unit="ft")  # fmt: skip


def test_a_ninety_shooter_holes_half_at_five_feet(validate):
    golfer = Pattern.of(start_sd_deg=1.5, start_bias_deg=0.0, pace_sd_pct=8.5, pace_bias_pct=0.0)
    distances = np.linspace(0.8, 3.0, 221)
    result = outcome(
        golfer,
        distance_m=distances,
        deceleration_mps2=deceleration_of(speed_ft=9.0),
        noise=read_noise_for(handicap=18.0),
    )
    half = float(np.interp(-0.5, -result.make[0], distances)) / FOOT_M
    validate("distance at which a 90-shooter holes half", source="Broadie, second hand",
             evidence="second hand", ours=half, theirs=5.0, atol=0.5, unit="ft")  # fmt: skip

"""Fit read and green noise to what tour players hole and need.

Three numbers (line, its growth with the root of length, pace) are fitted to the
31 rows of Broadie 2018 and to the tour's expected putts; the tour stroke's own
start line and pace are then taken out. Prints what stands in
``puttwright/worth/noise.py`` and how well it fits.
"""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
from scipy.optimize import least_squares

from puttwright.units import FOOT_M
from puttwright.worth.holing import outcome
from puttwright.worth.noise import TOUR_PACE_SD_PCT, TOUR_START_SD_DEG
from puttwright.worth.pattern import Pattern, ReadNoise
from puttwright.worth.rounds import deceleration_of

REFERENCES = Path(__file__).parents[1] / "references"
TOUR_GREEN_FT = 11.0
PUTTS_WEIGHT = 40.0  # 0.025 putts count as much as a point of percent holed
NO_STROKE = Pattern.of(start_sd_deg=0.0, start_bias_deg=0.0, pace_sd_pct=0.0, pace_bias_pct=0.0)


def noise_of(parameters: np.ndarray) -> ReadNoise:
    """The noise of three fitted numbers: degrees, degrees per root metre, fraction."""
    line, growth, pace = np.abs(parameters)
    return ReadNoise(
        line_rad=math.radians(line), line_growth_rad_per_sqrt_m=math.radians(growth), pace=pace
    )


def main() -> None:
    """Fit and print."""
    holed = np.loadtxt(
        REFERENCES / "broadie2018" / "holed.csv", delimiter=",", comments=("#", "distance")
    )
    tour = np.loadtxt(
        REFERENCES / "tour_putts" / "putts.csv", delimiter=",", comments=("#", "distance")
    )
    deceleration = deceleration_of(speed_ft=TOUR_GREEN_FT)
    lengths = np.concatenate([holed[:, 0], tour[:, 0]]) * FOOT_M

    def misfit(parameters: np.ndarray) -> np.ndarray:
        result = outcome(
            NO_STROKE,
            distance_m=lengths,
            deceleration_mps2=deceleration,
            noise=noise_of(parameters),
        )
        make, putts = result.make[0, : len(holed)], result.putts[0, len(holed) :]
        points = 100.0 * (make - holed[:, 2] / holed[:, 1])
        return np.concatenate([points, PUTTS_WEIGHT * (putts - tour[:, 1])])

    fit = least_squares(misfit, [1.2, 0.4, 0.08], diff_step=1e-3)
    points, putts = fit.fun[: len(holed)], fit.fun[len(holed) :] / PUTTS_WEIGHT
    line, growth, pace = np.abs(fit.x)
    print(f"together: {line:.4f} deg, {growth:.4f} deg per root m, pace {pace:.4f}")
    print(
        f"31 rows: rms {np.sqrt(np.mean(points**2)):.3f}, worst {np.abs(points).max():.2f} points"
    )
    print(f"expected putts: worst {np.abs(putts).max():.4f}")
    print(f"read line {math.sqrt(line**2 - TOUR_START_SD_DEG**2):.4f} deg")
    print(f"read pace {math.sqrt(pace**2 - (TOUR_PACE_SD_PCT / 100) ** 2):.4f}")


if __name__ == "__main__":
    main()

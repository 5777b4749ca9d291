"""Derive how long a tour player's first putts are, from published counts of all putts.

All putts from a distance are first putts or leaves of missed ones. Every hole
with a putt has one first putt and one holed putt, so first putts and holed
putts must come to the same total; the leaves are laid out with the gamma
distribution of Fearing, Acimovic & Graves 2011. Prints the table that stands in
``puttwright/worth/first_putts.py``.
"""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import numpy as np
from scipy.stats import gamma

HOLES = 18
EDGES_FT = (0.0, 2.4, 4.4, 6.4, 8.4, 10.4, 13.6, 17.4, 21.2, 26.5, 34.5, 46.5, 80.0)
LEAVE_SHAPE = 2.132


def leave_mean_ft(distance_ft: np.ndarray) -> np.ndarray:
    """Mean leave of a miss (Fearing et al. 2011)."""
    return np.exp(0.95 - 0.35 * np.log(distance_ft) + 0.046 * distance_ft - 1.6e-4 * distance_ft**2)


def main() -> None:
    """Print length in feet and first putts a round, bin by bin."""
    path = Path(__file__).parents[1] / "references" / "broadie2018" / "holed.csv"
    rows = np.loadtxt(path, delimiter=",", comments=("#", "distance"))
    distance, tries, made = rows.T
    edges = np.concatenate([[0.0], (distance[1:] + distance[:-1]) / 2, [85.0]])
    leaves = np.zeros_like(distance)
    for length, missed in zip(distance, tries - made, strict=True):
        scale = leave_mean_ft(length) / LEAVE_SHAPE
        share = np.diff(gamma.cdf(edges, LEAVE_SHAPE, scale=scale))
        leaves += missed * share / share.sum()
    first = tries - leaves
    print(f"# first putts {first.sum():.0f}, holed {made.sum():.0f}")
    for low, high in pairwise(EDGES_FT):
        inside = (distance >= low) & (distance < high)
        count = first[inside].sum()
        mean_ft = (first[inside] * distance[inside]).sum() / count
        print(f"    ({mean_ft:.1f}, {HOLES * count / made.sum():.3f}),")


if __name__ == "__main__":
    main()

"""A published gauge study and certified analysis of variance: references/gauge_study."""

from __future__ import annotations

import csv

import numpy as np
import pytest

from puttwright.belief.gauge import study
from puttwright.belief.mean_squares import mean_squares

AIAG = {
    "aiag_ss_appraiser": lambda raw, _: raw.appraiser.square * raw.appraiser.df,
    "aiag_ss_part": lambda raw, _: raw.part.square * raw.part.df,
    "aiag_ss_interaction": lambda raw, _: raw.interaction.square * raw.interaction.df,
    "aiag_ss_error": lambda raw, _: raw.error.square * raw.error.df,
    "aiag_p": lambda _, found: found.interaction_probability,
    "aiag_repeat": lambda _, found: found.repeatability.value**2,
    "aiag_appraiser": lambda _, found: found.reproducibility.value**2,
    "aiag_both": lambda _, found: found.both.value**2,
    "aiag_part": lambda _, found: found.parts.value**2,
    "aiag_share": lambda _, found: (
        100 * found.both.value / np.hypot(found.both.value, found.parts.value)
    ),
}
SETS = ("SiRstv", "AtmWtAg", "SmLs01", "SmLs04", "SmLs07")
KEYS = (*AIAG, *(f"{name}_{what}" for name in SETS for what in ("f", "sd")))


def _rows(root, name):
    with (root / "references/gauge_study" / name).open(encoding="utf-8") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("key", AIAG)
def test_a_published_gauge_study(key, root, validate, published):
    rows = _rows(root, "aiag.csv")
    values = np.array([float(row["reading"]) for row in rows])
    who = {
        "part": np.array([int(row["part"]) - 1 for row in rows]),
        "appraiser": np.array(["ABC".index(row["appraiser"]) for row in rows]),
    }

    ours = AIAG[key](mean_squares(values, **who), study(values, **who))

    validate(ours=ours, **published("gauge_study", keys=KEYS)[key])


@pytest.mark.parametrize("name", SETS)
def test_certified_analysis_of_variance(name, root, validate, published):
    rows = [row for row in _rows(root, "nist.csv") if row["set"] == name]
    values = np.array([float(row["reading"]) for row in rows])
    group = np.array([int(row["group"]) - 1 for row in rows])

    found = mean_squares(values, part=group, appraiser=np.zeros_like(group))

    values_of = published("gauge_study", keys=KEYS)
    validate(ours=found.part.square / found.error.square, **values_of[f"{name}_f"])
    validate(ours=np.sqrt(found.error.square), **values_of[f"{name}_sd"])

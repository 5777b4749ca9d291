"""Swing weight, simple bodies, pendulums and uncertainty against what is published."""

from __future__ import annotations

import math

import numpy as np
import pytest

from puttwright.club.body import box_tensor, tube
from puttwright.club.pendulum import bifilar_pendulum, physical_pendulum, small_swing_s
from puttwright.club.swing_weight import FULCRUM_M, IN_OZ, POINT_IN_OZ, moment_in_oz, points
from puttwright.club.uncertainty import Quantity, propagated
from puttwright.units import GRAVITY_MPS2, INCH_M, OUNCE_KG

PARTS = ((0.350, 33.5), (0.110, 16.5), (0.065, 5.0))


def _putter(*more, fulcrum_m=FULCRUM_M):
    parts = (*PARTS, *more)
    total = sum(mass for mass, _ in parts)
    balance = sum(mass * place * INCH_M for mass, place in parts) / total
    return moment_in_oz(total_kg=total, balance_m=balance, fulcrum_m=fulcrum_m), balance


def _added(mass_kg, place_in):
    return points(_putter((mass_kg, place_in))[0]) - points(_putter()[0])


def _grams_a_point(place_in):
    return 1.0 / _added(0.001, place_in)


def _rod(*, radius_m=0.0, length_m=1.0):
    return tube(
        mass_kg=0.12, length_m=length_m, radius_m=radius_m, balance_m=0.5 * length_m,
        top_m=np.zeros(3), down=np.array([0.0, 0.0, -1.0]),
    )  # fmt: skip


def _about(body, *, point_m, direction):
    return body.inertia_about(point_m=np.array(point_m), direction=np.array(direction))


def _bar(axis):
    up = 0.350 * (0.120**2 + 0.025**2) / 12.0
    box = box_tensor(mass_kg=0.350, moi_vertical_kg_m2=up, half_depth_m=0.0125, height_m=0.025)
    return 1e7 * box[axis, axis]


def _gauge():
    """The end-gauge of the guide, in nm and kelvin."""
    third = 1.0 / math.sqrt(3.0)
    return propagated(
        lambda v: {
            "length": v["standard"] + v["d0"] + v["d1"] + v["d2"]
            - v["standard"] * (v["alpha"] * v["theta"] + 11.5e-6 * v["delta"])
        },
        {
            "standard": Quantity(value=50.000623e6, sd=25.0, dof=18),
            "d0": Quantity(value=215.0, sd=5.8, dof=24),
            "d1": Quantity(value=0.0, sd=3.9, dof=5),
            "d2": Quantity(value=0.0, sd=6.7, dof=8),
            "alpha": Quantity(value=0.0, sd=1e-6 * third, dof=50),
            "theta": Quantity(value=-0.1, sd=0.41),
            "delta": Quantity(value=0.0, sd=0.05 * third, dof=2),
        },
    )["length"]  # fmt: skip


CLUB = {
    "point_g_in": lambda: 1e3 * POINT_IN_OZ * OUNCE_KG,
    "torque_14": lambda: _putter()[0],
    "torque_12": lambda: _putter(fulcrum_m=12.0 * INCH_M)[0],
    "balance": lambda: _putter()[1] / INCH_M,
    "points": lambda: points(_putter()[0]) - 30.0,
    "add_head": lambda: _added(0.002, 33.5),
    "add_grip": lambda: _added(0.005, 5.0),
    "add_tape": lambda: _added(0.004, 5.5),
    "add_fulcrum": lambda: _added(0.005, 14.0),
    "gram_34": lambda: _grams_a_point(34.0),
    "gram_35": lambda: _grams_a_point(35.0),
    "gram_43": lambda: _grams_a_point(43.0),
    "rod_middle": lambda: _about(_rod(), point_m=[0, 0, -0.5], direction=[1, 0, 0]),
    "rod_end": lambda: _about(_rod(), point_m=[0, 0, 0], direction=[0, 1, 0]),
    "tube_axis": lambda: _about(_rod(radius_m=0.007), point_m=[0, 0, 0], direction=[0, 0, 1]),
    "tube_across": lambda: _about(
        _rod(radius_m=0.007, length_m=0.9), point_m=[0, 0, -0.45], direction=[0, 1, 0]
    ),
    "bar_up": lambda: _bar(2),
    "bar_along": lambda: _bar(1),
    "bar_across": lambda: _bar(0),
    "gauge_sd": lambda: _gauge().sd,
    "gauge_dof": lambda: _gauge().dof,
}


@pytest.mark.parametrize("key", CLUB)
def test_club(key, validate, published):
    row = published("club", keys=CLUB)[key]
    validate(ours=float(CLUB[key]()), **row)


def _exact(value):
    return Quantity(value=value)


def _hung(period_s=1.750):
    return physical_pendulum(mass=_exact(0.520), distance=_exact(0.620), period=_exact(period_s))


def _on_threads(spacing_m=0.100, period_s=1.100):
    return bifilar_pendulum(
        mass=_exact(0.350), spacing=_exact(spacing_m), thread=_exact(0.600),
        period=_exact(period_s),
    ).inertia_cg_kg_m2.value  # fmt: skip


def _rod_period():
    """The period at which the pendulum's formula gives back a rod's own inertia."""
    about_end = _about(_rod(), point_m=[0, 0, 0], direction=[1, 0, 0])
    period = 2.0 * math.pi * math.sqrt(about_end / (0.12 * GRAVITY_MPS2 * 0.5))
    found = physical_pendulum(mass=_exact(0.12), distance=_exact(0.5), period=_exact(period))
    assert found.inertia_cg_kg_m2.value == pytest.approx(0.01, rel=1e-12)
    return period


def _bar_period():
    wanted = 1e-7 * _bar(2)
    period = 1.1 * math.sqrt(wanted / _on_threads())
    assert _on_threads(period_s=period) == pytest.approx(wanted, rel=1e-12)
    return period


def _sensitivity():
    cg = _hung().inertia_cg_kg_m2.value
    return 100.0 * (_hung(1.750 * 1.001).inertia_cg_kg_m2.value / cg - 1.0)


def _slowing(amplitude_deg):
    return 1.0 / small_swing_s(period_s=1.0, amplitude_rad=math.radians(amplitude_deg))


PENDULUM = {
    "rod_period": _rod_period,
    "pivot": lambda: _hung().inertia_pivot_kg_m2.value,
    "cg": lambda: _hung().inertia_cg_kg_m2.value,
    "sensitivity": _sensitivity,
    "bifilar": lambda: 1e7 * _on_threads(),
    "bifilar_bar": _bar_period,
    "trap_spacing": lambda: _on_threads(spacing_m=0.050) / _on_threads(),
    "trap_radius": lambda: _on_threads(spacing_m=0.200) / _on_threads(),
    "trap_period": lambda: _on_threads(period_s=0.550) / _on_threads(),
    "swing_20": lambda: _slowing(20.0),
    "swing_60": lambda: _slowing(60.0),
}


@pytest.mark.parametrize("key", PENDULUM)
def test_pendulum(key, validate, published):
    row = published("pendulum", keys=PENDULUM)[key]
    validate(ours=float(PENDULUM[key]()), **row)


def test_an_inch_ounce_is_what_it_says():
    assert pytest.approx(0.012358, abs=5e-7) == POINT_IN_OZ * IN_OZ * GRAVITY_MPS2

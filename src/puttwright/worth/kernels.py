"""The chain of putts, compiled: chance to hole and expected putts for many patterns.

All kernels of one call tree stand in this file, because the compiler's cache
is keyed by the file. SI throughout; see :mod:`puttwright.worth.holing` for the
model and the public face.
"""

from __future__ import annotations

import math

import numba
import numpy as np

_S_NODES, _S_WEIGHTS = np.polynomial.legendre.leggauss(16)
_S_NODES = 0.5 * (_S_NODES + 1.0)
_S_WEIGHTS = 0.5 * _S_WEIGHTS
_PACE_NODES, _PACE_WEIGHTS = np.polynomial.legendre.leggauss(6)
_PACE_NODES = 0.5 * (_PACE_NODES + 1.0)
_PACE_WEIGHTS = 0.5 * _PACE_WEIGHTS
_LINE_Z, _LINE_W = np.polynomial.hermite_e.hermegauss(4)
_LINE_W = _LINE_W / _LINE_W.sum()

_REACH_SD = 6.0
_TAIL_SD = 4.0
_SMALLEST_SD = 1e-6
_SWEEPS = 1

_LEAVE_STEP_M = 0.25
LEAVE_GRID_M = np.maximum(_LEAVE_STEP_M * np.arange(21), 0.02)
"""Distances at which a pattern's own expected putts are solved for, in equal steps to 5 m."""

_CDF_STEP = 1.0 / 512.0
_CDF = 0.5 * (1.0 + np.array([math.erf(z * _CDF_STEP / math.sqrt(2.0)) for z in range(3074)]))

_jit = numba.njit(cache=True, nogil=True, fastmath=False, error_model="numpy")


@_jit
def _normal_cdf(z):
    """Standard normal distribution from a table, within 1.2e-7; libm's erfc is ten times slower."""
    x = min(abs(z), 6.0) / _CDF_STEP
    i = int(x)
    p = _CDF[i] + (x - i) * (_CDF[i + 1] - _CDF[i])
    return p if z >= 0.0 else 1.0 - p


@_jit
def _interpolated(leave, value):
    """Value at a leave, straight between grid points; one beyond the grid goes on as it ends."""
    x = leave / _LEAVE_STEP_M
    i = min(int(x), value.size - 2)
    return value[i] + (x - i) * (value[i + 1] - value[i])


@_jit
def _half_width(speed, v_max, width_table):
    """Effective half width of the hole by linear interpolation in sqrt(1 - v/v_max)."""
    x = math.sqrt(max(1.0 - speed / v_max, 0.0)) * (width_table.size - 1)
    i = min(int(x), width_table.size - 2)
    return width_table[i] + (x - i) * (width_table[i + 1] - width_table[i])


@_jit
def _holed_nodes(
    distance, line_sd, line_bias, roll_mean, roll_sd, deceleration, v_max, width_table, past, mass
):
    """Fill ``past`` and ``mass`` at the pace nodes the hole can take; return the chance to hole."""
    mean = roll_mean - distance
    window = v_max * v_max / (2.0 * deceleration)
    low = min(max(mean - _REACH_SD * roll_sd, 0.0), window)
    high = min(max(mean + _REACH_SD * roll_sd, 0.0), window)
    s_low = math.sqrt(1.0 - math.sqrt(high / window))
    s_span = math.sqrt(1.0 - math.sqrt(low / window)) - s_low
    chance = 0.0
    for k in range(_S_NODES.size):
        s = s_low + s_span * _S_NODES[k]
        speed = v_max * (1.0 - s * s)
        past[k] = speed * speed / (2.0 * deceleration)
        z = (past[k] - mean) / roll_sd
        density = math.exp(-0.5 * z * z) / (2.5066282746310002 * roll_sd)
        reach = min(_half_width(speed, v_max, width_table) / distance, 1.0)
        angle = math.asin(reach) if reach > 0.1 else reach * (1.0 + reach * reach / 6.0)
        on_line = _normal_cdf((angle - line_bias) / line_sd) - _normal_cdf(
            (-angle - line_bias) / line_sd
        )
        weight = s_span * _S_WEIGHTS[k] * 2.0 * v_max * s * speed / deceleration
        mass[k] = weight * density * on_line
        chance += mass[k]
    return min(chance, 1.0)


@_jit
def _missed_value(distance, line_sd, line_bias, roll_mean, roll_sd, value):
    """Mean expected putts from where the ball would stop, were there no hole.

    The leave has a kink where a putt would stop level with the hole, so the
    paces short of it and past it are integrated apart.
    """
    z_level = min(max((distance - roll_mean) / roll_sd, -_TAIL_SD), _TAIL_SD)
    sines = np.empty(_LINE_Z.size)
    for j in range(_LINE_Z.size):
        sines[j] = math.sin(line_bias + line_sd * _LINE_Z[j])
    total = 0.0
    weights = 0.0
    for side in range(2):
        z_low, z_span = (
            (-_TAIL_SD, z_level + _TAIL_SD) if side == 0 else (z_level, _TAIL_SD - z_level)
        )
        for k in range(_PACE_NODES.size):
            z = z_low + z_span * _PACE_NODES[k]
            weight = z_span * _PACE_WEIGHTS[k] * math.exp(-0.5 * z * z)
            weights += weight
            roll = max(roll_mean + roll_sd * z, 0.02 * distance)
            total += weight * _value_along(distance, sines, roll, value)
    return total / weights


@_jit
def _value_along(distance, sines, roll, value):
    """Mean expected putts over the start lines, by their sines, of a putt that rolls ``roll``."""
    mean = 0.0
    for j in range(_LINE_Z.size):
        sine = sines[j]
        along = roll * (1.0 - 0.5 * sine * sine) - distance
        aside = roll * sine
        mean += _LINE_W[j] * _interpolated(math.sqrt(along * along + aside * aside), value)
    return mean


@_jit
def _expected(i, distances, line_sd, line_bias, roll_mean, roll_sd, make, past, mass, value):
    """Expected putts from distance ``i``, given the value of what is left."""
    total = _missed_value(distances[i], line_sd[i], line_bias, roll_mean[i], roll_sd[i], value)
    for k in range(past.shape[1]):
        total -= mass[i, k] * _interpolated(past[i, k], value)
    return 1.0 + max(total, 1.0 - make[i])


@_jit
def _putt(distance, start_sd, pace_sd, pace_bias, planned_past, noise):
    """Spread of the line, mean and spread of the roll of a putt, what is misread included."""
    read = math.hypot(noise[0], noise[1] * math.sqrt(distance))
    line_sd = max(math.hypot(start_sd, read), _SMALLEST_SD)
    meant = distance + planned_past
    roll_sd = max(math.hypot(pace_sd, noise[2]) * meant, _SMALLEST_SD)
    return line_sd, meant * (1.0 + pace_bias), roll_sd


@_jit
def _solve(
    distances,
    start_sd,
    start_bias,
    pace_sd,
    pace_bias,
    planned_past,
    noise,
    deceleration,
    v_max,
    width_table,
    make,
    putts,
):
    """One pattern: chance to hole and expected putts at ``distances``, written in place."""
    nodes = _S_NODES.size
    n = distances.size
    past = np.empty((n, nodes))
    mass = np.empty((n, nodes))
    line_sd = np.empty(n)
    roll_mean = np.empty(n)
    roll_sd = np.empty(n)
    for i in range(n):
        d = distances[i]
        line_sd[i], roll_mean[i], roll_sd[i] = _putt(
            d, start_sd, pace_sd, pace_bias, planned_past, noise
        )
        make[i] = _holed_nodes(
            d,
            line_sd[i],
            start_bias,
            roll_mean[i],
            roll_sd[i],
            deceleration,
            v_max,
            width_table,
            past[i],
            mass[i],
        )
    grid = LEAVE_GRID_M.size
    value = 2.0 - make[:grid]
    # Short putts first, each from those already solved: leaves are mostly shorter still.
    for _ in range(_SWEEPS):
        for i in range(grid):
            value[i] = _expected(
                i, distances, line_sd, start_bias, roll_mean, roll_sd, make, past, mass, value
            )
    for i in range(grid, n):
        putts[i - grid] = _expected(
            i, distances, line_sd, start_bias, roll_mean, roll_sd, make, past, mass, value
        )


@_jit
def solve_patterns(
    distances,
    start_sd,
    start_bias,
    pace_sd,
    pace_bias,
    planned_past,
    noise,
    deceleration,
    v_max,
    width_table,
    make,
    putts,
):
    """Chance to hole and expected putts, ``(n, k)`` each, for ``n`` patterns at ``k`` distances."""
    grid = LEAVE_GRID_M.size
    everywhere = np.concatenate((LEAVE_GRID_M, distances))
    make_everywhere = np.empty(everywhere.size)
    for i in range(start_sd.size):
        _solve(
            everywhere,
            start_sd[i],
            start_bias[i],
            pace_sd[i],
            pace_bias[i],
            planned_past,
            noise,
            deceleration,
            v_max,
            width_table,
            make_everywhere,
            putts[i],
        )
        make[i, :] = make_everywhere[grid:]


@_jit
def chances_of_patterns(
    distances,
    start_sd,
    start_bias,
    pace_sd,
    pace_bias,
    planned_past,
    noise,
    deceleration,
    v_max,
    width_table,
    make,
):
    """Chance to hole alone, ``(n, k)``: what is left of a miss need not be known for it."""
    past = np.empty(_S_NODES.size)
    mass = np.empty(_S_NODES.size)
    for i in range(start_sd.size):
        for k in range(distances.size):
            d = distances[k]
            line_sd, roll_mean, roll_sd = _putt(
                d, start_sd[i], pace_sd[i], pace_bias[i], planned_past, noise
            )
            make[i, k] = _holed_nodes(
                d,
                line_sd,
                start_bias[i],
                roll_mean,
                roll_sd,
                deceleration,
                v_max,
                width_table,
                past,
                mass,
            )

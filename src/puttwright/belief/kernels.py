"""The Gibbs sampler of :mod:`puttwright.belief.model`, compiled: one chain per call.

All kernels of the call tree stand in this file, because the compiler's cache
is keyed by the file. Locations and the weights of the t distribution are drawn
from their full conditionals; the scales that pool them are moved with the
locations integrated out, which is what keeps few groups from sticking.
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numba
import numpy as np
from numpy.typing import NDArray

# numpy's error model: a proposal that overflows or divides by zero has density nan and is refused
_jit = numba.njit(cache=True, nogil=True, error_model="numpy")

# columns of the hyperparameters of a quantity
EFFECT, STRENGTH, CENTRE, SPREAD_EFFECT, DRIFT, GAMMA, NU = range(7)
# columns of the prior scales of a quantity
COMMON_SD, EFFECT_SD, STRENGTH_SD, CENTRE_MEAN, CENTRE_SD, SPREAD_EFFECT_SD, DRIFT_SD = range(7)
GAMMA_MEAN, GAMMA_SD = 7, 8
# working space
LOWER, JOINT, PRECISION = range(3)
EXPECTED, SIDE, HALF, NOISE, TRIAL = range(5)


class Given(NamedTuple):
    """What a chain reads: structure, priors and readings of all quantities.

    Readings lie quantity by quantity and group by group; those of group ``b`` of
    quantity ``q`` are ``bounds[q, b]`` up to ``bounds[q, b + 1]``. ``parent`` is the
    number of the quantity it follows, or -1.
    """

    nu_grid: NDArray[np.float64]
    bounds: NDArray[np.int64]
    parent: NDArray[np.int64]
    scales: NDArray[np.float64]
    mean: NDArray[np.float64]
    levers: NDArray[np.float64]
    offset: NDArray[np.float64]
    low: NDArray[np.float64]
    high: NDArray[np.float64]
    censored: NDArray[np.bool_]
    group: NDArray[np.int64]
    order: NDArray[np.float64]
    instrument_var: NDArray[np.float64]


class State(NamedTuple):
    """What a chain moves; all after ``fitted`` is steps and working space."""

    value: NDArray[np.float64]
    location: NDArray[np.float64]
    log_spread: NDArray[np.float64]
    hyper: NDArray[np.float64]
    weight: NDArray[np.float64]
    fitted: NDArray[np.float64]
    steps: NDArray[np.float64]
    data_precision: NDArray[np.float64]
    data_pull: NDArray[np.float64]
    matrices: NDArray[np.float64]
    vectors: NDArray[np.float64]


@_jit
def _cholesky(matrix, lower):
    """Lower triangle of ``matrix`` into ``lower``; returns the log determinant."""
    n = matrix.shape[0]
    log_det = 0.0
    for i in range(n):
        for j in range(i + 1):
            total = matrix[i, j]
            for k in range(j):
                total -= lower[i, k] * lower[j, k]
            if i == j:
                total = math.sqrt(max(total, 1e-300))
                lower[i, i] = total
                log_det += 2.0 * math.log(total)
            else:
                lower[i, j] = total / lower[j, j]
    return log_det


@_jit
def _solve_lower(lower, b, x):
    for i in range(b.size):
        total = b[i]
        for k in range(i):
            total -= lower[i, k] * x[k]
        x[i] = total / lower[i, i]


@_jit
def _solve_upper(lower, b, x):
    for i in range(b.size - 1, -1, -1):
        total = b[i]
        for k in range(i + 1, b.size):
            total -= lower[k, i] * x[k]
        x[i] = total / lower[i, i]


@_jit
def _precision(effect, strength, common_sd, levers, lower, precision):
    """Inverse of the locations' prior covariance; returns the covariance's log determinant."""
    n = levers.shape[0]
    for i in range(n):
        for j in range(n):
            precision[i, j] = common_sd * common_sd + strength * strength * levers[i, j]
        precision[i, i] += effect * effect
    log_det = _cholesky(precision, lower)
    unit = np.zeros(n)
    half = np.empty(n)
    column = np.empty(n)
    for j in range(n):
        unit[j] = 1.0
        _solve_lower(lower, unit, half)
        _solve_upper(lower, half, column)
        for i in range(n):
            precision[i, j] = column[i]
        unit[j] = 0.0
    return log_det


@_jit
def _marginal(given, state, q, log_effect, log_strength):
    """Log density of the pooling scales with the locations integrated out.

    Leaves the posterior precision's Cholesky factor in ``matrices[JOINT]`` and, solved
    by it, the pull on the locations in ``vectors[HALF]``, for drawing the locations.
    """
    scales, mean = given.scales[q], state.vectors[EXPECTED]
    lower, joint = state.matrices[LOWER], state.matrices[JOINT]
    precision = state.matrices[PRECISION]
    side, half = state.vectors[SIDE], state.vectors[HALF]
    effect, strength = math.exp(log_effect), math.exp(log_strength)
    n = mean.size
    log_det = _precision(effect, strength, scales[COMMON_SD], given.levers[q], lower, precision)
    quadratic = 0.0
    for i in range(n):
        pull = 0.0
        for j in range(n):
            pull += precision[i, j] * mean[j]
        quadratic += mean[i] * pull
        side[i] = pull + state.data_pull[i]
    for i in range(n):
        for j in range(n):
            lower[i, j] = precision[i, j] + state.data_precision[i, j]
    log_det += _cholesky(lower, joint)
    _solve_lower(joint, side, half)
    gain = 0.0
    for i in range(n):
        gain += half[i] * half[i]
    value = -0.5 * log_det + 0.5 * gain - 0.5 * quadratic
    value += log_effect - 0.5 * (effect / scales[EFFECT_SD]) ** 2
    if scales[STRENGTH_SD] > 0.0:
        value += log_strength - 0.5 * (strength / scales[STRENGTH_SD]) ** 2
    return value


@_jit
def _variance(given, state, q, i):
    """Variance of a reading before its t weight."""
    return math.exp(2.0 * state.log_spread[q, given.group[i]]) + given.instrument_var[i]


@_jit
def _fit(given, state, q):
    for i in range(given.bounds[q, 0], given.bounds[q, -1]):
        state.fitted[i] = state.location[q, given.group[i]] + state.hyper[q, DRIFT] * given.order[i]


@_jit
def _draw_censored(rng, given, state, q):
    """Readings seen only as intervals: one slice-sampling step inside each."""
    for i in range(given.bounds[q, 0], given.bounds[q, -1]):
        if given.censored[i]:
            sd = math.sqrt(_variance(given, state, q, i) / state.weight[i])
            z = (state.value[i] - state.fitted[i]) / sd
            reach = math.sqrt(max(z * z - 2.0 * math.log(1.0 - rng.random()), 0.0))
            bottom = max(given.low[i], state.fitted[i] - sd * reach)
            top = min(given.high[i], state.fitted[i] + sd * reach)
            state.value[i] = bottom + (top - bottom) * rng.random()


@_jit
def _t_log_constant(nu):
    return math.lgamma(0.5 * (nu + 1.0)) - math.lgamma(0.5 * nu) - 0.5 * math.log(nu)


@_jit
def _group_density(given, state, q, b, log_spread, nu):
    """Log density of a group's readings with the t weights integrated out, less a constant of nu.

    Products are gathered eight at a time so that one logarithm serves for eight readings.
    """
    own = math.exp(2.0 * log_spread)
    total = 0.0
    widths, tails = 1.0, 1.0
    first, last = given.bounds[q, b], given.bounds[q, b + 1]
    for i in range(first, last):
        variance = own + given.instrument_var[i]
        r = state.value[i] - state.fitted[i]
        widths *= variance
        tails *= 1.0 + r * r / (nu * variance)
        if (i - first) % 8 == 7 or i == last - 1:
            if not widths > 0.0:  # a spread too small to compute with is no spread
                return -np.inf
            total -= 0.5 * math.log(widths) + 0.5 * (nu + 1.0) * math.log(tails)
            widths, tails = 1.0, 1.0
    return total


@_jit
def _whole_density(given, state, q, log_spread, nu):
    total = 0.0
    for b in range(log_spread.size):
        total += _group_density(given, state, q, b, log_spread[b], nu)
    return total


@_jit
def _nu(given, state, q):
    return given.nu_grid[int(state.hyper[q, NU])]


@_jit
def _move_nu(rng, given, state, q):
    """Move the tail weight to a neighbour on its grid."""
    now = int(state.hyper[q, NU])
    new = now + (1 if rng.random() < 0.5 else -1)
    if new < 0 or new >= given.nu_grid.size:
        return
    old_nu, new_nu = given.nu_grid[now], given.nu_grid[new]
    spread = state.log_spread[q]
    readings = given.bounds[q, -1] - given.bounds[q, 0]
    gain = readings * (_t_log_constant(new_nu) - _t_log_constant(old_nu))
    gain += _whole_density(given, state, q, spread, new_nu)
    gain -= _whole_density(given, state, q, spread, old_nu)
    if math.log(1.0 - rng.random()) < gain:
        state.hyper[q, NU] = new


@_jit
def _draw_weights(rng, given, state, q):
    nu = _nu(given, state, q)
    for i in range(given.bounds[q, 0], given.bounds[q, -1]):
        r = state.value[i] - state.fitted[i]
        rate = 0.5 * (nu + r * r / _variance(given, state, q, i))
        state.weight[i] = rng.standard_gamma(0.5 * (nu + 1.0)) / rate


@_jit
def _draw_drift(rng, given, state, q):
    if given.scales[q, DRIFT_SD] <= 0.0:
        return
    precision = 1.0 / given.scales[q, DRIFT_SD] ** 2
    pull = 0.0
    for i in range(given.bounds[q, 0], given.bounds[q, -1]):
        w = state.weight[i] * given.order[i] / _variance(given, state, q, i)
        precision += w * given.order[i]
        pull += w * (state.value[i] - state.location[q, given.group[i]])
    state.hyper[q, DRIFT] = pull / precision + rng.standard_normal() / math.sqrt(precision)


@_jit
def _gather(given, state, q):
    """What the readings say of each location, as precision and pull."""
    state.data_precision[:] = 0.0
    state.data_pull[:] = 0.0
    for i in range(given.bounds[q, 0], given.bounds[q, -1]):
        b = given.group[i]
        w = state.weight[i] / _variance(given, state, q, i)
        state.data_precision[b, b] += w
        state.data_pull[b] += w * (state.value[i] - state.hyper[q, DRIFT] * given.order[i])


@_jit
def _own_precision(given, state, q):
    """Prior precision of a quantity's locations, into ``matrices[PRECISION]``."""
    _precision(
        state.hyper[q, EFFECT],
        state.hyper[q, STRENGTH],
        given.scales[q, COMMON_SD],
        given.levers[q],
        state.matrices[LOWER],
        state.matrices[PRECISION],
    )


@_jit
def _add_children(given, state, q):
    """What quantities that follow this one say of its locations."""
    n = given.mean.shape[1]
    for child in range(given.parent.size):
        if given.parent[child] == q:
            _own_precision(given, state, child)
            gamma = state.hyper[child, GAMMA]
            for i in range(n):
                for j in range(n):
                    w = gamma * state.matrices[PRECISION, i, j]
                    state.data_precision[i, j] += gamma * w
                    state.data_pull[i] += w * (state.location[child, j] - given.mean[child, j])


@_jit
def _adapt(step, accepted, target, rate):
    wanted = step * math.exp(rate * ((1.0 if accepted else 0.0) - target))
    return min(max(wanted, 0.01), 5.0)


@_jit
def _move_scales_and_locations(rng, given, state, q, rate):
    """Pooling scales with the locations integrated out, then the locations given them."""
    n = given.mean.shape[1]
    for i in range(n):
        state.vectors[EXPECTED, i] = given.mean[q, i]
        if given.parent[q] >= 0:
            state.vectors[EXPECTED, i] += state.hyper[q, GAMMA] * state.location[given.parent[q], i]
    effect, strength = math.log(state.hyper[q, EFFECT]), math.log(state.hyper[q, STRENGTH])
    moves_strength = given.scales[q, STRENGTH_SD] > 0.0
    least = math.log(given.scales[q, EFFECT_SD]) - 9.0
    now = _marginal(given, state, q, effect, strength)
    for _ in range(3):
        new_effect = effect + state.steps[q, 0] * rng.standard_normal()
        new_strength = strength
        if moves_strength:
            new_strength += state.steps[q, 0] * rng.standard_normal()
        if new_effect < least or (moves_strength and new_strength < -9.0):
            continue
        new = _marginal(given, state, q, new_effect, new_strength)
        accepted = math.log(1.0 - rng.random()) < new - now
        if accepted:
            effect, strength, now = new_effect, new_strength, new
        state.steps[q, 0] = _adapt(state.steps[q, 0], accepted, 0.35, rate)
    state.hyper[q, EFFECT] = math.exp(effect)
    state.hyper[q, STRENGTH] = math.exp(strength)
    _marginal(given, state, q, effect, strength)
    for i in range(n):
        state.vectors[NOISE, i] = rng.standard_normal() + state.vectors[HALF, i]
    _solve_upper(state.matrices[JOINT], state.vectors[NOISE], state.location[q])


@_jit
def _draw_gamma(rng, given, state, q):
    """How much of the parent's location this quantity follows, given both."""
    parent = given.parent[q]
    if parent < 0:
        return
    _own_precision(given, state, q)
    precision = 1.0 / given.scales[q, GAMMA_SD] ** 2
    pull = precision * given.scales[q, GAMMA_MEAN]
    n = given.mean.shape[1]
    for i in range(n):
        for j in range(n):
            w = state.location[parent, i] * state.matrices[PRECISION, i, j]
            precision += w * state.location[parent, j]
            pull += w * (state.location[q, j] - given.mean[q, j])
    state.hyper[q, GAMMA] = pull / precision + rng.standard_normal() / math.sqrt(precision)


@_jit
def _move_spreads(rng, given, state, q, rate):
    """Each group's log spread, by random walk on its own readings and the pool."""
    nu = _nu(given, state, q)
    tight = 0.5 / state.hyper[q, SPREAD_EFFECT] ** 2
    for b in range(given.offset.shape[1]):
        centre = state.hyper[q, CENTRE] + given.offset[q, b]
        x = state.log_spread[q, b]
        now = _group_density(given, state, q, b, x, nu) - tight * (x - centre) ** 2
        for _ in range(3):
            trial = x + state.steps[q, 3 + b] * rng.standard_normal()
            new = _group_density(given, state, q, b, trial, nu) - tight * (trial - centre) ** 2
            accepted = math.log(1.0 - rng.random()) < new - now
            if accepted:
                x, now = trial, new
            state.steps[q, 3 + b] = _adapt(state.steps[q, 3 + b], accepted, 0.44, rate)
        state.log_spread[q, b] = x


@_jit
def _draw_centre(rng, given, state, q):
    tight = 1.0 / state.hyper[q, SPREAD_EFFECT] ** 2
    precision = 1.0 / given.scales[q, CENTRE_SD] ** 2
    pull = precision * given.scales[q, CENTRE_MEAN]
    for b in range(given.offset.shape[1]):
        precision += tight
        pull += tight * (state.log_spread[q, b] - given.offset[q, b])
    state.hyper[q, CENTRE] = pull / precision + rng.standard_normal() / math.sqrt(precision)


@_jit
def _shift_spreads(rng, given, state, q, rate):
    """Move the centre of the spreads and carry all of them along."""
    shift = state.steps[q, 1] * rng.standard_normal()
    trial = state.vectors[TRIAL]
    trial[:] = state.log_spread[q] + shift
    now = _whole_density(given, state, q, state.log_spread[q], _nu(given, state, q))
    new = _whole_density(given, state, q, trial, _nu(given, state, q))
    old = (state.hyper[q, CENTRE] - given.scales[q, CENTRE_MEAN]) / given.scales[q, CENTRE_SD]
    moved = old + shift / given.scales[q, CENTRE_SD]
    accepted = math.log(1.0 - rng.random()) < new - now + 0.5 * (old**2 - moved**2)
    if accepted:
        state.hyper[q, CENTRE] += shift
        state.log_spread[q] = trial
    state.steps[q, 1] = _adapt(state.steps[q, 1], accepted, 0.44, rate)


@_jit
def _stretch_spreads(rng, given, state, q, rate):
    """Widen or narrow the pool of spreads and carry all of them along."""
    log_step = state.steps[q, 2] * rng.standard_normal()
    factor = math.exp(log_step)
    trial = state.vectors[TRIAL]
    for b in range(trial.size):
        middle = state.hyper[q, CENTRE] + given.offset[q, b]
        trial[b] = middle + (state.log_spread[q, b] - middle) * factor
    now = _whole_density(given, state, q, state.log_spread[q], _nu(given, state, q))
    new = _whole_density(given, state, q, trial, _nu(given, state, q))
    scale = given.scales[q, SPREAD_EFFECT_SD]
    width = state.hyper[q, SPREAD_EFFECT]
    prior = 0.5 * (width / scale) ** 2 * (1.0 - factor * factor) + log_step
    wide_enough = width * factor > 1e-4 * scale
    accepted = wide_enough and math.log(1.0 - rng.random()) < new - now + prior
    if accepted:
        state.hyper[q, SPREAD_EFFECT] = width * factor
        state.log_spread[q] = trial
    state.steps[q, 2] = _adapt(state.steps[q, 2], accepted, 0.44, rate)


@_jit
def _move_spread_width(rng, given, state, q):
    """Move the width of the pool of spreads, the spreads staying."""
    n = given.offset.shape[1]
    squares = 0.0
    for b in range(n):
        middle = state.hyper[q, CENTRE] + given.offset[q, b]
        squares += (state.log_spread[q, b] - middle) ** 2
    scale = given.scales[q, SPREAD_EFFECT_SD]
    width = state.hyper[q, SPREAD_EFFECT]
    log_step = rng.standard_normal()
    new = width * math.exp(log_step)
    gain = (1.0 - n) * log_step - 0.5 * squares * (1.0 / new**2 - 1.0 / width**2)
    gain += 0.5 * ((width / scale) ** 2 - (new / scale) ** 2)
    if new > 1e-4 * scale and math.log(1.0 - rng.random()) < gain:
        state.hyper[q, SPREAD_EFFECT] = new


@_jit
def _sweep(rng, given, state, q, rate):
    """Every move of one quantity, once: spreads and tails without the t weights, then the rest."""
    _fit(given, state, q)
    _draw_censored(rng, given, state, q)
    _move_nu(rng, given, state, q)
    for _ in range(2):
        _move_spreads(rng, given, state, q, rate)
        _draw_centre(rng, given, state, q)
        _shift_spreads(rng, given, state, q, rate)
        _stretch_spreads(rng, given, state, q, rate)
        _move_spread_width(rng, given, state, q)
    _draw_weights(rng, given, state, q)
    _draw_drift(rng, given, state, q)
    _gather(given, state, q)
    _add_children(given, state, q)
    _move_scales_and_locations(rng, given, state, q, rate)
    _draw_gamma(rng, given, state, q)


@_jit
def run_chain(rng, warm_up, given, state, out_location, out_spread, out_hyper):
    """Run ``warm_up`` sweeps, adapting steps, then as many as the outputs have rows."""
    draws = out_location.shape[0]
    for sweep in range(warm_up + draws):
        rate = 3.0 / (10.0 + sweep) ** 0.7 if sweep < warm_up else 0.0
        for q in range(given.parent.size):
            _sweep(rng, given, state, q, rate)
        if sweep >= warm_up:
            out_location[sweep - warm_up] = state.location
            out_spread[sweep - warm_up] = np.exp(state.log_spread)
            out_hyper[sweep - warm_up] = state.hyper

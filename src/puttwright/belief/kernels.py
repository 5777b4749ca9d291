"""The Gibbs sampler of :mod:`puttwright.belief.model`, compiled: one chain per call.

All kernels of the call tree but those of
:mod:`puttwright.belief.triangular_kernels` stand in this file, because the
compiler's cache is keyed by the file. Locations and the weights of the t
distribution are drawn from their full conditionals; the scales that pool them are
moved with the locations integrated out, which is what keeps few groups from sticking.
"""

from __future__ import annotations

import math

import numba
import numpy as np

from puttwright.belief.triangular_kernels import cholesky, inverse, solve_lower, solve_upper

# numpy's error model: a proposal that overflows or divides by zero has density nan and is refused
_jit = numba.njit(cache=True, nogil=True, error_model="numpy")

# columns of the hyperparameters of a quantity
EFFECT, STRENGTH, CENTRE, SPREAD_EFFECT, DRIFT, GAMMA, NU = range(7)
# columns of the prior scales of a quantity
COMMON_SD, EFFECT_SD, STRENGTH_SD, CENTRE_MEAN, CENTRE_SD, SPREAD_EFFECT_SD, DRIFT_SD = range(7)
GAMMA_MEAN, GAMMA_SD = 7, 8
# working space
LOWER, JOINT, OTHER_LOWER, OTHER_JOINT, PRODUCT, PRECISION = range(6)
HALF, OTHER_HALF, EXPECTED, SIDE, NOISE, TRIAL, DENSITY, TRIAL_DENSITY = range(8)

_LEAST = 1e-4  # of its prior scale: narrower pools cannot be computed with, nor told apart


@_jit
def _prior_root(effect, strength, common_sd, levers, covariance, lower):
    """Cholesky factor of the locations' prior covariance."""
    for i in range(levers.shape[0]):
        for j in range(i + 1):
            covariance[i, j] = common_sd * common_sd + strength * strength * levers[i, j]
        covariance[i, i] += effect * effect
    cholesky(covariance, lower)


@_jit
def _followed(given, q):
    """Whether another quantity follows this one, so that its groups are not told apart alone."""
    return (given.parent == q).any()


@_jit
def _times_precision(precision, lower, full, product):
    """``precision @ lower`` into ``product``; a precision that is not ``full`` is diagonal."""
    n = lower.shape[0]
    for i in range(n):
        for j in range(n):
            product[i, j] = 0.0
            if full:
                for k in range(j, n):
                    product[i, j] += precision[i, k] * lower[k, j]
            elif j <= i:
                product[i, j] = precision[i, i] * lower[i, j]


@_jit
def _marginal(given, state, q, slot, effect, strength):
    """Log density of the readings given the pooling scales, the locations integrated out.

    Locations are ``expected + lower u`` with standard normal ``u``. Leaves ``lower``, the
    Cholesky factor of u's posterior precision and, solved by it, the pull on u in the
    working space of ``slot``, 0 or 1, for drawing the locations.
    """
    scales = given.scales[q]
    lower, joint = state.matrices[2 * slot + LOWER], state.matrices[2 * slot + JOINT]
    product, half = state.matrices[PRODUCT], state.vectors[slot]
    pull = state.vectors[NOISE]
    n = half.size
    _prior_root(effect, strength, scales[COMMON_SD], given.levers[q], product, lower)
    _times_precision(state.data_precision, lower, _followed(given, q), product)
    for j in range(n):
        pull[j] = 0.0
        for k in range(j, n):
            pull[j] += lower[k, j] * state.vectors[SIDE, k]
    precision = state.matrices[PRECISION]
    for i in range(n):
        for j in range(i + 1):
            precision[i, j] = 1.0 if i == j else 0.0
            for k in range(i, n):
                precision[i, j] += lower[k, i] * product[k, j]
    value = -0.5 * cholesky(precision, joint)
    solve_lower(joint, pull, half)
    for i in range(n):
        value += 0.5 * half[i] * half[i]
    return value


@_jit
def _fit(given, state, q):
    for i in range(given.bounds[q, 0], given.bounds[q, -1]):
        state.fitted[i] = state.location[q, given.group[i]] + state.hyper[q, DRIFT] * given.order[i]


@_jit
def _draw_censored(rng, given, state, q):
    """Readings that were not read themselves, given all else."""
    for i in range(given.bounds[q, 0], given.bounds[q, -1]):
        if given.censored[i]:
            sd = 1.0 / math.sqrt(state.precision[i])
            if given.partner[i] >= 0:
                _draw_outside(rng, given, state, i, sd)
            else:
                _draw_inside(rng, given, state, i, sd)


@_jit
def _draw_inside(rng, given, state, i, sd):
    """One slice-sampling step inside the limits."""
    z = (state.value[i] - state.fitted[i]) / sd
    reach = math.sqrt(max(z * z - 2.0 * math.log(1.0 - rng.random()), 0.0))
    bottom = max(given.low[i], state.fitted[i] - sd * reach)
    top = min(given.high[i], state.fitted[i] + sd * reach)
    state.value[i] = bottom + (top - bottom) * rng.random()


@_jit
def _draw_outside(rng, given, state, i, sd):
    """Anywhere if the partner is outside its limits, else outside one's own.

    Where nearly all lies inside, no draw is accepted and the reading stays for now.
    """
    j = given.partner[i]
    free = not given.low[j] < state.value[j] < given.high[j]
    for _ in range(20):
        drawn = state.fitted[i] + sd * rng.standard_normal()
        if free or not given.low[i] < drawn < given.high[i]:
            state.value[i] = drawn
            return


@_jit
def _t_log_constant(nu):
    return math.lgamma(0.5 * (nu + 1.0)) - math.lgamma(0.5 * nu) - 0.5 * math.log(nu)


@_jit
def _group_density(given, state, q, b, log_spread, nu):
    """Log density of a group's readings with the t weights integrated out, less a constant of nu.

    Products are gathered sixteen at a time so that one logarithm serves for sixteen readings.
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
        if (i - first) % 16 == 15 or i == last - 1:
            if not widths > 0.0:  # a spread too small to compute with is no spread
                return -np.inf
            total -= 0.5 * math.log(widths) + 0.5 * (nu + 1.0) * math.log(tails)
            widths, tails = 1.0, 1.0
    return total


@_jit
def _densities(given, state, q, log_spread, nu, density):
    """Density of each group's readings, written in place; returns their sum."""
    total = 0.0
    for b in range(log_spread.size):
        density[b] = _group_density(given, state, q, b, log_spread[b], nu)
        total += density[b]
    return total


@_jit
def _nu(given, state, q):
    return given.nu_grid[int(state.hyper[q, NU])]


@_jit
def _usual_log_scale(nu):
    """Scale of the t that fits normal readings of spread 1, roughly."""
    return -0.5 * math.log(1.0 + 1.6 / nu)


@_jit
def _move_tails_and_centre(rng, given, state, q, rate):
    """Shift all spreads with their centre and, every other time, change the tail weight.

    Heavy tails explain readings by a smaller scale, so a change of tails carries the scale.
    """
    now, new = int(state.hyper[q, NU]), int(state.hyper[q, NU])
    grid = given.nu_grid
    if rng.random() < 0.5:
        new = (now + 1 + int(rng.random() * (grid.size - 1))) % grid.size
    shift = state.steps[q, 1] * rng.standard_normal()
    shift += _usual_log_scale(grid[new]) - _usual_log_scale(grid[now])
    trial, density = state.vectors[TRIAL], state.vectors[TRIAL_DENSITY]
    trial[:] = state.log_spread[q] + shift
    readings = given.bounds[q, -1] - given.bounds[q, 0]
    gain = readings * (_t_log_constant(grid[new]) - _t_log_constant(grid[now]))
    gain += _densities(given, state, q, trial, grid[new], density) - state.vectors[DENSITY].sum()
    old = (state.hyper[q, CENTRE] - given.scales[q, CENTRE_MEAN]) / given.scales[q, CENTRE_SD]
    moved = old + shift / given.scales[q, CENTRE_SD]
    accepted = math.log(1.0 - rng.random()) < gain + 0.5 * (old**2 - moved**2)
    if accepted:
        state.hyper[q, NU] = new
        state.hyper[q, CENTRE] += shift
        state.log_spread[q] = trial
        state.vectors[DENSITY] = density
    if new == now:
        state.steps[q, 1] = _adapt(state.steps[q, 1], accepted, 0.44, rate)


@_jit
def _draw_weights(rng, given, state, q):
    """Weights of the t distribution, and with them each reading's precision."""
    nu = _nu(given, state, q)
    for b in range(given.offset.shape[1]):
        own = math.exp(2.0 * state.log_spread[q, b])
        for i in range(given.bounds[q, b], given.bounds[q, b + 1]):
            variance = own + given.instrument_var[i]
            r = state.value[i] - state.fitted[i]
            rate = 0.5 * (nu + r * r / variance)
            state.precision[i] = rng.standard_gamma(0.5 * (nu + 1.0)) / (rate * variance)


@_jit
def _draw_drift(rng, given, state, q):
    if given.scales[q, DRIFT_SD] <= 0.0:
        return
    precision = 1.0 / given.scales[q, DRIFT_SD] ** 2
    pull = 0.0
    for i in range(given.bounds[q, 0], given.bounds[q, -1]):
        w = state.precision[i] * given.order[i]
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
        w = state.precision[i]
        state.data_precision[b, b] += w
        state.data_pull[b] += w * (state.value[i] - state.hyper[q, DRIFT] * given.order[i])


@_jit
def _own_root(given, state, q):
    """Cholesky factor of a quantity's prior covariance, in ``matrices[LOWER]``."""
    effect, strength = state.hyper[q, EFFECT], state.hyper[q, STRENGTH]
    common_sd, lower = given.scales[q, COMMON_SD], state.matrices[LOWER]
    _prior_root(effect, strength, common_sd, given.levers[q], state.matrices[PRODUCT], lower)


@_jit
def _add_children(given, state, q):
    """What quantities that follow this one say of its locations."""
    n = given.mean.shape[1]
    for child in range(given.parent.size):
        if given.parent[child] == q:
            _own_root(given, state, child)
            precision, vectors = state.matrices[PRECISION], state.vectors
            inverse(state.matrices[LOWER], vectors[NOISE], vectors[HALF], precision)
            gamma = state.hyper[child, GAMMA]
            for i in range(n):
                for j in range(n):
                    w = gamma * precision[i, j]
                    state.data_precision[i, j] += gamma * w
                    state.data_pull[i] += w * (state.location[child, j] - given.mean[child, j])


@_jit
def _adapt(step, accepted, target, rate):
    wanted = step * math.exp(rate * ((1.0 if accepted else 0.0) - target))
    return min(max(wanted, 0.01), 5.0)


@_jit
def _log_half_normal(width, scale):
    """Log density of a width's logarithm when the width is half-normal."""
    return math.log(width) - 0.5 * (width / scale) ** 2


@_jit
def _other_scales(rng, given, state, q, move):
    """Another effect and strength, and what prior and proposal add to the gain.

    A step of both, or one of them drawn anew from its prior: a handful of builds say so
    little of either that such a draw is often taken.
    """
    effect, strength = state.hyper[q, EFFECT], state.hyper[q, STRENGTH]
    effect_sd, strength_sd = given.scales[q, EFFECT_SD], given.scales[q, STRENGTH_SD]
    if move == 1:
        return effect_sd * abs(rng.standard_normal()), strength, 0.0
    if move == 2 and strength_sd > 0.0:
        return effect, strength_sd * abs(rng.standard_normal()), 0.0
    new_effect = effect * math.exp(state.steps[q, 0] * rng.standard_normal())
    gain = _log_half_normal(new_effect, effect_sd) - _log_half_normal(effect, effect_sd)
    if not strength_sd > 0.0:
        return new_effect, strength, gain
    new_strength = strength * math.exp(state.steps[q, 0] * rng.standard_normal())
    gain += _log_half_normal(new_strength, strength_sd) - _log_half_normal(strength, strength_sd)
    return new_effect, new_strength, gain


@_jit
def _move_scales_and_locations(rng, given, state, q, rate):
    """Pooling scales with the locations integrated out, then the locations given them."""
    n = given.mean.shape[1]
    expected, side = state.vectors[EXPECTED], state.vectors[SIDE]
    expected[:] = given.mean[q]
    if given.parent[q] >= 0:
        expected += state.hyper[q, GAMMA] * state.location[given.parent[q]]
    side[:] = state.data_pull
    for i in range(n):
        for j in range(n):
            side[i] -= state.data_precision[i, j] * expected[j]
    least = _LEAST * given.scales[q, EFFECT_SD]
    slot = 0
    now = _marginal(given, state, q, slot, state.hyper[q, EFFECT], state.hyper[q, STRENGTH])
    for move in range(3):
        effect, strength, gain = _other_scales(rng, given, state, q, move)
        if effect < least:
            continue
        new = _marginal(given, state, q, 1 - slot, effect, strength)
        accepted = math.log(1.0 - rng.random()) < new - now + gain
        if accepted:
            now, slot = new, 1 - slot
            state.hyper[q, EFFECT], state.hyper[q, STRENGTH] = effect, strength
        if move == 0:
            state.steps[q, 0] = _adapt(state.steps[q, 0], accepted, 0.35, rate)
    _draw_locations(rng, state, q, slot)


@_jit
def _draw_locations(rng, state, q, slot):
    """Locations given all else, from what ``_marginal`` left in the slot."""
    lower, joint = state.matrices[2 * slot + LOWER], state.matrices[2 * slot + JOINT]
    half, u = state.vectors[slot], state.vectors[NOISE]
    for i in range(u.size):
        half[i] += rng.standard_normal()
    solve_upper(joint, half, u)
    for i in range(u.size):
        state.location[q, i] = state.vectors[EXPECTED, i]
        for k in range(i + 1):
            state.location[q, i] += lower[i, k] * u[k]


@_jit
def _draw_gamma(rng, given, state, q):
    """How much of the parent's location this quantity follows, given both."""
    parent = given.parent[q]
    if parent < 0:
        return
    _own_root(given, state, q)
    side, own, followed = state.vectors[SIDE], state.vectors[NOISE], state.vectors[HALF]
    side[:] = state.location[q] - given.mean[q]
    solve_lower(state.matrices[LOWER], side, own)
    solve_lower(state.matrices[LOWER], state.location[parent], followed)
    precision = 1.0 / given.scales[q, GAMMA_SD] ** 2
    pull = precision * given.scales[q, GAMMA_MEAN]
    for i in range(own.size):
        precision += followed[i] * followed[i]
        pull += followed[i] * own[i]
    state.hyper[q, GAMMA] = pull / precision + rng.standard_normal() / math.sqrt(precision)


@_jit
def _move_spreads(rng, given, state, q, rate):
    """Each group's log spread, by random walk on its own readings and the pool."""
    nu = _nu(given, state, q)
    tight = 0.5 / state.hyper[q, SPREAD_EFFECT] ** 2
    for b in range(given.offset.shape[1]):
        centre = state.hyper[q, CENTRE] + given.offset[q, b]
        x = state.log_spread[q, b]
        density = state.vectors[DENSITY, b]
        for _ in range(3):
            trial = x + state.steps[q, 3 + b] * rng.standard_normal()
            new = _group_density(given, state, q, b, trial, nu)
            pool = tight * ((x - centre) ** 2 - (trial - centre) ** 2)
            accepted = math.log(1.0 - rng.random()) < new - density + pool
            if accepted:
                x, density = trial, new
            state.steps[q, 3 + b] = _adapt(state.steps[q, 3 + b], accepted, 0.44, rate)
        state.log_spread[q, b] = x
        state.vectors[DENSITY, b] = density


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
def _stretch_spreads(rng, given, state, q, rate, anew):
    """Widen or narrow the pool of spreads and carry all of them along.

    By a step or, ``anew``, to a width drawn from its prior.
    """
    scale, width = given.scales[q, SPREAD_EFFECT_SD], state.hyper[q, SPREAD_EFFECT]
    if anew:
        factor, prior = scale * abs(rng.standard_normal()) / width, 0.0
    else:
        factor = math.exp(state.steps[q, 2] * rng.standard_normal())
        prior = _log_half_normal(width * factor, scale) - _log_half_normal(width, scale)
    trial, density = state.vectors[TRIAL], state.vectors[TRIAL_DENSITY]
    for b in range(trial.size):
        middle = state.hyper[q, CENTRE] + given.offset[q, b]
        trial[b] = middle + (state.log_spread[q, b] - middle) * factor
    gain = _densities(given, state, q, trial, _nu(given, state, q), density)
    gain -= state.vectors[DENSITY].sum()
    wide_enough = width * factor > _LEAST * scale
    accepted = wide_enough and math.log(1.0 - rng.random()) < gain + prior
    if accepted:
        state.hyper[q, SPREAD_EFFECT] = width * factor
        state.log_spread[q] = trial
        state.vectors[DENSITY] = density
    if not anew:
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
    for _ in range(4):
        log_step = rng.standard_normal()
        new = width * math.exp(log_step)
        gain = (1.0 - n) * log_step - 0.5 * squares * (1.0 / new**2 - 1.0 / width**2)
        gain += 0.5 * ((width / scale) ** 2 - (new / scale) ** 2)
        if new > _LEAST * scale and math.log(1.0 - rng.random()) < gain:
            width = new
    state.hyper[q, SPREAD_EFFECT] = width


@_jit
def _sweep(rng, given, state, q, rate):
    """Every move of one quantity, once: spreads and tails without the t weights, then the rest."""
    _fit(given, state, q)
    _draw_censored(rng, given, state, q)
    _densities(given, state, q, state.log_spread[q], _nu(given, state, q), state.vectors[DENSITY])
    _move_spreads(rng, given, state, q, rate)
    for anew in (False, True):
        _draw_centre(rng, given, state, q)
        _move_tails_and_centre(rng, given, state, q, rate)
        _stretch_spreads(rng, given, state, q, rate, anew)
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

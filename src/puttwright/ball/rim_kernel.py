"""A ball at the hole as a rigid body: green, rim, wall and floor, in small steps.

The green is the plane z = 0 with a round hole whose wall stands square to it; a
slope is a tilt of gravity. The ball meets whatever solid point is nearest: the
green, the sharp rim, the wall or the floor. Each meeting is an impulse along the
line to that point, with restitution when it comes in fast enough and Coulomb
friction that sticks or slides. Only this file is compiled, so its cache cannot
go stale behind another one's back.
"""

from __future__ import annotations

import math

import numpy as np
from numba import njit, prange

HOLED, MISSED, UNDECIDED = 1, 0, -1
_LIP_RIM, _LIP_HOLE = 2, 3


@njit(cache=True)
def _touch(ball, spin, restitution, nx, ny, nz, p):
    """Meet a solid point in direction -n with an impulse on ball and spin, if approaching."""
    radius, friction, slow = p[0], p[5], p[6]
    approach = ball[3] * nx + ball[4] * ny + ball[5] * nz
    if approach >= 0.0:
        return
    bounce = restitution if approach < -slow else 0.0
    push = -(1.0 + bounce) * approach
    # Surface velocity at the touching point, c = v + w x (-r n), less its normal part.
    cx = ball[3] - approach * nx - radius * (spin[1] * nz - spin[2] * ny)
    cy = ball[4] - approach * ny - radius * (spin[2] * nx - spin[0] * nz)
    cz = ball[5] - approach * nz - radius * (spin[0] * ny - spin[1] * nx)
    slip = math.sqrt(cx * cx + cy * cy + cz * cz)
    drag = 2.0 / 7.0
    if drag * slip > friction * push:
        drag = friction * push / slip
    fx, fy, fz = -drag * cx, -drag * cy, -drag * cz
    ball[3] += push * nx + fx
    ball[4] += push * ny + fy
    ball[5] += push * nz + fz
    # Torque of the friction at -r n on a uniform sphere: (5/2)/r (-n x f).
    turn = -2.5 / radius
    spin[0] += turn * (ny * fz - nz * fy)
    spin[1] += turn * (nz * fx - nx * fz)
    spin[2] += turn * (nx * fy - ny * fx)


@njit(cache=True)
def _contacts(ball, spin, p):
    """Resolve the contact with the nearest solid point and lift the ball off it."""
    radius, hole, depth = p[0], p[1], p[2]
    rho = math.sqrt(ball[0] * ball[0] + ball[1] * ball[1])
    if rho >= hole and ball[2] > 0.0:
        gap = ball[2] - radius
        if gap < 0.0:
            _touch(ball, spin, p[3], 0.0, 0.0, 1.0, p)
            ball[2] = radius
        return
    ex, ey = ball[0] / max(rho, 1e-12), ball[1] / max(rho, 1e-12)
    away = hole - rho
    above = max(ball[2], 0.0)
    near = math.sqrt(away * away + above * above)
    if near < radius and near > 0.0:
        nx, ny, nz = -ex * away / near, -ey * away / near, above / near
        _touch(ball, spin, p[3] if above > 0.0 else p[4], nx, ny, nz, p)
        lift = radius - near
        ball[0] += lift * nx
        ball[1] += lift * ny
        ball[2] += lift * nz
    if ball[2] + depth < radius:
        _touch(ball, spin, p[4], 0.0, 0.0, 1.0, p)
        ball[2] = radius - depth


@njit(cache=True)
def _fate(ball, lowest, p):
    """Whether the ball is down for good, out for good, or still at it."""
    radius, hole, depth = p[0], p[1], p[2]
    if ball[2] < 1.5 * radius - depth:
        return HOLED
    rho2 = ball[0] * ball[0] + ball[1] * ball[1]
    outward = ball[0] * ball[3] + ball[1] * ball[4]
    if outward > 0.0 and rho2 > (hole + 0.001) ** 2 and ball[2] >= 0.0:
        return _LIP_HOLE if lowest < 0.0 else (_LIP_RIM if lowest < 0.98 * radius else MISSED)
    return UNDECIDED


@njit(cache=True)
def drop(speed, offset, gravity, p, track):
    """Send one rolling ball over the rim along +x at ``offset`` along +y.

    ``gravity`` holds gx, gy, gz; ``p`` radius, hole radius, depth, restitution
    of the rim and of the wall, friction, slowest bounce, step, longest time. Rows
    of ``track`` are filled with t, x, y, z evenly in time. Returns (fate, lowest
    centre, time).
    """
    radius, hole, step = p[0], p[1], p[7]
    ball = np.array(
        [-math.sqrt(max(hole * hole - offset * offset, 0.0)), offset, radius, speed, 0.0, 0.0]
    )
    spin = np.array([0.0, speed / radius, 0.0])
    steps = int(p[8] / step)
    every = max(steps // max(len(track), 1), 1)
    lowest = radius
    for i in range(steps):
        if i % every == 0 and i // every < len(track):
            track[i // every, 0] = i * step
            track[i // every, 1:] = ball[:3]
        for axis in range(3):
            ball[axis] += step * (ball[axis + 3] + 0.5 * step * gravity[axis])
            ball[axis + 3] += step * gravity[axis]
        _contacts(ball, spin, p)
        lowest = min(lowest, ball[2])
        fate = _fate(ball, lowest, p)
        if fate != UNDECIDED:
            return fate, lowest, (i + 1) * step
    return (HOLED if ball[2] < 0.0 else MISSED), lowest, p[8]


@njit(cache=True, parallel=True)
def drop_all(speed, offset, gravity, p):
    """Fate of many balls: ``speed`` and ``offset`` (n,), ``gravity`` (n, 3)."""
    fates = np.empty(len(speed), np.int8)
    nothing = np.empty((0, 4))
    for i in prange(len(speed)):
        fates[i] = drop(speed[i], offset[i], gravity[i], p, nothing)[0]
    return fates

"""Compiled heart of side_view.py and roll_model.py: a putt through time and on film.

A putt is a row of stretches of constant acceleration. Everything that is compiled together stands
in this file, since numba's cache watches no other.
"""

from __future__ import annotations

import math

import numpy as np
from numba import njit

_MOST = 64
_T, _X, _V, _PULL, _TURNED, _W, _TWIST, _RISE, _FALLS = range(9)
_FAR = 7.0


@njit(cache=True)
def _land(now, landing, rise, friction, ratio):
    """Friction takes the slip, wholly if it can; ``now`` is time, place, speed, turned, surface."""
    slip = now[2] - ratio * now[4]
    push = min(friction * (landing + rise), abs(slip) / (1.0 + 2.5 * ratio))
    push = math.copysign(push, slip)
    now[2] -= push
    now[4] += 2.5 * push


@njit(cache=True)
def _move(now, table, count, seconds, pull, twist, rise, falls):
    """Go on for so long; ``pull`` and ``twist`` accelerate, ``rise`` and ``falls`` are up."""
    row = table[count]
    row[_T], row[_X], row[_V], row[_PULL], row[_TURNED] = now[0], now[1], now[2], pull, now[3]
    row[_W], row[_TWIST], row[_RISE], row[_FALLS] = now[4], twist, rise, falls
    now[1] += now[2] * seconds + 0.5 * pull * seconds**2
    now[3] += now[4] * seconds + 0.5 * twist * seconds**2
    now[2] += pull * seconds
    now[4] += twist * seconds
    now[0] += seconds
    return count + 1


@njit(cache=True)
def _stretches(strike, table, ends):
    """Fill ``table`` with the putt's stretches and ``ends`` with what it has once; how many.

    ``strike`` is along, rise, surface, deceleration, radius share, slide resistance, restitution,
    gravity, last hop and frictions; ``ends`` hop, skid's place and time, roll's start, total.
    """
    rise, brake, ratio, hold = strike[1], strike[3], strike[4], strike[5]
    throw, gravity, last, first = strike[6], strike[7], strike[8], strike[9]
    now = np.array([0.0, 0.0, strike[0], 0.0, strike[2]])
    count = 0
    down = max(-rise, 0.0)
    _land(now, down, throw * down, first, ratio)
    if down > 0.0:
        rise = throw * down
    while rise > 0.0 and count < _MOST // 2:
        count = _move(now, table, count, 2.0 * rise / gravity, 0.0, 0.0, rise, gravity)
        back = throw * rise if rise > last else 0.0
        _land(now, rise, back, first, ratio)
        rise = back
    ends[0] = now[1]
    slip = now[2] - ratio * now[4]
    way = math.copysign(1.0, slip)
    steps = len(strike) - 9
    for friction in strike[9:]:
        drag = friction * gravity
        # Resistance slows the ball and its turning alike: the slip hardly feels it.
        fall = max((1.0 + 2.5 * ratio) * drag + way * hold * (1.0 - ratio), 0.1 * drag)
        count = _move(
            now, table, count, abs(slip) / steps / fall,
            -way * drag - hold, 2.5 * way * drag - hold, 0.0, 0.0,
        )  # fmt: skip
    ends[1], ends[2] = now[1], now[0]
    now[4] = now[2] / ratio
    ends[3] = max(now[2], 0.0)
    count = _move(now, table, count, ends[3] / brake, -brake, -brake / ratio, 0.0, 0.0)
    ends[4] = now[1]
    now[2] = now[4] = 0.0
    return _move(now, table, count, 0.0, 0.0, 0.0, 0.0, 0.0)


@njit(cache=True)
def _place(table, count, row, at):
    """The stretch that a moment is in, looked for from ``row`` on."""
    if at < table[row, _T]:
        row = 0
    while row + 1 < count and at >= table[row + 1, _T]:
        row += 1
    return row


@njit(cache=True)
def views(strikes, time_s):
    """Along, up, turned, speed and surface speed (5, putts, times), and the ends (putts, 5)."""
    putts, times = time_s.shape
    seen, ends = np.zeros((5, putts, times)), np.empty((putts, 5))
    table = np.empty((_MOST + strikes.shape[1], 9))
    for putt in range(putts):
        count = _stretches(strikes[putt], table, ends[putt])
        row = 0
        for moment in range(times):
            at = time_s[putt, moment]
            if at < 0.0:
                continue
            row = _place(table, count, row, at)
            t, x, v, pull, turned, w, twist, rise, falls = table[row]
            since = at - t
            seen[0, putt, moment] = x + v * since + 0.5 * pull * since**2
            seen[1, putt, moment] = rise * since - 0.5 * falls * since**2
            seen[2, putt, moment] = turned + w * since + 0.5 * twist * since**2
            seen[3, putt, moment] = v + pull * since
            seen[4, putt, moment] = w + twist * since
    return seen, ends


@njit(cache=True)
def films(strikes, said, time_s, waves, sunk_m):
    """What a film would show of putts, (putts, 3, pictures): along, up and turned.

    ``said`` (putts, 16) is strike_s, scale, bend_pm, along_0, up_0, up_slope, up_bend_pm, lie_m,
    turned_0, turn_lag_s and the weights of ``waves`` (6, pictures), of what a turning reads wrong.
    """
    putts, times = len(strikes), len(time_s)
    shown = np.empty((putts, 3, times))
    ends, table = np.empty(5), np.empty((_MOST + strikes.shape[1], 9))
    for putt in range(putts):
        count = _stretches(strikes[putt], table, ends)
        struck, scale, bend, along_0, up_0, slope, up_bend, lie, turned_0, lag = said[putt, :10]
        weights = said[putt, 10:]
        row = 0
        for picture in range(times):
            at = time_s[picture] - struck
            along = up = gone = turn = surface = 0.0
            sunk = 1.0
            if at >= 0.0:
                row = _place(table, count, row, at)
                t, x, v, pull, turned, w, twist, rise, falls = table[row]
                since = at - t
                along = x + v * since + 0.5 * pull * since**2
                up = rise * since - 0.5 * falls * since**2
                turn = turned + w * since + 0.5 * twist * since**2
                surface = w + twist * since
                gone = along / sunk_m
                sunk = math.exp(-gone * gone) if abs(gone) < _FAR else 0.0
            wide = scale * along
            wide = along_0 + wide + bend * wide * wide
            wrong = 0.0
            for wave in range(len(weights)):
                wrong += weights[wave] * waves[wave, picture]
            shown[putt, 0, picture] = wide
            shown[putt, 1, picture] = (
                up_0 + slope * wide + up_bend * wide * wide + scale * up - lie * sunk
            )
            shown[putt, 2, picture] = turned_0 + turn - lag * surface + wrong
    return shown

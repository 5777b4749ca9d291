"""Compiled twin of hop, skid, roll and rim crossing, for many putts on one green.

The formulas are those of hodograph.py, skid.py and crossing.py, written for one
ball at a time; tests hold the two to each other. Everything that is compiled
together stands in this file, since numba's cache watches no other.
"""

from __future__ import annotations

import math

import numpy as np
from numba import njit, prange

_PIECES, _PIECES_ENDLESS = 12, 48
_LAST_HOP = 0.02
_ROUNDING = 1e-14
_BLOCK = 256
_ALMOST = 1.0 - 1e-12


@njit(cache=True)
def _decayed(rate, remaining, p):
    """(1 - exp(-rate p))/rate, where ``remaining`` is the exponential."""
    x = rate * p
    if abs(x) < 1e-5:
        return p * (1.0 - x * (0.5 - x / 6.0))
    return (1.0 - remaining) / rate


@njit(cache=True)
def _whole(speed, c, s, drag, pull):
    """Time, along, across and path of a glide at its end; c, s of half the first angle."""
    e = pull / drag
    length = speed * speed / drag
    down = c**4 / (2.0 - 2.0 * e)
    up = s**4 / (2.0 + 2.0 * e)
    side = c * c / (2.0 - e) + s * s / (2.0 + e)
    time = speed / drag * (c * c / (1.0 - e) + s * s / (1.0 + e))
    path = length * (down + (c * s) ** 2 + up)
    return time, length * (down - up), 2.0 * length * c * s * side, path


@njit(cache=True)
def _part(speed, c, s, drag, e, p):
    """Along, across and velocity of a glide at parameter p."""
    mid, turned = math.exp(-p), math.exp(e * p)
    slow, fast = mid * turned, mid / turned
    length = speed * speed / drag
    down = c**4 * _decayed(2.0 - 2.0 * e, slow * slow, p)
    up = s**4 * _decayed(2.0 + 2.0 * e, fast * fast, p)
    side = c * c * _decayed(2.0 - e, slow * mid, p) + s * s * _decayed(2.0 + e, fast * mid, p)
    return (
        length * (down - up),
        2.0 * length * c * s * side,
        speed * (c * c * slow - s * s * fast),
        2.0 * speed * c * s * mid,
    )


@njit(cache=True)
def _landed(b, landing, rise, friction):
    """Landing of the ball b = x, y, vx, vy, sx, sy, t, bounced, slid: friction takes the slip."""
    wx, wy = b[2] - b[4], b[3] - b[5]
    slip = math.sqrt(wx * wx + wy * wy)
    pushed = friction * (landing + rise)
    share = 2.0 / 7.0
    if pushed < share * slip:
        share = pushed / slip
    before = 0.5 * (b[2] ** 2 + b[3] ** 2) + 0.2 * (b[4] ** 2 + b[5] ** 2)
    b[2] -= share * wx
    b[3] -= share * wy
    b[4] += 2.5 * share * wx
    b[5] += 2.5 * share * wy
    after = 0.5 * (b[2] ** 2 + b[3] ** 2) + 0.2 * (b[4] ** 2 + b[5] ** 2)
    b[7] += before - after + 0.5 * (landing**2 - rise**2)


@njit(cache=True)
def _hop(b, rise, friction, restitution, plane):
    """Let the ball hop until it stays down."""
    up = rise
    if rise < 0.0:
        up = -restitution * rise
        _landed(b, -rise, up, friction)
    gx, gy = plane[1] * plane[8], plane[1] * plane[9]
    while up > 0.0:
        air = 2.0 * up / plane[0]
        b[0] += air * (b[2] + 0.5 * air * gx)
        b[1] += air * (b[3] + 0.5 * air * gy)
        b[2] += air * gx
        b[3] += air * gy
        b[6] += air
        after = restitution * up if up > _LAST_HOP else 0.0
        _landed(b, up, after, friction)
        up = after


@njit(cache=True)
def _half_angle(x, y, plane):
    """Length of a vector, and cosine and sine of half its angle from downhill."""
    speed = math.sqrt(x * x + y * y)
    if speed == 0.0:
        return 0.0, 1.0, 0.0
    half = 0.5 * math.atan2(y * plane[8] - x * plane[9], x * plane[8] + y * plane[9])
    return speed, math.cos(half), math.sin(half)


@njit(cache=True)
def _skid(b, friction, plane):
    """Slide until true roll."""
    wx, wy = b[2] - b[4], b[3] - b[5]
    slip, c, s = _half_angle(wx, wy, plane)
    drag = 3.5 * friction * plane[0]
    t, along, across, path = _whole(slip, c, s, drag, plane[1])
    dx, dy = plane[8], plane[9]
    vx, vy = b[2] - 2.0 / 7.0 * wx, b[3] - 2.0 / 7.0 * wy
    gain = 5.0 / 7.0 * plane[1] * t
    b[0] += vx * t + 2.0 / 7.0 * (along * dx - across * dy) + 0.5 * t * gain * dx
    b[1] += vy * t + 2.0 / 7.0 * (along * dy + across * dx) + 0.5 * t * gain * dy
    b[2] = b[4] = vx + gain * dx
    b[3] = b[5] = vy + gain * dy
    b[6] += t
    b[8] += 2.0 / 7.0 * drag * path


@njit(cache=True)
def _at(p, arc, plane, q):
    """Fill q with place from the hole's centre, velocity, and the time each unit of p takes.

    ``arc`` holds x, y where the roll begins, speed, c, s and the last p (0: to the stop).
    """
    along, across, v_along, v_across = _part(
        arc[2], arc[3], arc[4], plane[2], plane[3] / plane[2], p
    )
    _placed(along, across, v_along, v_across, arc, plane, q)


@njit(cache=True)
def _placed(along, across, v_along, v_across, arc, plane, q):
    """Turn downhill axes into those of the putt, from the hole's centre."""
    dx, dy = plane[8], plane[9]
    q[0] = arc[0] + along * dx - across * dy - plane[5]
    q[1] = arc[1] + along * dy + across * dx
    q[2] = v_along * dx - v_across * dy
    q[3] = v_along * dy + v_across * dx
    q[4] = math.sqrt(v_along * v_along + v_across * v_across) / plane[2]


@njit(cache=True)
def _outside(q, plane):
    """Squared distance from the centre less the squared radius of the hole."""
    return q[0] * q[0] + q[1] * q[1] - plane[6] * plane[6]


@njit(cache=True)
def _closest(p, low, high, arc, plane, q):
    """Parameter of the closest approach between two, from a guess; q is its state."""
    for _ in range(40):
        _at(p, arc, plane, q)
        leaving = q[0] * q[2] + q[1] * q[3]
        speed2 = q[2] * q[2] + q[3] * q[3]
        if abs(leaving) < 1e-9 * (math.sqrt(speed2) + 1e-3):
            break
        if leaving > 0.0:
            high = p
        else:
            low = p
        step = leaving / max(speed2 * q[4], 1e-300)
        p -= step
        if not low < p < high:
            p = 0.5 * (low + high)
    return p


@njit(cache=True)
def _cross(p, low, high, arc, plane, q):
    """Parameter of the crossing of the rim between outside and inside, from a guess."""
    for _ in range(60):
        _at(p, arc, plane, q)
        f = _outside(q, plane)
        if abs(f) < _ROUNDING:
            break
        if f > 0.0:
            low = p
        else:
            high = p
        slope = 2.0 * (q[0] * q[2] + q[1] * q[3]) * q[4]
        p = p - f / slope if slope < 0.0 else high
        if not low < p < high:
            p = 0.5 * (low + high)
            if high - low < 1e-15 * high:
                break
    return p


@njit(cache=True)
def _between(share, low, high, endless):
    """Parameter at a share of the way between two, as distance goes on level ground."""
    if endless:
        return low + share * (high - low)
    first, last = math.exp(-2.0 * low), math.exp(-2.0 * high)
    return -0.5 * math.log(max(first + share * (last - first), last))


@njit(cache=True)
def _entry_between(low, high, share, inside, arc, plane, q):
    """Whether the rim is crossed between two parameters; q becomes the state there.

    ``share`` of the chord is closest to the hole; ``inside`` says the end lies in it.
    """
    endless = arc[5] > 0.0
    p = high
    if not inside:
        p = _closest(_between(share, low, high, endless), low, high, arc, plane, q)
        depth = _outside(q, plane)
        if depth >= 0.0:
            return False
        high = p
        rate = q[4] * math.sqrt(q[2] ** 2 + q[3] ** 2)
        guess = p - math.sqrt(-depth) / max(rate, 1e-300)
    else:
        guess = 0.5 * (low + min(high, low + 1.0))
    if not low < guess < high:
        guess = 0.5 * (low + high)
    _cross(guess, low, high, arc, plane, q)
    return True


@njit(cache=True)
def _near(a, b, radius):
    """Share of the chord from state a to b closest to the hole; -1 if the piece stays clear.

    Clear means that not even the bulge of the arc over its chord reaches the rim.
    """
    cx, cy = b[0] - a[0], b[1] - a[1]
    squared = cx * cx + cy * cy
    share = 0.0
    if squared > 0.0:
        share = min(max(-(a[0] * cx + a[1] * cy) / squared, 0.0), 1.0)
    px, py = a[0] + share * cx, a[1] + share * cy
    # tan(turn/2) = sin/(1 + cos), from the two velocities without an arctangent.
    dot = a[2] * b[2] + a[3] * b[3]
    cross = abs(a[2] * b[3] - a[3] * b[2])
    both = math.sqrt((a[2] ** 2 + a[3] ** 2) * (b[2] ** 2 + b[3] ** 2)) + dot
    bulge = 0.5 * math.sqrt(squared) * min(cross / both if both > 0.0 else 1e3, 1e3)
    reach = radius + bulge
    return share if px * px + py * py <= reach * reach else -1.0


@njit(cache=True)
def _last_p(arc, plane):
    """Where an endless roll is below the hole for good; 0 for one that stops."""
    if plane[3] < plane[2]:
        return 0.0
    beyond = plane[5] * plane[8] + plane[6]
    start = arc[0] * plane[8] + arc[1] * plane[9]
    p = 1.0
    for _ in range(10):
        along, _, v_along, _ = _part(arc[2], arc[3], arc[4], plane[2], plane[3] / plane[2], p)
        if start + along > beyond and v_along > 0.0:
            break
        p *= 2.0
    return p


@njit(cache=True)
def _grid(plane):
    """What :func:`_part` needs at the ends of the pieces, the same for every ball that stops."""
    e = plane[3] / plane[2]
    grid = np.empty((_PIECES + 1, 8))
    for i in range(_PIECES + 1):
        p = -math.log1p(-min(i / _PIECES, _ALMOST))
        slow, fast, mid = math.exp(-p * (1.0 - e)), math.exp(-p * (1.0 + e)), math.exp(-p)
        grid[i, 0] = _decayed(2.0 - 2.0 * e, slow * slow, p)
        grid[i, 1] = _decayed(2.0 + 2.0 * e, fast * fast, p)
        grid[i, 2] = _decayed(2.0 - e, slow * mid, p)
        grid[i, 3] = _decayed(2.0 + e, fast * mid, p)
        grid[i, 4], grid[i, 5], grid[i, 6], grid[i, 7] = slow, fast, mid, p
    return grid


@njit(cache=True)
def _at_node(g, arc, plane, q):
    """As :func:`_at`, at a node of the grid."""
    speed, c2, s2, cs = arc[2], arc[3] * arc[3], arc[4] * arc[4], arc[3] * arc[4]
    length = speed * speed / plane[2]
    along = length * (c2 * c2 * g[0] - s2 * s2 * g[1])
    across = 2.0 * length * cs * (c2 * g[2] + s2 * g[3])
    v_along, v_across = speed * (c2 * g[4] - s2 * g[5]), 2.0 * speed * cs * g[6]
    _placed(along, across, v_along, v_across, arc, plane, q)


@njit(cache=True)
def _roll_to_rim(arc, plane, grid, q, a):
    """Whether the roll crosses the rim; q becomes the state at the first crossing."""
    endless = arc[5] > 0.0
    pieces = _PIECES_ENDLESS if endless else _PIECES
    low = 0.0
    _at(low, arc, plane, a)
    for piece in range(1, pieces + 1):
        if endless:
            high = arc[5] * piece / pieces
            _at(high, arc, plane, q)
        else:
            high = grid[piece, 7]
            _at_node(grid[piece], arc, plane, q)
        ax, ay, au, av = q[0], q[1], q[2], q[3]
        share = _near(a, q, plane[6])
        if share >= 0.0 and _outside(a, plane) >= 0.0:
            inside = _outside(q, plane) < 0.0
            passing = a[0] * a[2] + a[1] * a[3] < 0.0 and ax * au + ay * av > 0.0
            if (inside or passing) and _entry_between(low, high, share, inside, arc, plane, q):
                return True
        a[0], a[1], a[2], a[3] = ax, ay, au, av
        low = high
    return False


@njit(cache=True)
def _skid_to_rim(b, level_squared, plane, q):
    """State q where the straight line of the skid crosses the rim; False if it does not."""
    length = math.sqrt(b[0] * b[0] + b[1] * b[1])
    if length == 0.0:
        return False
    ux, uy = b[0] / length, b[1] / length
    nearest = plane[5] * ux
    beside = (plane[5] * uy) ** 2
    if beside >= plane[6] ** 2:
        return False
    run = nearest - math.sqrt(plane[6] ** 2 - beside)
    if run < 0.0 or run > length:
        return False
    share = run / length
    speed = math.sqrt((1.0 - share) * level_squared + share * (b[2] ** 2 + b[3] ** 2))
    q[0], q[1], q[2], q[3] = run * ux - plane[5], run * uy, speed * ux, speed * uy
    return True


@njit(cache=True)
def _capture(offset, towards, plane, nodes, table):
    """Captured speed from the table of this green's slope, (directions, offsets)."""
    if abs(offset) > plane[6]:
        return 0.0
    turn = towards - 2.0 * math.pi * math.floor(towards / (2.0 * math.pi) + 0.5)
    if turn < 0.0:
        turn, offset = -turn, -offset
    last_turn, last_node = table.shape[0] - 1, table.shape[1] - 1
    at = turn / math.pi * last_turn
    j = min(int(at), last_turn - 1)
    wj = min(at - j, 1.0)
    # The nodes are evenly spaced in the arcsine of the offset.
    k = int((math.asin(offset / plane[6]) / math.pi + 0.5) * last_node)
    k = min(max(k, 0), last_node - 1)
    wk = min(max((offset - nodes[k]) / (nodes[k + 1] - nodes[k]), 0.0), 1.0)
    low = (1.0 - wk) * table[j, k] + wk * table[j, k + 1]
    high = (1.0 - wk) * table[j + 1, k] + wk * table[j + 1, k + 1]
    return (1.0 - wj) * low + wj * high


@njit(cache=True)
def _start(i, launch, plane, b):
    """The ball b as it leaves the face; returns its upward speed."""
    along, across = math.cos(launch[2, i]), math.sin(launch[2, i])
    level = launch[0, i] * math.cos(launch[1, i])
    b[:] = 0.0
    b[2], b[3] = level * along, level * across
    b[4] = plane[7] * (launch[3, i] * along - launch[4, i] * across)
    b[5] = plane[7] * (launch[3, i] * across + launch[4, i] * along)
    return launch[0, i] * math.sin(launch[1, i])


@njit(cache=True)
def _one(i, launch, plane, grid, nodes, table, room, out):
    """Putt number i; ``room`` is scratch, ``out`` as in :func:`putt_all`."""
    b, q, a, arc = room[0, :9], room[1, :5], room[2, :5], room[3, :6]
    rise = _start(i, launch, plane, b)
    level_squared = b[2] ** 2 + b[3] ** 2
    out[0, i] = 0.5 * (level_squared + rise * rise) + 0.2 * (b[4] ** 2 + b[5] ** 2)
    _hop(b, rise, launch[5, i], launch[6, i], plane)
    out[1, i] = math.sqrt(b[0] ** 2 + b[1] ** 2)
    _skid(b, launch[5, i], plane)
    out[2, i], out[3, i], out[4, i], out[5, i] = b[0], b[1], b[2], b[3]
    out[6, i], out[7, i], out[8, i] = b[6], b[7], b[8]
    speed, c, s = _half_angle(b[2], b[3], plane)
    arc[0], arc[1], arc[2], arc[3], arc[4] = b[0], b[1], speed, c, s
    arc[5] = _last_p(arc, plane)
    reached = _skid_to_rim(b, level_squared, plane, q) or _roll_to_rim(arc, plane, grid, q, a)
    out[9, i] = out[10, i] = out[11, i] = out[12, i] = 0.0
    if reached:
        rim_speed = math.sqrt(q[2] ** 2 + q[3] ** 2)
        offset = (q[2] * q[1] - q[3] * q[0]) / rim_speed if rim_speed > 0.0 else 0.0
        turn = math.atan2(q[3], q[2])
        fastest = _capture(offset, plane[4] - turn, plane, nodes, table)
        out[9, i] = 2.0 if rim_speed <= fastest else 1.0
        out[10, i], out[11, i], out[12, i] = rim_speed, turn, offset


@njit(cache=True, parallel=True)
def putt_all(launch, plane, nodes, table):
    """Many putts: ``launch`` (7, n) holds the launch, the friction and the restitution.

    ``plane`` holds gravity across and along, resistance, pull, direction of downhill,
    hole's distance, hole's and ball's radius, and cosine and sine of the direction;
    ``nodes`` and ``table`` the offsets and captured speeds of this slope.

    Returns (13, n): launch energy and hop; x, y, vx, vy, time, energy bounced and slid
    off where true roll begins; 0 missed, 1 reached, 2 holed; speed, direction, offset
    at the rim.
    """
    count = launch.shape[1]
    out, grid = np.empty((13, count)), _grid(plane)
    for block in prange((count + _BLOCK - 1) // _BLOCK):
        room = np.zeros((4, 9))
        for i in range(block * _BLOCK, min((block + 1) * _BLOCK, count)):
            _one(i, launch, plane, grid, nodes, table, room, out)
    return out

"""The sole on the grass: a gap under toe or heel, the lie that closes it, where the face looks.

A sole that does not lie flat turns a lofted face: with the toe up, to the heel side, by
atan(tan loft · sin tilt) (see :func:`puttwright.ball.impact.lie_aim_rad`). A more upright
neck in the same hands lifts the toe by as much; another offset, or another neck of the
same lie, changes nothing of this.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from puttwright.ball.impact import dynamic_loft_rad, lie_aim_rad
from puttwright.errors import OutOfRange


@dataclass(frozen=True, slots=True, kw_only=True)
class Sole:
    """How a sole lies in a golfer's hands.

    ``tilt_rad`` toe up positive; ``lie_rad`` the putter's, ``flush_lie_rad`` the one that would
    lie flat in those hands; ``face_rad`` where tilt and loft turn the face, right positive.
    """

    tilt_rad: float
    lie_rad: float
    flush_lie_rad: float
    face_rad: float


def tilt_of_gap_rad(*, toe_gap_m: float, sole_length_m: float) -> float:
    """Tilt from the gap under one end of a flat sole while the other end touches.

    Parameters
    ----------
    toe_gap_m
        Under the toe [m]; a gap under the heel is negative.
    sole_length_m
        From where the sole touches to where the gap was measured [m], 0.02 to 0.2. Of a sole
        with camber take only what is flat.

    Returns
    -------
    float
        Toe up positive [rad], asin(gap over length).

    Examples
    --------
    >>> round(math.degrees(tilt_of_gap_rad(toe_gap_m=0.0035, sole_length_m=0.1)), 2)
    2.01
    """
    if not 0.02 <= sole_length_m <= 0.2:
        raise OutOfRange(name="sole length", value=1e3 * sole_length_m, low=20, high=200, unit="mm")
    if abs(toe_gap_m) > 0.5 * sole_length_m:
        half = 500.0 * sole_length_m
        raise OutOfRange(name="gap", value=1e3 * toe_gap_m, low=-half, high=half, unit="mm",
                         why="a putter is not soled further off than that")  # fmt: skip
    return math.asin(toe_gap_m / sole_length_m)


def gap_of_tilt_m(*, tilt_rad: float, sole_length_m: float) -> float:
    """The gap under the toe (negative: under the heel) that a tilt makes.

    Parameters
    ----------
    tilt_rad
        Toe up [rad].
    sole_length_m
        Of the flat of the sole [m].

    Returns
    -------
    float
        Gap [m].

    Examples
    --------
    >>> round(1000 * gap_of_tilt_m(tilt_rad=math.radians(-1), sole_length_m=0.1), 2)
    -1.75
    """
    return sole_length_m * math.sin(tilt_rad)


def sole_of(
    *, lie_rad: float, tilt_rad: float, loft_rad: float, lean_rad: float = 0.0, handed: str
) -> Sole:
    """What a tilt of the sole says of the lie and does to the face.

    Parameters
    ----------
    lie_rad, loft_rad
        Of the putter [rad].
    tilt_rad
        Toe up [rad], as it is soled.
    lean_rad
        Handle toward the target [rad]; it takes loft off.
    handed
        Which way the toe points.

    Returns
    -------
    Sole
        The lie that lies flush is the putter's less the tilt: the hands stay.

    Examples
    --------
    >>> flat = sole_of(lie_rad=1.24, tilt_rad=0.0, loft_rad=0.05, handed="left")
    >>> flat.face_rad == 0.0
    True
    """
    loft = dynamic_loft_rad(loft_rad=loft_rad, lean_rad=lean_rad)
    face = lie_aim_rad(loft_rad=loft, sole_tilt_rad=tilt_rad, handed=handed)
    return Sole(
        tilt_rad=tilt_rad, lie_rad=lie_rad, flush_lie_rad=lie_rad - tilt_rad,
        face_rad=float(face) + 0.0,
    )  # fmt: skip


def with_lie(
    sole: Sole, *, lie_rad: float, loft_rad: float, lean_rad: float = 0.0, handed: str
) -> Sole:
    """The same hands on a neck of another lie.

    Parameters
    ----------
    sole
        How the putter lies now.
    lie_rad, loft_rad
        Of the putter as bent, or of the other neck [rad].
    lean_rad, handed
        As in :func:`sole_of`.

    Returns
    -------
    Sole
        More upright by so much is toe up by so much.

    Examples
    --------
    >>> now = sole_of(lie_rad=1.24, tilt_rad=0.03, loft_rad=0.05, handed="right")
    >>> abs(with_lie(now, lie_rad=1.21, loft_rad=0.05, handed="right").face_rad) < 1e-12
    True
    """
    tilt = sole.tilt_rad + lie_rad - sole.lie_rad
    return sole_of(
        lie_rad=lie_rad, tilt_rad=tilt, loft_rad=loft_rad, lean_rad=lean_rad, handed=handed
    )

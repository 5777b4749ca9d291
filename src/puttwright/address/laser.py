"""Board reading to face direction, for a laser on the face or a beam off a mirror on it."""

from __future__ import annotations

import math


def face_angle_rad(*, reading_m: float, board_distance_m: float, mirror: bool) -> float:
    """Where the face looks, from where the dot lies on a board square to the line.

    Parameters
    ----------
    reading_m
        Dot from the zero line [m], right positive.
    board_distance_m
        From the laser's exit (or the mirror) to the board [m], above 0.
    mirror
        True when the beam is reflected by the face: it then turns twice the angle.

    Returns
    -------
    float
        Face direction from the target line [rad], right positive.

    Examples
    --------
    >>> round(math.degrees(face_angle_rad(reading_m=0.01, board_distance_m=3.0, mirror=False)), 5)
    0.19099
    """
    angle = math.atan2(reading_m, board_distance_m)
    return 0.5 * angle if mirror else angle


def angle_sd_rad(*, reading_sd_m: float, board_distance_m: float, mirror: bool) -> float:
    """What an error of reading on the board is worth in face direction.

    Parameters
    ----------
    reading_sd_m
        Spread of repeated readings of one dot [m].
    board_distance_m
        From the laser's exit (or the mirror) to the board [m], above 0.
    mirror
        True when the beam is reflected by the face.

    Returns
    -------
    float
        Spread of the face direction [rad].

    Examples
    --------
    >>> round(math.degrees(angle_sd_rad(reading_sd_m=0.001, board_distance_m=3.0, mirror=False)), 4)
    0.0191
    """
    sd = reading_sd_m / board_distance_m
    return 0.5 * sd if mirror else sd


def reading_of_m(*, face_rad: float, board_distance_m: float, mirror: bool) -> float:
    """Where the dot lies for a face direction: :func:`face_angle_rad` turned round.

    Parameters
    ----------
    face_rad
        From the target line [rad], right positive.
    board_distance_m
        From the laser's exit (or the mirror) to the board [m].
    mirror
        True when the beam is reflected by the face.

    Returns
    -------
    float
        Dot from the zero line [m], right positive.

    Examples
    --------
    >>> round(1000 * reading_of_m(face_rad=math.radians(1), board_distance_m=3, mirror=True), 3)
    104.762
    """
    return board_distance_m * math.tan(2.0 * face_rad if mirror else face_rad)


def mirror_rise_m(*, loft_rad: float, board_distance_m: float) -> float:
    """How far above its source's height a mirrored beam comes back: loft throws it up, doubled.

    Parameters
    ----------
    loft_rad
        Of the face, as it is held [rad].
    board_distance_m
        From the mirror to the board [m].

    Returns
    -------
    float
        Rise at the board [m]; keep eyes, children and other mirrors out of its way.

    Examples
    --------
    >>> round(1000 * mirror_rise_m(loft_rad=math.radians(3), board_distance_m=3.0), 1)
    315.3
    """
    return board_distance_m * math.tan(2.0 * loft_rad)

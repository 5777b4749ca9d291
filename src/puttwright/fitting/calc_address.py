"""The address and the sole as single computations, in the units people use."""

from __future__ import annotations

import math

from puttwright.address.sole import sole_of, tilt_of_gap_rad, with_lie
from puttwright.evidence import Build, Fitting, FittingGreen, Golfer, SetupReading
from puttwright.fitting.address_words import address_cautions, address_words
from puttwright.fitting.at_address import BuildAddress, at_address
from puttwright.fitting.decision import Estimate

Figures = dict[str, float | list[float] | list[str]]


def calc_address(
    *,
    length_mm: float,
    lie_deg: float,
    stature_mm: float | None = None,
    told: bool = False,
    wrist_height_mm: float | None = None,
    loft_deg: float = 3.0,
    cg_from_axis_mm: float | None = None,
    eyes_inside_mm: float | None = None,
    hands_height_mm: float | None = None,
    sole_tilt_deg: float | None = None,
    grip_style: str = "conventional",
    want_from_mm: float = 0.0,
    want_to_mm: float = 30.0,
    other_length_mm: float | None = None,
    other_lie_deg: float | None = None,
    handed: str = "right",
) -> Figures:
    """Eyes, hands, trunk and sole with a putter, with another one, and the putter wanted.

    Parameters
    ----------
    length_mm, lie_deg, loft_deg, cg_from_axis_mm
        The putter held.
    stature_mm, told, wrist_height_mm
        The body; a told height is doubted more.
    eyes_inside_mm, hands_height_mm, sole_tilt_deg, grip_style
        One address measured, as far as it was.
    want_from_mm, want_to_mm
        Where the eyes are wanted, inside positive.
    other_length_mm, other_lie_deg
        Another putter to foretell; what is left out is as with the one held.
    handed
        To which side a tilted face looks.

    Returns
    -------
    dict
        Figures, each followed by its 90 % interval; ``words`` and ``cautions``.

    Examples
    --------
    >>> found = calc_address(length_mm=864, lie_deg=71, stature_mm=1780, eyes_inside_mm=60)
    >>> 50 < found["eyes_inside_mm"] < 70
    True
    """
    held = Build(
        build_id="held", label="this putter", length_mm=length_mm, lie_deg=lie_deg,
        loft_deg=loft_deg, cg_from_axis_mm=cg_from_axis_mm,
    )  # fmt: skip
    builds = [held]
    if other_length_mm is not None or other_lie_deg is not None:
        builds.append(
            Build(
                build_id="other", label="the other", length_mm=other_length_mm or length_mm,
                lie_deg=other_lie_deg or lie_deg, loft_deg=loft_deg,
                cg_from_axis_mm=cg_from_axis_mm,
            )
        )  # fmt: skip
    setup = SetupReading(
        seq=1, build_id="held", eye_inside_mm=eyes_inside_mm, hands_height_mm=hands_height_mm,
        sole_tilt_deg=sole_tilt_deg, grip_style=grip_style,
    )  # fmt: skip
    golfer = Golfer(
        alias="", handed=handed, stature_mm=stature_mm, stature_told=told,
        wrist_height_mm=wrist_height_mm,
    )  # fmt: skip
    fitting = Fitting(
        fitting_id="", date="", golfer=golfer, greens=(), fitting_green=FittingGreen(speed_ft=10),
        own_build="held", builds=tuple(builds), setups=(setup,),
    )  # fmt: skip
    found = at_address(fitting, window_mm=(want_from_mm, want_to_mm))
    figures = _of(found.own, prefix="")
    for other in found.builds[1:]:
        figures |= _of(other, prefix="other_")
    want = found.wanted
    figures |= _with_interval("wanted_length_mm", want.length_mm)
    figures |= _with_interval("wanted_lie_deg", want.lie_deg)
    figures["wanted_in_window_pct"] = 100.0 * want.in_window
    return figures | {
        "words": list(address_words(found)),
        "cautions": list(address_cautions(found)),
    }


def _of(found: BuildAddress, *, prefix: str) -> Figures:
    told = {
        "eyes_inside_mm": found.eyes_mm,
        "hands_height_mm": found.hands_mm,
        "trunk_deg": found.trunk_deg,
        "sole_tilt_deg": found.sole_tilt_deg,
        "flush_lie_deg": found.flush_lie_deg,
        "face_deg": found.face_deg,
    }
    figures: Figures = {}
    for name, estimate in told.items():
        figures |= _with_interval(prefix + name, estimate)
    return figures


def _with_interval(name: str, estimate: Estimate) -> Figures:
    stem, _, unit = name.rpartition("_")
    return {name: estimate.mean, f"{stem}_interval_90_{unit}": list(estimate.interval_90)}


def calc_sole(
    *,
    lie_deg: float,
    loft_deg: float = 3.0,
    lean_deg: float = 0.0,
    toe_gap_mm: float | None = None,
    sole_length_mm: float = 80.0,
    sole_tilt_deg: float | None = None,
    other_lie_deg: float | None = None,
    handed: str = "right",
) -> Figures:
    """What a sole that does not lie flat says of the lie and does to the face.

    Parameters
    ----------
    lie_deg, loft_deg, lean_deg
        The putter, and handle toward the target.
    toe_gap_mm, sole_length_mm
        Gap under the toe (under the heel negative) over so much of flat sole.
    sole_tilt_deg
        Toe up, where it was measured as an angle; it goes before the gap.
    other_lie_deg
        Of another neck, or bent.
    handed
        Which way the toe points.

    Returns
    -------
    dict
        ``sole_tilt_deg``, ``flush_lie_deg`` and ``face_deg`` (right positive), and with
        another lie ``other_sole_tilt_deg`` and ``other_face_deg``.

    Examples
    --------
    >>> round(calc_sole(lie_deg=71, loft_deg=3, sole_tilt_deg=2)["face_deg"], 3)
    -0.105
    """
    if sole_tilt_deg is None:
        tilt = tilt_of_gap_rad(
            toe_gap_m=(toe_gap_mm or 0.0) / 1e3, sole_length_m=sole_length_mm / 1e3
        )
    else:
        tilt = math.radians(sole_tilt_deg)
    loft, lean = math.radians(loft_deg), math.radians(lean_deg)
    now = sole_of(
        lie_rad=math.radians(lie_deg), tilt_rad=tilt, loft_rad=loft, lean_rad=lean, handed=handed
    )
    figures: Figures = {
        "sole_tilt_deg": math.degrees(now.tilt_rad),
        "flush_lie_deg": math.degrees(now.flush_lie_rad),
        "face_deg": math.degrees(now.face_rad),
    }
    if other_lie_deg is not None:
        then = with_lie(
            now, lie_rad=math.radians(other_lie_deg), loft_rad=loft, lean_rad=lean, handed=handed
        )
        figures["other_sole_tilt_deg"] = math.degrees(then.tilt_rad)
        figures["other_face_deg"] = math.degrees(then.face_rad)
    return figures

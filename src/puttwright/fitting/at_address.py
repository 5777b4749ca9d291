"""What the address says: eyes, hands and sole with each build, and the putter it wants."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from puttwright.address.linkage import Held
from puttwright.address.of_fitting import held_of, learn_fitting, usual_style
from puttwright.address.pose import Pose
from puttwright.address.posterior import AddressBelief
from puttwright.address.predict import TOO_FAR, Figure, Prediction, predict
from puttwright.address.sole import sole_of
from puttwright.address.solve import Wanted, wanted
from puttwright.address.surprise import Surprise, surprises
from puttwright.evidence import Build, Fitting
from puttwright.fitting.believe import own_first
from puttwright.fitting.decision import Estimate

USUAL_WINDOW_MM: Final = (0.0, 30.0)
"""From over the ball line to a few centimetres inside; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildAddress:
    """How the golfer stands to one build; inside, behind and toe up are positive.

    ``flush_lie_deg`` is the lie at which this sole would lie flat in those hands, ``face_deg``
    where tilt and loft turn the face now (right positive). ``guess`` is beyond what was seen,
    ``unlike`` beyond what anybody does.
    """

    build: Build
    measured: bool
    eyes_mm: Estimate
    behind_mm: Estimate
    hands_mm: Estimate
    trunk_deg: Estimate
    sole_tilt_deg: Estimate
    hands_out_mm: Estimate
    toes_mm: Estimate
    flush_lie_deg: Estimate
    face_deg: Estimate
    pose: Pose
    guess: bool
    unlike: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedPutter:
    """The putter the address wants: eyes in the window, hands hanging, sole flush.

    ``eyes_as_now_mm`` is where the eyes would be if the golfer reached as now.
    """

    length_mm: Estimate
    lie_deg: Estimate
    eyes_mm: Estimate
    eyes_as_now_mm: Estimate
    in_window: float
    trunk_deg: Estimate
    pose: Pose


@dataclass(frozen=True, slots=True, kw_only=True)
class AtAddress:
    """The conclusion; ``builds`` with the golfer's own first."""

    handed: str
    window_mm: tuple[float, float]
    builds: tuple[BuildAddress, ...]
    wanted: WantedPutter
    surprises: tuple[Surprise, ...]
    seqs: tuple[int, ...]
    minor: bool
    settled: bool

    @property
    def own(self) -> BuildAddress:
        """With the golfer's own putter."""
        return self.builds[0]

    @property
    def measured(self) -> bool:
        """Whether any address was measured."""
        return bool(self.seqs)


def at_address(fitting: Fitting, *, window_mm: tuple[float, float] = USUAL_WINDOW_MM) -> AtAddress:
    """Conclude from heights and measured addresses.

    Parameters
    ----------
    fitting
        Its golfer's heights, builds and set-ups; none of them need be there.
    window_mm
        Where the fitter wants the eyes, inside positive.

    Returns
    -------
    AtAddress
        Every build, held or not; without a measured address it is what bodies of that height do.
    """
    belief = learn_fitting(fitting)
    builds = own_first(fitting)
    held = [_held(fitting, build) for build in builds]
    low, high = sorted(window_mm)
    want = wanted(belief, window_m=(low / 1e3, high / 1e3), held=held[0])
    return AtAddress(
        handed=fitting.golfer.handed,
        window_mm=(low, high),
        builds=tuple(
            _of_build(belief, build, one, fitting.golfer.handed)
            for build, one in zip(builds, held, strict=True)
        ),
        wanted=_wanted(want),
        surprises=tuple(each for each in surprises(belief) if each.doubtful),
        seqs=tuple(address.seq for address in belief.addresses),
        minor=bool(fitting.golfer.minor),
        settled=belief.settled,
    )


def _held(fitting: Fitting, build: Build) -> Held:
    """The build as it was held; one never in hand is held as the others are."""
    setups = fitting.setups
    if any(setup.build_id == build.build_id for setup in setups):
        style = usual_style(setups, build_id=build.build_id)
    else:
        style = usual_style(setups)
    return held_of(build, setups=setups, style=style)


def _of_build(belief: AddressBelief, build: Build, held: Held, handed: str) -> BuildAddress:
    found = predict(belief, held)
    tilt = found.figure("sole_tilt_rad")
    return BuildAddress(
        build=build,
        measured=found.measured,
        eyes_mm=_mm(found, "eye_inside_m"),
        behind_mm=_mm(found, "eye_behind_m"),
        hands_mm=_mm(found, "hands_height_m"),
        trunk_deg=_deg(found, "trunk_rad"),
        sole_tilt_deg=_deg(found, "sole_tilt_rad"),
        hands_out_mm=_mm(found, "hands_out_m"),
        toes_mm=_mm(found, "toes_m"),
        flush_lie_deg=estimated(found.flush_lie, unit_factor=math.degrees(1.0)),
        face_deg=_face(tilt, build=build, held=held, handed=handed),
        pose=found.pose,
        guess=found.guess,
        unlike=found.strain > TOO_FAR,
    )


def _face(tilt: Figure, *, build: Build, held: Held, handed: str) -> Estimate:
    """Where tilt and loft turn the face; as good as linear in the tilt at these angles."""

    def face_deg(tilt_rad: float) -> float:
        found = sole_of(
            lie_rad=held.lie_rad,
            tilt_rad=tilt_rad,
            loft_rad=math.radians(build.loft_deg),
            lean_rad=held.lean_rad,
            handed=handed,
        )
        return math.degrees(found.face_rad)

    spread = 0.5 * (face_deg(tilt.mean + tilt.sd) - face_deg(tilt.mean - tilt.sd))
    return estimated(Figure(mean=face_deg(tilt.mean), sd=abs(spread)))


def _wanted(want: Wanted) -> WantedPutter:
    return WantedPutter(
        length_mm=estimated(want.length, unit_factor=1e3),
        lie_deg=estimated(want.lie, unit_factor=math.degrees(1.0)),
        eyes_mm=_mm(want.hanging, "eye_inside_m"),
        eyes_as_now_mm=_mm(want.as_now, "eye_inside_m"),
        in_window=want.in_window,
        trunk_deg=_deg(want.hanging, "trunk_rad"),
        pose=want.hanging.pose,
    )


def _mm(found: Prediction, name: str) -> Estimate:
    return estimated(found.figure(name), unit_factor=1e3)


def _deg(found: Prediction, name: str) -> Estimate:
    return estimated(found.figure(name), unit_factor=math.degrees(1.0))


def estimated(figure: Figure, *, unit_factor: float = 1.0) -> Estimate:
    """A figure in the unit it is told in, ``unit_factor`` of them to one."""
    low, high = figure.interval_90
    middle, half = unit_factor * figure.mean, 0.6745 * unit_factor * figure.sd
    return Estimate(
        mean=middle,
        sd=unit_factor * figure.sd,
        interval_90=(unit_factor * low, unit_factor * high),
        interval_50=(middle - half, middle + half),
    )

"""A putt off the face on an even slope: hop, skid, true roll, stop. Exact, not stepped."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from puttwright.ball.green import GreenPlane
from puttwright.ball.hodograph import Glide, glide
from puttwright.ball.limits import FloatArray, checked
from puttwright.ball.skid import SLIDING_FRICTION, TURF_RESTITUTION, Ball, downhill, hop, skid
from puttwright.units import BALL_MASS_KG, BALL_RADIUS_M, GRAVITY_MPS2


@dataclass(frozen=True, slots=True, kw_only=True)
class Energy:
    """Where the energy of each putt went, in joules; ``error`` is what the books leave over."""

    launch_j: FloatArray
    bounces_j: FloatArray
    sliding_j: FloatArray
    rolling_j: FloatArray
    height_j: FloatArray

    @property
    def error(self) -> FloatArray:
        """Unaccounted share of the launch energy; 0 for a ball that never stops."""
        with np.errstate(invalid="ignore"):
            spent = self.bounces_j + self.sliding_j + self.rolling_j + self.height_j
        left = np.where(np.isfinite(spent), self.launch_j - spent, 0.0)
        safe = np.where(self.launch_j > 0.0, self.launch_j, 1.0)
        return np.asarray(left / safe)


@dataclass(frozen=True, slots=True, kw_only=True)
class Roll:
    """What becomes of each putt if no hole is in its way; arrays of one shape.

    Places are from the ball's start: x along the target line, y right of it.
    ``skid_m`` and ``skid_s`` run from the face to true roll, hops included;
    ``roll_m`` is the length of the true roll along its path, ``total_m`` both.
    A ball that never stops has infinite lengths.
    """

    hop_m: FloatArray
    skid_m: FloatArray
    skid_s: FloatArray
    roll_start_x_m: FloatArray
    roll_start_y_m: FloatArray
    roll_start_speed_mps: FloatArray
    roll_start_direction_rad: FloatArray
    roll_m: FloatArray
    total_m: FloatArray
    roll_share: FloatArray
    stop_x_m: FloatArray
    stop_y_m: FloatArray
    stop_s: FloatArray
    break_m: FloatArray
    never_stops: npt.NDArray[np.bool_]
    energy: Energy


@dataclass(frozen=True, slots=True, kw_only=True)
class Launch:
    """Balls as they leave the face; numbers or arrays that broadcast together.

    Parameters
    ----------
    ball_speed_mps
        0 to 12 m/s.
    launch_rad
        Above the green's plane, up positive.
    start_rad
        Start line from the target line, right positive.
    spin_radps
        Forward roll (topspin) positive; ``spin_right_radps`` is roll to the right
        of the start line. Spin about the upright axis does nothing on the ground.
    """

    ball_speed_mps: npt.ArrayLike
    launch_rad: npt.ArrayLike = 0.0
    start_rad: npt.ArrayLike = 0.0
    spin_radps: npt.ArrayLike = 0.0
    spin_right_radps: npt.ArrayLike = 0.0

    def checked(self) -> tuple[FloatArray, ...]:
        """The five as arrays of one shape, or OutOfRange."""
        return tuple(
            np.broadcast_arrays(
                checked(limit="ball_speed_mps", value=self.ball_speed_mps),
                checked(limit="launch_rad", value=self.launch_rad),
                np.asarray(self.start_rad, dtype=np.float64),
                checked(limit="spin_radps", value=self.spin_radps),
                checked(limit="spin_radps", value=self.spin_right_radps, name="spin_right_radps"),
            )
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Stages:
    """The ball at launch, when it stays down and when it truly rolls; all flat, (n,)."""

    shape: tuple[int, ...]
    start_rad: FloatArray
    launch_energy: FloatArray
    launched: Ball
    hopped: Ball
    rolling: Ball


def at_launch(launch: tuple[FloatArray, ...]) -> tuple[Ball, FloatArray]:
    """The balls as they leave the face, and how fast they rise."""
    speed, up, start, forward, right = launch
    along, across = np.cos(start), np.sin(start)
    level = speed * np.cos(up)
    zero = np.zeros_like(speed)
    ball = Ball(
        place_m=np.array([zero, zero]),
        velocity_mps=np.array([level * along, level * across]),
        surface_mps=BALL_RADIUS_M
        * np.array([forward * along - right * across, forward * across + right * along]),
        time_s=zero,
        bounce_lost=zero,
        slide_lost=zero,
    )
    return ball, np.asarray(speed * np.sin(up))


def launch_inputs(
    *,
    launch: Launch,
    sliding_friction: npt.ArrayLike,
    turf_restitution: npt.ArrayLike,
) -> tuple[FloatArray, ...]:
    """Speed, launch, start, spins, friction and restitution, checked and of one shape."""
    friction = checked(limit="sliding_friction", value=sliding_friction)
    restitution = checked(limit="turf_restitution", value=turf_restitution)
    return tuple(np.broadcast_arrays(*launch.checked(), friction, restitution))


def staged(inputs: tuple[FloatArray, ...], *, green: GreenPlane) -> Stages:
    """Hop and skid of checked inputs."""
    *parts, friction, restitution = (part.ravel() for part in inputs)
    ball, rise = at_launch(tuple(parts))
    hopped = hop(ball, rise_mps=rise, green=green, friction=friction, restitution=restitution)
    return Stages(
        shape=inputs[0].shape,
        start_rad=parts[2],
        launch_energy=ball.energy + 0.5 * rise * rise,
        launched=ball,
        hopped=hopped,
        rolling=skid(hopped, green=green, friction=friction),
    )


def to_true_roll(
    *,
    launch: Launch,
    green: GreenPlane,
    sliding_friction: npt.ArrayLike = SLIDING_FRICTION,
    turf_restitution: npt.ArrayLike = TURF_RESTITUTION,
) -> Stages:
    """Hop and skid; arguments as in :func:`roll`."""
    inputs = launch_inputs(
        launch=launch, sliding_friction=sliding_friction, turf_restitution=turf_restitution
    )
    return staged(inputs, green=green)


def true_roll(ball: Ball, *, green: GreenPlane, p: npt.ArrayLike = np.inf) -> Glide:
    """The true roll of a rolling ball at parameter ``p`` (:mod:`puttwright.ball.hodograph`)."""
    return glide(
        speed_mps=np.hypot(*ball.velocity_mps),
        angle_rad=direction_rad(ball) - green.slope_towards_rad,
        drag_mps2=green.resistance_mps2,
        pull_mps2=green.pull_mps2,
        p=p,
    )


def rolled_to(ball: Ball, *, rolled: Glide, green: GreenPlane) -> FloatArray:
    """Place (2, n) of a ball that has rolled on from where it began to roll."""
    forward = downhill(green)
    rightward = np.array([-forward[1], forward[0]])
    return np.asarray(ball.place_m + rolled.along_m * forward + rolled.across_m * rightward)


def direction_rad(ball: Ball) -> FloatArray:
    """Direction of travel from the target line, right positive."""
    return np.asarray(np.arctan2(ball.velocity_mps[1], ball.velocity_mps[0]))


def _stop(stages: Stages, green: GreenPlane) -> tuple[FloatArray, Glide, npt.NDArray[np.bool_]]:
    """Place of the stop (2, n), the end of the roll, and which balls never stop."""
    ball = stages.rolling
    moving = np.hypot(*ball.velocity_mps) > 0.0
    never = moving & green.never_stops
    with np.errstate(invalid="ignore"):
        end = true_roll(ball, green=green)
        stop = rolled_to(ball, rolled=end, green=green)
    forward = downhill(green)
    beyond = np.where(np.abs(forward) < 1e-12, 0.0, np.copysign(np.inf, forward))
    return np.where(never, beyond, stop), end, never


def roll(
    *,
    launch: Launch,
    green: GreenPlane,
    sliding_friction: npt.ArrayLike = SLIDING_FRICTION,
    turf_restitution: npt.ArrayLike = TURF_RESTITUTION,
) -> Roll:
    """Follow putts from the face to where they stop, as if there were no hole.

    Parameters
    ----------
    launch
        The balls.
    green
        One plane for all.
    sliding_friction
        Ball on grass, 0.05 to 1, believable 0.3 to 0.5; skid goes as its inverse.
    turf_restitution
        How much a hop is thrown back, 0 to 0.8; hardly matters.

    Returns
    -------
    Roll
        Arrays of the broadcast shape. Outside a range :class:`OutOfRange`.

    Notes
    -----
    Sliding: Coulomb friction on a uniform sphere, no rolling resistance meanwhile
    (5/7 of the speed and 12 v²/(49 mu g) on level ground: Daish 1972). Rolling:
    Penner 2002 with constant resistance. Both integrated exactly.

    Examples
    --------
    >>> putt = roll(launch=Launch(ball_speed_mps=2.0), green=GreenPlane(deceleration_mps2=0.5486))
    >>> round(float(putt.skid_m), 3), round(float(putt.total_m), 3)
    (0.25, 2.11)
    """
    stages = to_true_roll(
        launch=launch,
        green=green,
        sliding_friction=sliding_friction,
        turf_restitution=turf_restitution,
    )
    return rolled_out(stages=stages, green=green)


def rolled_out(*, stages: Stages, green: GreenPlane) -> Roll:
    """From where true roll begins to the stop, with the whole putt's lengths and books."""
    stop, end, never = _stop(stages, green)
    ball = stages.rolling
    skidded = np.hypot(*ball.place_m)
    rolled = np.where(never, np.inf, end.path_m)
    total = skidded + rolled
    safe = np.where((total > 0.0) & ~never, total, 1.0)
    share = np.where(never, 1.0, np.where(never, 0.0, rolled) / safe)
    with np.errstate(invalid="ignore"):
        broke = stop[1] * np.cos(stages.start_rad) - stop[0] * np.sin(stages.start_rad)
    flat = {
        "hop_m": np.hypot(*stages.hopped.place_m),
        "skid_m": skidded,
        "skid_s": ball.time_s,
        "roll_start_x_m": ball.place_m[0],
        "roll_start_y_m": ball.place_m[1],
        "roll_start_speed_mps": np.hypot(*ball.velocity_mps),
        "roll_start_direction_rad": direction_rad(ball),
        "roll_m": rolled,
        "total_m": total,
        "roll_share": share,
        "stop_x_m": stop[0],
        "stop_y_m": stop[1],
        "stop_s": np.where(never, np.inf, ball.time_s + end.time_s),
        "break_m": broke,
    }
    shaped = {name: np.asarray(value).reshape(stages.shape) for name, value in flat.items()}
    return Roll(
        **shaped,
        never_stops=never.reshape(stages.shape),
        energy=_energy(stages, green=green, stop=stop, rolled=rolled),
    )


def _energy(stages: Stages, *, green: GreenPlane, stop: FloatArray, rolled: FloatArray) -> Energy:
    """The books: what the launch brought and where it went."""
    with np.errstate(invalid="ignore"):
        down = np.sum(stop * downhill(green), axis=0)
    sine = green.slope * green.cosine
    books = {
        "launch_j": stages.launch_energy,
        "bounces_j": stages.rolling.bounce_lost,
        "sliding_j": stages.rolling.slide_lost,
        "rolling_j": 1.4 * green.resistance_mps2 * rolled,
        "height_j": -GRAVITY_MPS2 * sine * down if sine else np.zeros_like(rolled),
    }
    return Energy(
        **{name: (BALL_MASS_KG * value).reshape(stages.shape) for name, value in books.items()}
    )

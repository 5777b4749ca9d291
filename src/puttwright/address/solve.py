"""The length and lie an address wants: eyes where the fitter wants them, hands hanging, sole flush.

The golfer keeps their own bend of trunk, neck and elbows, and lets the arms hang plumb.
That places the hands; a shaft from the ball to there has one length and one lie.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from scipy.special import ndtr

from puttwright.address.grips import grip_style
from puttwright.address.linkage import GOLFER, GOLFER_SIZE, OFFSET, Held, body_of, habits_of
from puttwright.address.pose import Club, Floats, Stance, pose_of
from puttwright.address.posterior import AddressBelief, slopes
from puttwright.address.predict import Figure, Prediction, predict


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """The putter an address wants.

    ``eyes_m`` is where the eyes are then, inside positive; ``in_window`` the chance that they
    come to lie in the window with a putter made so, arms hanging. ``hanging`` and ``as_now``
    tell the address with it: with the arms hanging, and reaching as the golfer does now.
    """

    length: Figure
    lie: Figure
    correlation: float
    eyes_m: float
    in_window: float
    hanging: Prediction
    as_now: Prediction


def wanted(belief: AddressBelief, *, window_m: tuple[float, float], held: Held) -> Wanted:
    """Length and lie that put the eyes into the window.

    Parameters
    ----------
    belief
        What was learnt of the golfer.
    window_m
        Where the fitter wants the eyes, inside positive: lowest and highest.
    held
        The putter to start from: its head and grip style stay. Where the eyes already
        are in the window with it they stay; otherwise its middle is aimed at.

    Returns
    -------
    Wanted
        The spreads of length [m] and lie [rad] hold what is not known of the golfer.
    """
    low, high = window_m
    now = predict(belief, held).figure("eye_inside_m").mean
    eyes_m = now if low <= now <= high else 0.5 * (low + high)
    golfer = belief.mean[:GOLFER_SIZE]
    unknown = np.append(golfer, 0.0)
    spread = np.zeros((GOLFER_SIZE + 1, GOLFER_SIZE + 1))
    spread[:-1, :-1] = belief.covariance[:GOLFER_SIZE, :GOLFER_SIZE]
    spread[-1, -1] = 0.0 if held.axis_to_ball_m is not None else 1.0
    made = shaft_to(unknown, eyes_m=eyes_m, held=held)
    slope = slopes(lambda at: shaft_to(at, eyes_m=eyes_m, held=held), unknown)
    covariance = slope @ spread @ slope.T
    sds = np.sqrt(np.diag(covariance))
    new = replace(held, length_m=float(made[0]), lie_rad=float(made[1]), lean_rad=0.0, name="new")
    hanging = predict(_arms_hanging(belief), new)
    eyes = hanging.figure("eye_inside_m")
    return Wanted(
        length=Figure(mean=float(made[0]), sd=float(sds[0])),
        lie=Figure(mean=float(made[1]), sd=float(sds[1])),
        correlation=float(covariance[0, 1] / (sds[0] * sds[1])),
        eyes_m=eyes_m,
        in_window=float(ndtr((high - eyes.mean) / eyes.sd) - ndtr((low - eyes.mean) / eyes.sd)),
        hanging=hanging,
        as_now=predict(belief, new),
    )


def shaft_to(unknown: Floats, *, eyes_m: float, held: Held) -> Floats:
    """Length [m] and lie [rad] of the shaft from the ball to the hanging hands.

    Parameters
    ----------
    unknown
        The golfer and the shaft axis' distance from the ball, in standard deviations.
    eyes_m
        Where the eyes are, inside positive.
    held
        The head and grip style.

    Returns
    -------
    ndarray
        (..., 2).

    Examples
    --------
    >>> held = Held(length_m=0.86, lie_rad=1.24)
    >>> near, far = (shaft_to(np.zeros(GOLFER_SIZE + 1), eyes_m=at, held=held) for at in (0, 0.05))
    >>> bool(near[1] > far[1])
    True
    """
    golfer, offset = unknown[..., :GOLFER_SIZE], unknown[..., GOLFER_SIZE]
    habit, body = habits_of(golfer), body_of(golfer)
    guessed = OFFSET.mean + OFFSET.sd * offset
    axis_m = guessed if held.axis_to_ball_m is None else held.axis_to_ball_m
    stance = Stance(
        trunk_rad=habit["trunk_rad"], neck_rad=habit["neck_rad"], elbow_rad=habit["elbow_rad"],
        weight_ahead_m=habit["weight_ahead_m"],
    )  # fmt: skip
    # Any shaft will do to see how the body hangs together: the arms hang from the shoulders.
    hung = pose_of(
        body=body, stance=stance, club=Club(length_m=held.length_m, lie_rad=held.lie_rad)
    )
    up = hung.hands[1] - hung.misses_m
    inside = eyes_m + (hung.hands[0] - hung.eyes[0]) - axis_m
    down = grip_style(held.style).down_m + habit["grip_down_m"]
    return np.stack([down + np.hypot(inside, up), np.arctan2(up, inside)], axis=-1)


def _arms_hanging(belief: AddressBelief) -> AddressBelief:
    """The same golfer told to let the arms hang."""
    row = [each.name for each in GOLFER].index("arm_rad")
    mean, covariance = belief.mean.copy(), belief.covariance.copy()
    mean[row] = -GOLFER[row].mean / GOLFER[row].sd
    covariance[row, :] = covariance[:, row] = 0.0
    return replace(belief, mean=mean, covariance=covariance)

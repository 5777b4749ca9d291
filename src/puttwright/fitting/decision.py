"""What a fitting says, as a record: the shape of ``decision.json``."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

KEEP, UNDECIDED = "keep", "undecided"

Interval = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """A figure and how sure we are: posterior mean, sd and central intervals."""

    mean: float
    sd: float
    interval_90: Interval
    interval_50: Interval | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildVerdict:
    """What the readings say of one build.

    ``strokes_saved_per_round`` is against the golfer's own putter, positive is
    better. ``quantities`` holds those of aim_bias_deg, aim_sd_deg,
    start_bias_deg, start_sd_deg, pace_bias_pct, pace_sd_pct, launch_deg,
    skid_m, roll_share_pct, strike_bias_mm and strike_sd_mm that were measured.
    """

    strokes_saved_per_round: Estimate
    probability_better: float
    probability_best: float
    make_pct: Mapping[float, Estimate]
    quantities: Mapping[str, Estimate]
    putts_used: int
    putts_left_out: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A few putts and aim readings with one build before it is laid aside."""

    build_id: str
    putts: int
    aims: int


@dataclass(frozen=True, slots=True, kw_only=True)
class NextTrial:
    """The putts whose outcome is worth most to know.

    ``running_order`` is what to hand over now and after, block by block; it is
    planned anew with every reading and starts with this trial's build. ``why_there``
    says why from that distance, where it matters.
    """

    build_id: str
    distance_m: float
    putts: int
    aims: int
    settles: str
    running_order: tuple[Block, ...] = ()
    why_there: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class RestsOn:
    """Rows of a table, by seq, that a reason rests on."""

    table: str
    seq: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """One sentence in plain words and the readings behind it."""

    text: str
    rests_on: tuple[RestsOn, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelRun:
    """What made the decision, so that it can be made again."""

    version: str
    seed: int
    draws: int
    r_hat_max: float
    ess_min: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """The decision: a build id, ``"keep"`` or ``"undecided"``, with all it rests on.

    ``would_change`` says what would have to turn out differently for another answer.
    """

    choice: str
    spec: Mapping[str, object]
    builds: Mapping[str, BuildVerdict]
    next_trial: NextTrial | None
    reasons: tuple[Reason, ...]
    cautions: tuple[str, ...]
    model: ModelRun
    inputs_sha256: str
    more_putts: int | None = None
    extrapolated: bool = False
    would_change: tuple[Reason, ...] = ()
    notes: Mapping[str, object] = field(default_factory=dict)

"""A decision as ``decision.json`` says it: fixed keys in a fixed order, no NaN, sensible digits.

Figures are rounded to four significant digits, far finer than any interval
here deserves, so that the last bits of a machine's arithmetic do not show.
"""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from typing import Any, Final

from puttwright.fitting.decision import BuildVerdict, Decision, Estimate, NextTrial, Reason

DIGITS: Final = 4
_SPEC_DIGITS: Final = 6
QUANTITIES: Final = (
    "aim_bias_deg",
    "aim_sd_deg",
    "start_bias_deg",
    "start_sd_deg",
    "pace_bias_pct",
    "pace_sd_pct",
    "launch_deg",
    "skid_m",
    "roll_share_pct",
    "strike_bias_mm",
    "strike_sd_mm",
)
"""What may be said of a build, in the order in which it is said."""


def rounded(value: float, *, digits: int = DIGITS) -> float | None:
    """A figure to so many significant digits; ``None`` for what is not finite.

    Examples
    --------
    >>> rounded(0.123456), rounded(-98.7654), rounded(float("nan")), rounded(-0.0)
    (0.1235, -98.77, None, 0.0)
    """
    if not math.isfinite(value):
        return None
    return float(f"{value:.{digits}g}") + 0.0


def _interval(limits: tuple[float, float]) -> list[float | None]:
    return [rounded(limit) for limit in limits]


def _estimate(estimate: Estimate) -> dict[str, Any]:
    return {
        "mean": rounded(estimate.mean),
        "sd": rounded(estimate.sd),
        "interval_90": _interval(estimate.interval_90),
    }


def _strokes(estimate: Estimate) -> dict[str, Any]:
    fifty = estimate.interval_50
    return {
        "mean": rounded(estimate.mean),
        "sd": rounded(estimate.sd),
        "interval_50": None if fifty is None else _interval(fifty),
        "interval_90": _interval(estimate.interval_90),
    }


def _make_pct(make_pct: Mapping[float, Estimate]) -> dict[str, Any]:
    return {
        f"{distance_m:g}": {
            "mean": rounded(make_pct[distance_m].mean),
            "interval_90": _interval(make_pct[distance_m].interval_90),
        }
        for distance_m in sorted(make_pct)
    }


def _quantities(found: Mapping[str, Estimate]) -> dict[str, Any]:
    others = sorted(set(found) - set(QUANTITIES))
    order = [name for name in QUANTITIES if name in found] + others
    return {name: _estimate(found[name]) for name in order if math.isfinite(found[name].mean)}


def _verdict(verdict: BuildVerdict) -> dict[str, Any]:
    return {
        "strokes_saved_per_round": _strokes(verdict.strokes_saved_per_round),
        "probability_better": rounded(verdict.probability_better),
        "probability_best": rounded(verdict.probability_best),
        "make_pct": _make_pct(verdict.make_pct),
        **_quantities(verdict.quantities),
        "putts_used": int(verdict.putts_used),
        "putts_left_out": int(verdict.putts_left_out),
    }


def _next_trial(trial: NextTrial | None) -> dict[str, Any] | None:
    if trial is None:
        return None
    return {
        "build_id": trial.build_id,
        "distance_m": rounded(trial.distance_m),
        "putts": int(trial.putts),
        "aims": int(trial.aims),
        "settles": trial.settles,
        "running_order": [
            {"build_id": block.build_id, "putts": int(block.putts), "aims": int(block.aims)}
            for block in trial.running_order
        ],
        "why_there": trial.why_there,
    }


def _reason(reason: Reason) -> dict[str, Any]:
    rests_on = [
        {"table": rows.table, "seq": [int(seq) for seq in rows.seq]} for rows in reason.rests_on
    ]
    return {"text": reason.text, "rests_on": rests_on}


def _plain(value: object) -> object:
    """A value of a spec as JSON holds it."""
    if isinstance(value, bool | str):
        return value
    if isinstance(value, float):
        return rounded(value, digits=_SPEC_DIGITS)
    return int(value) if isinstance(value, int) else str(value)


def _spec(decision: Decision) -> dict[str, Any]:
    said = {name: _plain(each) for name, each in decision.spec.items() if each is not None}
    return {**said, "extrapolated": True} if decision.extrapolated else said


def to_json(decision: Decision) -> dict[str, Any]:
    """The decision as the object of ``decision.json``.

    Parameters
    ----------
    decision
        Any decision; what is not finite becomes ``null``, and a quantity
        without a finite mean is left out.

    Returns
    -------
    dict
        Only text, numbers, ``bool``, ``None``, lists and dicts, in the order of the contract.
        ``more_putts`` is there only when the choice is "undecided".
    """
    choice: dict[str, Any] = {"choice": decision.choice}
    if decision.more_putts is not None:
        choice["more_putts"] = int(decision.more_putts)
    return {
        **choice,
        "spec": _spec(decision),
        "builds": {name: _verdict(verdict) for name, verdict in decision.builds.items()},
        "next_trial": _next_trial(decision.next_trial),
        "reasons": [_reason(reason) for reason in decision.reasons],
        "would_change": [_reason(each) for each in decision.would_change],
        "cautions": list(decision.cautions),
        "model": {
            "version": decision.model.version,
            "seed": int(decision.model.seed),
            "draws": int(decision.model.draws),
            "r_hat_max": rounded(decision.model.r_hat_max),
            "ess_min": rounded(decision.model.ess_min),
        },
        "inputs_sha256": decision.inputs_sha256,
    }


def to_bytes(decision: Decision) -> bytes:
    """The bytes of ``decision.json``: UTF-8, indented, the same for the same decision."""
    text = json.dumps(to_json(decision), indent=2, ensure_ascii=False, allow_nan=False)
    return (text + "\n").encode("utf-8")

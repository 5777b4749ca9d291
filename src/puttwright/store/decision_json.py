"""A kept decision read back from its ``decision.json``, to be drawn again."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any, Final

from puttwright.fitting.decision import (
    Block,
    BuildVerdict,
    Decision,
    Estimate,
    Interval,
    ModelRun,
    NextTrial,
    Reason,
    RestsOn,
)
from puttwright.fitting.wire import QUANTITIES

_NOT_QUANTITIES: Final = frozenset(
    {
        "strokes_saved_per_round",
        "probability_better",
        "probability_best",
        "make_pct",
        "putts_used",
        "putts_left_out",
    }
)


def decision_from(document: Mapping[str, Any]) -> Decision:
    """The decision a document of ``decision.json`` holds, with its rounded figures.

    Parameters
    ----------
    document
        As ``fitting.wire.to_json`` makes it; ``null`` figures become NaN.
    """
    spec = dict(document["spec"])
    extrapolated = bool(spec.pop("extrapolated", False))
    return Decision(
        choice=document["choice"],
        spec=spec,
        builds={name: _verdict(each) for name, each in document["builds"].items()},
        next_trial=_trial(document["next_trial"]),
        reasons=tuple(_reason(each) for each in document["reasons"]),
        would_change=tuple(_reason(each) for each in document.get("would_change", ())),
        cautions=tuple(document["cautions"]),
        model=ModelRun(**{name: _number(each) for name, each in document["model"].items()}),
        inputs_sha256=document["inputs_sha256"],
        more_putts=document.get("more_putts"),
        extrapolated=extrapolated,
    )


def _number(value: Any) -> Any:
    return math.nan if value is None else value


def _interval(limits: Any) -> Interval | None:
    return None if limits is None else (_number(limits[0]), _number(limits[1]))


def _estimate(document: Mapping[str, Any]) -> Estimate:
    return Estimate(
        mean=_number(document["mean"]),
        sd=_number(document.get("sd")),
        interval_90=_interval(document["interval_90"]) or (math.nan, math.nan),
        interval_50=_interval(document.get("interval_50")),
    )


def _verdict(document: Mapping[str, Any]) -> BuildVerdict:
    measured = [name for name in document if name not in _NOT_QUANTITIES]
    order = sorted(measured, key=lambda name: QUANTITIES.index(name) if name in QUANTITIES else 99)
    return BuildVerdict(
        strokes_saved_per_round=_estimate(document["strokes_saved_per_round"]),
        probability_better=_number(document["probability_better"]),
        probability_best=_number(document["probability_best"]),
        make_pct={float(m): _estimate(each) for m, each in document["make_pct"].items()},
        quantities={name: _estimate(document[name]) for name in order},
        putts_used=document["putts_used"],
        putts_left_out=document["putts_left_out"],
    )


def _trial(document: Mapping[str, Any] | None) -> NextTrial | None:
    """A kept trial; older decisions have no running order."""
    if document is None:
        return None
    order = tuple(Block(**block) for block in document.get("running_order", ()))
    return NextTrial(**{**document, "running_order": order})


def _reason(document: Mapping[str, Any]) -> Reason:
    rests_on = tuple(
        RestsOn(table=rows["table"], seq=tuple(rows["seq"])) for rows in document["rests_on"]
    )
    return Reason(text=document["text"], rests_on=rests_on)

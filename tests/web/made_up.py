"""A quick decision made up from counts alone, for tests of the pages that show one."""

from __future__ import annotations

from puttwright.evidence import Fitting
from puttwright.evidence.fingerprint import inputs_sha256
from puttwright.fitting.decision import (
    Block,
    BuildVerdict,
    Decision,
    Estimate,
    ModelRun,
    NextTrial,
    Reason,
    RestsOn,
)

ENOUGH = 4
"""With so many putts the second build is chosen, so that a test can see a decision change."""


def _estimate(mean: float, *, half: float) -> Estimate:
    return Estimate(
        mean=mean,
        sd=half / 1.645,
        interval_90=(mean - half, mean + half),
        interval_50=(mean - half / 3, mean + half / 3),
    )


def _verdict(fitting: Fitting, build_id: str, *, place: int) -> BuildVerdict:
    putts = [putt for putt in fitting.putts if putt.build_id == build_id]
    used = sum(not putt.void for putt in putts)
    half = 1.5 / (1 + len(fitting.used_putts)) ** 0.5
    aims = [aim for aim in fitting.aims if aim.build_id == build_id]
    quantities = {"aim_bias_deg": _estimate(0.4, half=0.3)} if aims else {}
    return BuildVerdict(
        strokes_saved_per_round=_estimate(0.3 * place, half=half),
        probability_better=0.5 if place == 0 else 0.8,
        probability_best=1 / len(fitting.builds),
        make_pct={d: _estimate(90 - 10 * d, half=5) for d in (1.0, 2.0, 4.0)},
        quantities=quantities,
        putts_used=used,
        putts_left_out=len(putts) - used,
    )


def made_up(fitting: Fitting) -> Decision:
    """Undecided at first, then the second build."""
    seqs = tuple(putt.seq for putt in fitting.used_putts)
    settled = len(seqs) >= ENOUGH and len(fitting.builds) > 1
    chosen = fitting.builds[1 if settled else 0]
    spec = {"build_id": chosen.build_id, "length_mm": chosen.length_mm}
    spec |= {"lie_deg": chosen.lie_deg, "loft_deg": chosen.loft_deg}
    trial = NextTrial(
        build_id=fitting.builds[-1].build_id,
        distance_m=3.0,
        putts=6,
        aims=0,
        settles="which",
        running_order=tuple(
            Block(build_id=build.build_id, putts=6, aims=0) for build in reversed(fitting.builds)
        ),
    )
    return Decision(
        choice=chosen.build_id if settled else "undecided",
        more_putts=None if settled else ENOUGH - len(seqs),
        spec=spec,
        builds={
            build.build_id: _verdict(fitting, build.build_id, place=place)
            for place, build in enumerate(fitting.builds)
        },
        next_trial=trial,
        reasons=(
            Reason(
                text=f"It rests on {len(seqs)} putts.",
                rests_on=(RestsOn(table="putts", seq=seqs),),
            ),
        ),
        would_change=(
            Reason(text="More putts would.", rests_on=(RestsOn(table="putts", seq=seqs),)),
        ),
        cautions=("Mind that this is made up.",),
        model=ModelRun(version="0.1.0", seed=1, draws=1, r_hat_max=1.0, ess_min=1.0),
        inputs_sha256=inputs_sha256(fitting),
    )

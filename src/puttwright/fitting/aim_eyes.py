"""Does aim differ by where the eyes are: over the ball line, inside it, outside it."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import Final

import numpy as np

from puttwright.evidence import Fitting
from puttwright.fitting.believe import Belief
from puttwright.fitting.decision import Estimate, Reason, RestsOn
from puttwright.fitting.phrases import sideways_phrase
from puttwright.fitting.value import estimate

OVER_MM: Final = 10.0
"""Eyes are over the line within so much of it; a plumb line is read no finer."""
WHERE: Final = ("over", "inside", "outside")


@dataclass(frozen=True, slots=True, kw_only=True)
class AimByEyes:
    """Mean aim of the builds with the eyes at one place [°], right positive.

    ``against`` is how it differs from the first place there is, which has none itself.
    """

    where: str
    build_ids: tuple[str, ...]
    aim_deg: Estimate
    against: Estimate | None = None


def where_of(eyes_mm: float, /) -> str:
    """Over, inside or outside the ball line.

    Examples
    --------
    >>> where_of(4.0), where_of(35.0), where_of(-20.0)
    ('over', 'inside', 'outside')
    """
    if abs(eyes_mm) <= OVER_MM:
        return "over"
    return "inside" if eyes_mm > 0 else "outside"


def aim_by_eyes(fitting: Fitting, belief: Belief) -> tuple[AimByEyes, ...]:
    """Aim told apart by where the eyes were, builds of one place pooled alike.

    Builds count that were aimed with and whose eyes were measured. Builds differ by more
    than the eyes, so this is a comparison, not a cause.
    """
    draws = belief.posterior.draws.get("aim")
    if draws is None:
        return ()
    places: dict[str, list[int]] = defaultdict(list)
    for index, build in enumerate(belief.builds):
        eyes = [
            setup.eye_inside_mm
            for setup in fitting.setups
            if setup.build_id == build.build_id and setup.eye_inside_mm is not None
        ]
        if eyes and belief.gathered.seqs("aim", build_id=build.build_id):
            places[where_of(float(np.mean(eyes)))].append(index)
    means = {
        place: draws.location[:, places[place]].mean(axis=1) for place in WHERE if places[place]
    }
    first = next(iter(means.values()), None)
    return tuple(
        AimByEyes(
            where=place,
            build_ids=tuple(belief.builds[index].build_id for index in places[place]),
            aim_deg=estimate(mean),
            against=None if mean is first else estimate(mean - first),
        )
        for place, mean in means.items()
    )


def eyes_reasons(fitting: Fitting, belief: Belief) -> tuple[Reason, ...]:
    """The comparison in words, where there are two places to compare."""
    found = aim_by_eyes(fitting, belief)
    if len(found) < 2:
        return ()
    told = "; ".join(
        f"eyes {each.where} the line: {sideways_phrase(each.aim_deg)}" for each in found
    )
    against = [each.against for each in found if each.against]
    differs = any(each.interval_90[0] * each.interval_90[1] > 0.0 for each in against)
    verdict = "they differ" if differs else "no difference that could be told"
    builds = {build_id for each in found for build_id in each.build_ids}
    rests_on = (
        RestsOn(table="setups", seq=_seqs(fitting.setups, builds)),
        RestsOn(table="aims", seq=_seqs(fitting.aims, builds)),
    )
    return (Reason(text=f"Aim by where the eyes are: {told}; {verdict}.", rests_on=rests_on),)


def _seqs(readings: tuple[object, ...], builds: set[str]) -> tuple[int, ...]:
    return tuple(each.seq for each in readings if each.build_id in builds)  # type: ignore[attr-defined]

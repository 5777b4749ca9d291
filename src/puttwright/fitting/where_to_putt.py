"""From where to putt next, so that the putts tell the most.

A putt that drops shows only that its line and length lay within what the hole
takes; one that stops beside or behind it shows both. So where a tape measure is
all there is, putts from far off tell more; where a sensor reads every putt, the
distance does not matter; and where only holed or missed is noted, an even chance
of either tells the most.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from puttwright.evidence import Fitting, Putt
from puttwright.fitting.readings import Gathered

USUAL_M: Final = (2.4, 3.6, 6.0)
"""8, 12 and 20 ft: within reach on a practice green, long enough to read a roll; no source."""
_FEW_DROP: Final = "few drop from there, and a putt that stops tells its line and length"
_EVENS: Final = "about as many drop as miss from there, which says most where no stop is measured"


@dataclass(frozen=True, slots=True, kw_only=True)
class Where:
    """A distance in metres and, where the distance matters, why that one."""

    distance_m: float
    why: str = ""


def where_to_putt(fitting: Fitting, gathered: Gathered) -> Where:
    """The distance from which the next putts tell the most.

    Parameters
    ----------
    fitting
        Whose putts so far show what is measured of a putt.
    gathered
        The readings belief made of them.

    Returns
    -------
    Where
        One of the distances putted from so far; of :data:`USUAL_M` where that was one or none.
    """
    putts = fitting.used_putts
    putted = sorted({putt.distance_m for putt in putts})
    told = _told(gathered)
    holed = [putt for putt in putts if putt.holed]
    missed = [putt for putt in putts if putt.holed is False]
    if holed and _most_told(holed, told):
        return Where(distance_m=float(np.median([putt.distance_m for putt in putts])))
    if missed and not _most_told(missed, told):
        return Where(distance_m=_nearest_to_evens(holed, missed), why=_EVENS)
    return Where(distance_m=max(putted if len(putted) > 1 else (*putted, *USUAL_M)), why=_FEW_DROP)


def _told(gathered: Gathered) -> set[int]:
    """Putts whose line and length were both measured, by seq."""
    return set.intersection(
        *({row.seq for row in gathered.rows[each] if math.isfinite(row.value)}
          for each in ("start", "pace"))
    )  # fmt: skip


def _most_told(putts: list[Putt], told: set[int]) -> bool:
    return 2 * sum(putt.seq in told for putt in putts) >= len(putts)


def _nearest_to_evens(holed: list[Putt], missed: list[Putt]) -> float:
    """The distance putted from whose share of holed putts is nearest to a half."""

    def unevenness(distance_m: float) -> tuple[float, float]:
        ins = sum(putt.distance_m == distance_m for putt in holed)
        outs = sum(putt.distance_m == distance_m for putt in missed)
        return abs((ins + 0.5) / (ins + outs + 1.0) - 0.5), distance_m

    return min({putt.distance_m for putt in (*holed, *missed)}, key=unevenness)

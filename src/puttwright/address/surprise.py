"""Does what was measured go with the rest: each address held against what the others foretell."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.special import gammaincc

from puttwright.address.linkage import GOLFER_SIZE, heights_m
from puttwright.address.pose import Floats
from puttwright.address.posterior import (
    MEASURED,
    Address,
    AddressBelief,
    Heights,
    learn,
    slopes,
)
from puttwright.address.predict import predict
from puttwright.address.usual import HEIGHT_SD_M, MEASURED_SD_M, TOLD_OVER_M, TOLD_SD_M

_ERRORS: Final = {
    "stature": MEASURED_SD_M,
    "shoulder": HEIGHT_SD_M,
    "wrist": HEIGHT_SD_M,
    "hip": HEIGHT_SD_M,
}
DOUBTFUL: Final = 0.01
"""A reading less likely than this among golfers of that body is told."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Surprise:
    """How one address or the tape's heights (``seq`` None) go with everything else.

    ``probability`` is that of lying at least so far off if all is well; ``name`` the figure
    that lies furthest, with what was ``read`` and what was ``expected``, give or take ``sd``.
    """

    seq: int | None
    probability: float
    name: str
    read: float
    expected: float
    sd: float

    @property
    def doubtful(self) -> bool:
        """Whether it ought to be measured again."""
        return self.probability < DOUBTFUL


def surprises(belief: AddressBelief) -> tuple[Surprise, ...]:
    """The heights against each other, if several, and every address against all the rest."""
    readings = [one for one in belief.addresses if not np.isnan(one.read).all()]
    return (*_of_heights(belief.heights), *(_of_address(belief, one) for one in readings))


def _of_address(belief: AddressBelief, one: Address) -> Surprise:
    others = [address for address in belief.addresses if address is not one]
    foretold = predict(learn(belief.heights, others, read_to=belief.read_to), one.held)
    count, known = len(MEASURED), ~np.isnan(one.read)
    spread = foretold.covariance[:count, :count] + np.diag(belief.noise**2)
    return _judged(
        seq=one.seq,
        names=[name for name, has in zip(MEASURED, known, strict=True) if has],
        wrong=(one.read - foretold.mean[:count])[known],
        read=one.read[known],
        covariance=spread[np.ix_(known, known)],
    )


def _of_heights(heights: Heights) -> tuple[Surprise, ...]:
    read = {name: getattr(heights, f"{name}_m") for name in _ERRORS}
    names = [name for name, value in read.items() if value is not None]
    if len(names) < 2:
        return ()
    kinds = ["barefoot" if name == "stature" and heights.told else name for name in names]
    golfer = np.zeros(GOLFER_SIZE)

    def stand(at: Floats) -> Floats:
        return np.stack([heights_m(at)[kind] for kind in kinds], axis=-1)

    told = np.array([TOLD_OVER_M if kind == "barefoot" else 0.0 for kind in kinds])
    errors = [TOLD_SD_M if kind == "barefoot" else _ERRORS[kind] for kind in kinds]
    slope = slopes(stand, golfer)
    values = np.array([read[name] for name in names])
    return (
        _judged(
            seq=None,
            names=[f"{name}_m" for name in names],
            wrong=values - stand(golfer) - told,
            read=values,
            covariance=slope @ slope.T + np.diag(np.square(errors)),
        ),
    )


def _judged(
    *, seq: int | None, names: Sequence[str], wrong: Floats, read: Floats, covariance: Floats
) -> Surprise:
    """Mahalanobis distance, its chi-square tail, and the figure furthest from what the others say.

    A row of the precision matrix gives a figure's error given all other figures.
    """
    precision = np.linalg.inv(covariance)
    square = float(wrong @ precision @ wrong)
    sds = 1.0 / np.sqrt(np.diag(precision))
    wrong = sds**2 * (precision @ wrong)
    worst = int(np.argmax(np.abs(wrong) / sds))
    return Surprise(
        seq=seq,
        probability=float(gammaincc(0.5 * wrong.size, 0.5 * square)),
        name=names[worst],
        read=float(read[worst]),
        expected=float(read[worst] - wrong[worst]),
        sd=float(sds[worst]),
    )

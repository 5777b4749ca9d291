"""How long first putts are, where the golfer's own were not counted.

Derived by ``scripts/derive_first_putts.py`` from the counts of Broadie 2018 and
the leaves of Fearing, Acimovic & Graves 2011: a tour player's eighteen holes.
A club golfer's differ (closer after more chips, longer after wilder approaches);
counting a few rounds is better than this table, and a decision says when it was used.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from puttwright.evidence import FirstPutt
from puttwright.units import FOOT_M

_LENGTH_FT_AND_PER_ROUND: Final = (
    (1.4, 2.394),
    (3.4, 1.415),
    (5.4, 1.319),
    (7.4, 1.327),
    (9.4, 1.271),
    (11.9, 1.659),
    (15.4, 1.784),
    (19.4, 1.399),
    (23.9, 1.402),
    (30.2, 1.644),
    (39.8, 1.454),
    (56.1, 0.931),
)

TOUR_FIRST_PUTTS: Final = tuple(
    FirstPutt(distance_m=length * FOOT_M, per_round=count)
    for length, count in _LENGTH_FT_AND_PER_ROUND
)


def first_putts_or_default(own: Sequence[FirstPutt]) -> tuple[FirstPutt, ...]:
    """The golfer's own first putts, or the sourced default where there are none."""
    return tuple(own) or TOUR_FIRST_PUTTS

"""Which way is positive: our side of each column, the other one, and which a file may mean."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from puttwright.evidence.signs import toe_side

SIDES: Final[Mapping[str, tuple[str, str]]] = {
    "stop_past_m": ("past", "short"),
    "stop_right_m": ("right", "left"),
    "launch_deg": ("up", "down"),
    "start_deg": ("right", "left"),
    "spin_rpm": ("forward", "backward"),
    "face_deg": ("right", "left"),
    "path_deg": ("right", "left"),
    "attack_deg": ("up", "down"),
    "shaft_lean_deg": ("forward", "backward"),
    "closure_deg_s": ("right", "left"),
    "strike_toe_mm": ("toe", "heel"),
    "strike_high_mm": ("up", "down"),
    "reading_mm": ("right", "left"),
    "eye_inside_mm": ("inside", "outside"),
    "eye_behind_mm": ("behind", "forward"),
    "sole_tilt_deg": ("up", "down"),
    "ball_forward_mm": ("forward", "backward"),
}
"""The side that is positive with us, and the one that is negative."""
AGREED: Final = frozenset({"launch_deg", "attack_deg", "strike_high_mm"})
"""Up is positive with everybody; common practice, no source."""
_BY_HAND: Final = {"face_deg": ("open", "closed"), "closure_deg_s": ("open", "closed")}


def signs_of(column: str, *, handed: str) -> dict[str, int]:
    """Each side that a column may name, and its sign with us.

    Examples
    --------
    >>> signs_of("face_deg", handed="left")
    {'right': 1, 'left': -1, 'open': -1, 'closed': 1}
    >>> signs_of("strike_toe_mm", handed="left")
    {'toe': 1, 'heel': -1, 'right': -1, 'left': 1}
    """
    if column not in SIDES:
        return {}
    ours, other = SIDES[column]
    signs = {ours: 1, other: -1}
    hand = toe_side(handed)
    if column in _BY_HAND:
        opened, closed = _BY_HAND[column]
        signs |= {opened: hand, closed: -hand}
    if column == "strike_toe_mm":
        signs |= {"right": hand, "left": -hand}
    return signs


def other_side(column: str, side: str) -> str:
    """The side across.

    Examples
    --------
    >>> other_side("face_deg", "open"), other_side("strike_toe_mm", "right")
    ('closed', 'left')
    """
    signs = signs_of(column, handed="right")
    kin = [("right", "left"), _BY_HAND.get(column, ()), SIDES[column]]
    pairs = [pair for pair in kin if len(pair) == 2 and side in pair and set(pair) <= set(signs)]
    return pairs[0][1 - pairs[0].index(side)]

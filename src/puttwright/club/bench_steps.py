"""The order of work at the vice, and where it can hurt."""

from __future__ import annotations

import math
from typing import Final

from puttwright.club.alloys import ASK, Verdict
from puttwright.club.bend import Bent

CAUTIONS: Final = (
    "Eye protection, before the vice is closed.",
    "Pad the jaws, hold the head and not the shaft, keep your face out of the bar's way.",
    "A neck springs back: what you see under load is not what stays.",
    "A crack can hide under plating. Whitening, a line, sudden ease: stop; never bend it back.",
    "No heat unless the maker of the head says so; never near a glued joint.",
    "Local rules come first; work beyond your practice goes to a club repair professional.",
)


def order_of_work(done: Bent, /, *, verdict: Verdict) -> tuple[str, ...]:
    """The steps of a bend, with the angles to reach; the lie first, because the loft bend keeps it.

    Examples
    --------
    >>> from puttwright.club.alloys import judge_bend
    >>> from puttwright.club.bend import Set, bent, turns_for
    >>> was = Set(loft_rad=0.05, lie_rad=1.22)
    >>> done = bent(was, turns=turns_for(was, add_lie_rad=0.02))
    >>> verdict = judge_bend(bend_rad=done.bend_rad, alloy="carbon_steel", neck="one_piece")
    >>> order_of_work(done, verdict=verdict)[2]
    'Bend the lie 1.1° upright, to 71.0°.'
    """
    if done.bend_rad < math.radians(0.05):
        return ("Nothing to bend: loft and lie stay as they are.",)
    ask = [f"Stop: {verdict.why}."] if verdict.verdict == ASK else []
    return (
        *ask,
        "Put on eye protection; find out what the head is made of and how the neck is joined.",
        "Read loft and lie three times each; note where the face looks against the grip.",
        *_moves(done),
        "Take it out of the vice, let it rest, read loft and lie both three times again.",
        "Look at the neck all round with a glass; any line or whitening ends its life.",
        "Check hang, offset and where the face looks against the grip; read again the next day.",
    )


def _moves(done: Bent) -> list[str]:
    was, after, turns = done.was, done.after, done.turns
    moves = []
    if abs(turns.lie_rad) >= math.radians(0.05):
        way = "upright" if turns.lie_rad > 0 else "flat"
        reach = math.degrees(was.lie_rad + turns.lie_rad)
        moves.append(f"Bend the lie {_degrees(turns.lie_rad)} {way}, to {reach:.1f}°.")
    if abs(turns.loft_rad) >= math.radians(0.05):
        way = "weaker" if turns.loft_rad > 0 else "stronger"
        reach = math.degrees(after.loft_rad)
        about = "along the sole" if turns.bar == "sole" else "square to the shaft"
        by = _degrees(turns.loft_rad)
        moves.append(f"Bend the loft {by} {way}, to {reach:.1f}°, the bar's axis {about}.")
    return moves


def _degrees(angle_rad: float) -> str:
    return f"{abs(math.degrees(angle_rad)):.1f}°"

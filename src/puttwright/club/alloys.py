"""What may be bent and how far: by alloy, by neck, by what the rack says of a head.

Trade articles agree on little more than this: many heads take about 2 degrees, some
soft castings 4, some none at all, and it is the alloy that decides. So 2 is our cap,
beyond it a club repair professional is asked, beyond 4 we refuse.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from puttwright.club.targets import BEND_ASK_DEG, BEND_REFUSE_DEG
from puttwright.errors import UserError

CAP_DEG: Final = BEND_ASK_DEG
REFUSE_DEG: Final = BEND_REFUSE_DEG
_HAIR_DEG: Final = 1e-6

WITHIN, ASK, REFUSE = "within", "ask", "refuse"


@dataclass(frozen=True, slots=True, kw_only=True)
class Alloy:
    """A metal: whether it may be bent, up to where without asking, and why."""

    said: str
    cap_deg: float
    why: str
    source: str = "common practice, no source"

    @property
    def never(self) -> bool:
        """Nothing made of it is bent."""
        return self.cap_deg == 0.0


_ARTICLES: Final = "trade articles (second hand)"
ALLOYS: Final = {
    "carbon_steel": Alloy(said="carbon steel", cap_deg=CAP_DEG, why="soft (HRB 70 to 80)",
                          source=_ARTICLES),
    "stainless_304": Alloy(said="303 or 304 stainless", cap_deg=CAP_DEG, why="soft and tough"),
    "stainless_431": Alloy(said="431 stainless", cap_deg=CAP_DEG, why="HRC 18 to 25",
                           source=_ARTICLES),
    "stainless_17_4": Alloy(said="17-4 stainless", cap_deg=1.0,
                            why="hard (HRC 34 to 38): springs back and may crack",
                            source=_ARTICLES + "; the cap of 1° is our judgement"),
    "brass": Alloy(said="brass or bronze", cap_deg=1.0,
                   why="cast brass cracks without warning; the cap is our judgement"),
    "titanium": Alloy(said="titanium", cap_deg=0.0, why="springs back, then cracks"),
    "aluminium": Alloy(said="aluminium", cap_deg=0.0, why="cracks"),
    "zinc": Alloy(said="zinc", cap_deg=0.0, why="snaps"),
    "plastic": Alloy(said="plastic or carbon composite", cap_deg=0.0, why="breaks"),
}  # fmt: skip
NECKS: Final = {
    "one_piece": "",
    "welded": "",
    "screwed": "a screwed-in neck turns or strips its thread",
    "glued": "a glued neck lets go",
    "shaft": "the shaft goes straight into the head, there is no neck",
}
"""How the neck is joined, and why it may not be bent ("" if it may)."""
UNKNOWN: Final = "unknown"


class NotBendable(UserError):
    """Such a head is not to be bent: {why}; what is possible is a head or neck made to the wanted loft and lie."""  # noqa: E501

    code = "not-bendable"


class BendTooFar(UserError):
    """A bend of {wanted_deg:.1f}° is beyond what {said} takes; up to {cap_deg:g}° is usual and {most_deg:g}° the most anyone should try{before}."""  # noqa: E501

    code = "bend-too-far"


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """``within``, ``ask`` or ``refuse``, and why in a sentence."""

    verdict: str
    why: str
    most_deg: float


def judge_bend(
    *, bend_rad: float, alloy: str = UNKNOWN, neck: str = UNKNOWN, before_rad: float = 0.0
) -> Verdict:
    """Whether a neck may be bent so far.

    Parameters
    ----------
    bend_rad
        Angle the neck turns through, loft and lie together.
    alloy, neck
        Keys of :data:`ALLOYS` and :data:`NECKS`, or "unknown": then nothing is recommended.
    before_rad
        All it was bent before, there and back: metal remembers.

    Returns
    -------
    Verdict
        "refuse" is a verdict; :func:`refuse_bend` makes an error of it.

    Examples
    --------
    >>> judge_bend(bend_rad=0.0349, alloy="carbon_steel", neck="one_piece").verdict
    'within'
    >>> judge_bend(bend_rad=0.01, alloy="zinc", neck="one_piece").verdict
    'refuse'
    """
    wanted = math.degrees(abs(bend_rad) + abs(before_rad))
    metal, joint = ALLOYS.get(alloy), NECKS.get(neck)
    never = (metal.never and f"{metal.said} {metal.why}") if metal else joint
    if wanted < _HAIR_DEG:
        return Verdict(verdict=WITHIN, why="nothing to bend", most_deg=REFUSE_DEG)
    if never or joint:
        return Verdict(verdict=REFUSE, why=never or joint or "", most_deg=0.0)
    if metal is None or joint is None:
        return _unknown(wanted, missing="alloy" if metal is None else "neck")
    return _for_metal(metal, wanted)


def _unknown(wanted_deg: float, *, missing: str) -> Verdict:
    why = f"the {missing} is not known, so no bend can be recommended: find out first"
    far = wanted_deg > REFUSE_DEG + _HAIR_DEG
    return Verdict(verdict=REFUSE if far else ASK, why=why, most_deg=REFUSE_DEG)


def _for_metal(metal: Alloy, wanted_deg: float) -> Verdict:
    cap, most = metal.cap_deg, 2.0 * metal.cap_deg
    if wanted_deg > most + _HAIR_DEG:
        why = f"{metal.said} is not bent beyond {most:g}°"
        return Verdict(verdict=REFUSE, why=why, most_deg=most)
    if wanted_deg > cap + _HAIR_DEG:
        why = f"beyond {cap:g}° for {metal.said} ask a club repair professional first"
        return Verdict(verdict=ASK, why=why, most_deg=most)
    why = f"within the usual {cap:g}° for {metal.said} ({metal.why})"
    return Verdict(verdict=WITHIN, why=why, most_deg=most)


def refuse_bend(
    *, bend_rad: float, alloy: str = UNKNOWN, neck: str = UNKNOWN, before_rad: float = 0.0
) -> Verdict:
    """The verdict, or an error that says what would be possible.

    Parameters
    ----------
    bend_rad, alloy, neck, before_rad
        As for :func:`judge_bend`.

    Returns
    -------
    Verdict
        "within" or "ask".

    Raises
    ------
    NotBendable, BendTooFar
        The head is never bent, or not so far.

    Examples
    --------
    >>> refuse_bend(bend_rad=0.05, alloy="stainless_431", neck="one_piece").verdict
    'ask'
    """
    found = judge_bend(bend_rad=bend_rad, alloy=alloy, neck=neck, before_rad=before_rad)
    if found.verdict != REFUSE:
        return found
    if found.most_deg == 0.0:
        raise NotBendable(why=found.why)
    metal = ALLOYS.get(alloy)
    bent = math.degrees(abs(before_rad))
    raise BendTooFar(
        wanted_deg=math.degrees(abs(bend_rad)) + bent,
        said=metal.said if metal else "a neck",
        cap_deg=metal.cap_deg if metal else CAP_DEG,
        most_deg=found.most_deg,
        before=f", the {bent:.1f}° it was bent before among them" if bent else "",
    )

"""The address in plain words: where the eyes are, what is wanted, what to doubt, when to stop."""

from __future__ import annotations

import math
from typing import Final

from puttwright.address.surprise import Surprise
from puttwright.evidence.signs import side_word
from puttwright.fitting.at_address import AtAddress, BuildAddress
from puttwright.fitting.decision import Estimate
from puttwright.fitting.phrases import THIN, chances, figure, give_or_take, interval, measure

COMFORT: Final = (
    "Comfort decides: nobody bends further than is easy. Pain, numbness or weakness means stop "
    "and see a clinician; this is no diagnosis."
)
MOST_BEND_DEG: Final = 2.0
MADE_MM: Final = (762.0, 914.4)
"""30 to 36 in; common practice, no source."""
STEEPEST_DEG: Final = 80.0
"""The shaft must diverge 10° from the vertical (Equipment Rules, part 2)."""
_OVER_MM: Final = 5.0
_SEEN_DEG: Final = 0.05

_NAMES: Final = {
    "eye_inside_m": ("eyes inside the line", "mm", 1e3),
    "eye_behind_m": ("eyes behind the ball", "mm", 1e3),
    "hands_height_m": ("hands above ground", "mm", 1e3),
    "sole_tilt_rad": ("sole", "°", math.degrees(1.0)),
    "stature_m": ("standing height", "mm", 1e3),
    "shoulder_m": ("shoulder height", "mm", 1e3),
    "wrist_m": ("wrist height", "mm", 1e3),
    "hip_m": ("hip height", "mm", 1e3),
}


def eyes_phrase(eyes_mm: Estimate, /) -> str:
    """Where the eyes are, with the doubt.

    Examples
    --------
    >>> eyes_phrase(Estimate(mean=41.2, sd=6, interval_90=(31, 51))).replace(chr(8201), " ")
    'the eyes 41 mm inside, give or take 10 mm'
    """
    doubt = f"give or take {measure(max(give_or_take(eyes_mm.interval_90), 1.0), 'mm')}"
    if abs(eyes_mm.mean) < _OVER_MM:
        return f"the eyes over the ball line, {doubt}"
    side = "inside" if eyes_mm.mean > 0 else "outside"
    return f"the eyes {measure(abs(eyes_mm.mean), 'mm')} {side}, {doubt}"


def with_range(estimate: Estimate, unit: str, *, digits: int = 0) -> str:
    """A figure and its 90 % interval beside it.

    Examples
    --------
    >>> with_range(Estimate(mean=71.3, sd=1, interval_90=(69.6, 73.0)), "°")
    '71° (70 to 73°)'
    """
    low, high = estimate.interval_90
    ends = f"{figure(low, digits=digits)} to {measure(high, unit, digits=digits)}"
    return f"{measure(estimate.mean, unit, digits=digits)} ({ends})"


def _turned_round(estimate: Estimate) -> Estimate:
    """Its size, where the sign is said in words."""
    if estimate.mean >= 0:
        return estimate
    low, high = estimate.interval_90
    return Estimate(mean=-estimate.mean, sd=estimate.sd, interval_90=(-high, -low))


def address_words(found: AtAddress, /) -> tuple[str, ...]:
    """What the address says, the most important first."""
    return (_now(found), _wish(found), *_hang(found), *_soles(found))


def _now(found: AtAddress) -> str:
    own = found.own
    where = eyes_phrase(own.eyes_mm)
    if not found.measured:
        return (
            f"No address was measured. A body of that height usually has {where}, with "
            f"{own.build.name}; measure one and this becomes the golfer's own."
        )
    how = "has" if own.measured else "would have"
    return (
        f"With {own.build.name} the golfer {how} {where}; "
        f"the hands are {with_range(own.hands_mm, 'mm')} above the ground."
    )


def _wish(found: AtAddress) -> str:
    want = found.wanted
    low, high = found.window_mm
    return (
        f"For eyes {interval((low, high), digits=0)}{THIN}mm inside, the hands hanging and the "
        f"sole flush: length {with_range(want.length_mm, 'mm')}, "
        f"lie {with_range(want.lie_deg, '°')}. The chance that it brings the eyes there is "
        f"{chances(want.in_window)}, so try it before it is made."
    )


def _hang(found: AtAddress) -> tuple[str, ...]:
    """Said where the hands surely do not hang: the whole interval is to one side."""
    out = found.own.hands_out_mm
    if not found.measured or _may_be_none(out):
        return ()
    way = "nearer the ball than" if out.mean > 0 else "nearer the body than"
    return (
        (
            f"The hands are {with_range(_turned_round(out), 'mm')} {way} a plumb line through the "
            "shoulders: the arms do not hang. Should they stay so, the putter above puts "
            f"{eyes_phrase(found.wanted.eyes_as_now_mm)}."
        ),
    )


def _soles(found: AtAddress) -> tuple[str, ...]:
    return tuple(_sole(each) for each in found.builds if not _may_be_none(each.sole_tilt_deg))


def _may_be_none(estimate: Estimate) -> bool:
    low, high = estimate.interval_90
    return low <= 0.0 <= high


def _sole(each: BuildAddress) -> str:
    end = "toe" if each.sole_tilt_deg.mean > 0 else "heel"
    tilt = with_range(_turned_round(each.sole_tilt_deg), "°", digits=1)
    turn = each.face_deg.mean
    faces = ""
    if abs(turn) >= _SEEN_DEG:
        faces = f"; with its loft that turns the face {measure(abs(turn), '°', digits=1)} "
        faces += side_word(turn)
    flush = with_range(each.flush_lie_deg, "°", digits=1)
    name = each.build.name
    return (
        f"{name[:1].upper()}{name[1:]} is soled with the {end} up {tilt}{faces}. "
        f"In those hands a lie of {flush} lies flush."
    )


def address_cautions(found: AtAddress, /) -> tuple[str, ...]:
    """What belongs beside it: contradictions, reach, limits, and comfort always."""
    return (
        *(_contradiction(each) for each in found.surprises),
        *_reach(found),
        *_made(found),
        *(_ADULTS if found.minor else ()),
        *(() if found.settled else ("The search did not settle: take the figures as rough.",)),
        COMFORT,
    )


_ADULTS: Final = ("The bodies behind this are adults of 17 to 58; a child's proportions differ.",)


def _contradiction(each: Surprise) -> str:
    name, unit, factor = _NAMES[each.name]
    digits = 1 if unit == "°" else 0
    read, expected = (
        measure(factor * value, unit, digits=digits) for value in (each.read, each.expected)
    )
    doubt = measure(factor * 1.645 * each.sd, unit, digits=digits)
    what = "The heights" if each.seq is None else f"Address {each.seq}"
    return (
        f"{what} and the rest do not go together: {name} was read as {read}, everything else "
        f"says {expected}, give or take {doubt}. Measure it again."
    )


def _reach(found: AtAddress) -> tuple[str, ...]:
    unlike = [each.build.name for each in found.builds if each.unlike]
    guess = [each.build.name for each in found.builds if each.guess and not each.unlike]
    said = []
    if unlike:
        said.append(f"Nobody stands like that to {', '.join(unlike)}: these figures mean nothing.")
    if guess:
        said.append(f"{', '.join(guess)}: further from what was measured than can be told well.")
    return tuple(said)


def _made(found: AtAddress) -> tuple[str, ...]:
    want, said = found.wanted, []
    if not MADE_MM[0] <= want.length_mm.mean <= MADE_MM[1]:
        said.append("The length wanted lies outside 30 to 36 in, in which putters are mostly made.")
    if want.lie_deg.mean > STEEPEST_DEG:
        said.append("The lie wanted is steeper than 80°, the most the Equipment Rules allow.")
    change = want.lie_deg.mean - found.own.build.lie_deg
    if abs(change) > MOST_BEND_DEG:
        way = "more upright" if change > 0 else "flatter"
        said.append(
            f"The lie wanted is {measure(abs(change), '°', digits=1)} {way} than that of "
            f"{found.own.build.name}; a neck is bent 2° at most here. Ask a club repair "
            "professional, or look for another head."
        )
    return tuple(said)

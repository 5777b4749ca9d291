"""The next trial told as the decision tells it, with the running order it begins."""

from __future__ import annotations

from typing import TYPE_CHECKING

from puttwright.fitting.choose import costed
from puttwright.fitting.decision import Block, NextTrial
from puttwright.fitting.next_trial import BATCH, BATCH_AIMS, FIRST_TRIAL, putt_noise
from puttwright.fitting.running_order import running_order, so_far
from puttwright.fitting.where_to_putt import where_to_putt

if TYPE_CHECKING:
    from puttwright.fitting.decide import Weighed


def next_trial_of(weighed: Weighed) -> NextTrial | None:
    """What to hand over now and after; none when no further putts are worth taking."""
    if weighed.choice.outlook.enough:
        untried = weighed.choice.untried
        if untried is None:
            return None
        settles = _settles(weighed, untried)
        return confirming(weighed, weighed.builds[untried].build_id, settles=settles)
    done = so_far(weighed.fitting, builds=weighed.builds)
    noise = putt_noise(weighed.values.putts, pattern=weighed.pattern)
    order = running_order(done, costed(weighed.values.putts), noise=noise)
    blocks = tuple(_block(weighed, b, putts) for b, putts in order)
    where = where_to_putt(weighed.fitting, weighed.belief.gathered)
    return NextTrial(
        build_id=blocks[0].build_id,
        distance_m=where.distance_m,
        putts=blocks[0].putts,
        aims=blocks[0].aims,
        settles=_settles(weighed, order[0][0]),
        running_order=blocks,
        why_there=where.why,
    )


def confirming(weighed: Weighed, build_id: str, *, settles: str) -> NextTrial:
    """A short trial of a build nobody putted with, with what it would replace in between."""
    standing = weighed.chosen or weighed.builds[0]
    aims = BATCH_AIMS if weighed.belief.gathered.rows["aim"] else 0
    where = where_to_putt(weighed.fitting, weighed.belief.gathered)
    return NextTrial(
        build_id=build_id,
        distance_m=where.distance_m,
        putts=FIRST_TRIAL,
        aims=2 * BATCH_AIMS,
        settles=settles,
        running_order=tuple(
            Block(build_id=each, putts=BATCH, aims=aims)
            for each in (build_id, standing.build_id, build_id)
        ),
        why_there=where.why,
    )


def _block(weighed: Weighed, b: int, putts: int) -> Block:
    """Aim readings go with every whole block, where aim is read at all."""
    aims = BATCH_AIMS * (putts // BATCH) if weighed.belief.gathered.rows["aim"] else 0
    return Block(build_id=weighed.builds[b].build_id, putts=putts, aims=aims)


def _settles(weighed: Weighed, b: int) -> str:
    own = weighed.builds[0].name
    if b == 0:
        return "how good the golfer's own putter really is"
    return f"whether {weighed.builds[b].name} is better than {own}"

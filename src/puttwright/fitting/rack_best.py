"""What the rack's nearest combinations would be worth to this golfer, and what each costs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from puttwright.fitting.candidates import Candidate
from puttwright.fitting.decision import Estimate
from puttwright.fitting.predict import predict
from puttwright.fitting.rack_made import Made
from puttwright.fitting.value import course_of, estimate
from puttwright.worth.rounds import putts_per_round

if TYPE_CHECKING:
    from puttwright.fitting.decide import Weighed

MOST_WEIGHED: Final = 40
"""Worth is computed for so many of the nearest; beyond them the rest is told as not weighed."""
_DRAWS: Final = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Valued:
    """A combination with strokes saved a round against the own putter, and the chance of any."""

    made: Made
    saved: Estimate
    better_probability: float


def by_strokes(weighed: Weighed, made: Sequence[Made], *, seed: int) -> tuple[Valued, ...]:
    """The combinations by the strokes they are expected to save, the most first.

    Parameters
    ----------
    weighed
        The fitting; what nobody held is predicted from what its readings taught.
    made
        Combinations from :func:`puttwright.fitting.rack.nearest`; the first
        :data:`MOST_WEIGHED` are weighed.
    seed
        Of the parts of a prediction that nobody has seen.
    """
    chosen = tuple(made[:MOST_WEIGHED])
    if not chosen:
        return ()
    pattern = predict(
        weighed.belief,
        _candidates(weighed, chosen),
        handed=weighed.fitting.golfer.handed,
        draws=_DRAWS,
        seed=seed,
    )
    course = course_of(weighed.fitting)
    own = putts_per_round(weighed.belief.pattern(draws=_DRAWS), course=course)[:, :1]
    saved = own - putts_per_round(pattern, course=course)
    valued = [
        Valued(made=each, saved=estimate(saved[:, k]),
               better_probability=float((saved[:, k] > 0.0).mean()))
        for k, each in enumerate(chosen)
    ]  # fmt: skip
    return tuple(sorted(valued, key=lambda each: -each.saved.mean))


def _candidates(weighed: Weighed, made: Sequence[Made]) -> tuple[Candidate, ...]:
    """A head or putter that was tried shares what was learnt of it; each other one is new."""
    kin = {build.build_id: n for n, build in enumerate(weighed.builds)}
    kin |= {build.head_id: n for n, build in enumerate(weighed.builds) if build.head_id}
    tried = len(kin)  # from here on each new head gets the next number after the builds
    found = []
    for each in made:
        head = each.parts[0]
        number = kin.setdefault(head.part_id, len(weighed.builds) + len(kin) - tried)
        ids = ", ".join(part.part_id for part in each.parts[1:])
        changes = "as it stands in the shop" if each.built else f"made with {ids}"
        found.append(
            Candidate(
                build=each.build,
                kin=number,
                of=head.label or head.part_id,
                changes=changes,
            )
        )
    return tuple(found)

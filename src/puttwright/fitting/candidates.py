"""Builds that were never in hand but could be made from what the rack holds.

A trial putter may be bent or made longer or shorter as far as the rack allows,
and a head nobody has tried may be put on what the golfer plays now. What is
believed of such builds stands in :mod:`puttwright.fitting.predict`.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.club.metal import bend_limits
from puttwright.evidence import Build, Fitting, Part

BEND_STEPS_DEG: Final = (-2.0, -1.0, 1.0, 2.0)
"""Beyond two degrees a club repair professional is asked first; a rule of this house."""
MOST_CUT_MM: Final = 50.8
_ALIKE_MM: Final = 3.0
_FROM_HEAD: Final = (
    "head_shape", "sight_line", "neck_style", "offset_mm", "lie_deg", "loft_deg",
    "cg_from_axis_mm", "cg_depth_mm", "moi_vertical_axis_g_cm2", "toe_hang_deg",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A build that could be made, under a build id of its own.

    ``of`` names what it is made from and ``changes`` what is done to it, in plain
    words. ``kin`` numbers whose own effect it shares: below the number of builds
    tried it is one of those, from there on a head that nobody has held.
    """

    build: Build
    kin: int
    of: str
    changes: str


def candidates_of(fitting: Fitting, *, builds: Sequence[Build]) -> tuple[Candidate, ...]:
    """What the rack's heads, bend limits and shafts allow beyond the builds tried.

    Parameters
    ----------
    fitting
        For its rack. Nothing is bent whose limits are not on the rack: metal that
        is not known is not bent.
    builds
        The builds tried, the golfer's own first.
    """
    heads = {part.part_id: part for part in fitting.rack if part.kind == "head"}
    lengths = _lengths_in_stock(fitting.rack)
    found: list[Candidate] = []
    for number, build in enumerate(builds):
        found += _bent(build, heads.get(build.head_id or ""), number)
        found += _other_lengths(build, lengths, number)
    tried = {build.head_id for build in builds}
    untried = [head for head in heads.values() if head.part_id not in tried and head.stock != 0]
    for kin, head in enumerate(untried, start=len(builds)):
        found += _on_the_own_shaft(head, builds[0], kin)
    return _with_their_own_ids(found, taken={build.build_id for build in builds})


def _bent(build: Build, head: Part | None, kin: int) -> list[Candidate]:
    if head is None:
        return []
    nothing = (None, None)
    loft = (build.loft_deg, *(bend_limits(head, "loft") or nothing))
    lie = (build.lie_deg, *(bend_limits(head, "lie") or nothing))
    return [
        Candidate(
            build=_renamed(build, f"loft{to:g}", loft_deg=to),
            kin=kin,
            of=build.name,
            changes=f"bent from {build.loft_deg:.1f}° to {to:.1f}° of loft",
        )
        for to in _reachable_deg(*loft)
    ] + [
        Candidate(
            build=_renamed(build, f"lie{to:g}", lie_deg=to),
            kin=kin,
            of=build.name,
            changes=f"bent from {build.lie_deg:.1f}° to {to:.1f}° of lie",
        )
        for to in _reachable_deg(*lie)
    ]


def _reachable_deg(now: float, least: float | None, most: float | None) -> list[float]:
    if least is None or most is None:
        return []
    return [now + step for step in BEND_STEPS_DEG if least <= now + step <= most]


def _other_lengths(build: Build, lengths: Sequence[float], kin: int) -> Iterator[Candidate]:
    for length in lengths:
        if _ALIKE_MM < abs(length - build.length_mm) <= MOST_CUT_MM:
            yield Candidate(
                build=_renamed(build, f"{length:.0f}mm", length_mm=length),
                kin=kin,
                of=build.name,
                changes=f"made {length:.0f} mm long instead of {build.length_mm:.0f} mm",
            )


def _lengths_in_stock(rack: Sequence[Part]) -> list[float]:
    shafts = [part for part in rack if part.kind == "shaft" and part.stock != 0]
    return sorted({part.length_mm for part in shafts if part.length_mm})


def _on_the_own_shaft(head: Part, own: Build, kin: int) -> list[Candidate]:
    """A head from the rack as long and with the grip that the golfer plays, and its bends."""
    if head.loft_deg is None:
        return []
    figures = {name: getattr(head, name) for name in _FROM_HEAD}
    figures["lie_deg"] = own.lie_deg if head.lie_deg is None else head.lie_deg
    build = dataclasses.replace(
        own,
        build_id=f"head-{head.part_id}",
        label=head.label or head.part_id,
        head_id=head.part_id,
        head_mass_g=head.mass_g,
        neck_id=None,
        total_mass_g=None,
        balance_from_butt_mm=None,
        price=head.price,
        **figures,
    )
    as_it_is = Candidate(
        build=build, kin=kin, of=build.name, changes=f"made {own.length_mm:.0f} mm long"
    )
    return [as_it_is, *_bent(build, head, kin)]


def _renamed(build: Build, change: str, **figures: float) -> Build:
    """The build with other figures, under an id and a label that say so."""
    return dataclasses.replace(
        build,
        build_id=f"{build.build_id}-{change}",
        label=f"{build.name}, {_SAID[next(iter(figures))].format(*figures.values())}",
        **figures,  # type: ignore[arg-type]
    )


_SAID: Final = {
    "loft_deg": "loft {:.1f}°",
    "lie_deg": "lie {:.1f}°",
    "length_mm": "{:.0f} mm",
}


def _with_their_own_ids(found: Sequence[Candidate], *, taken: set[str]) -> tuple[Candidate, ...]:
    """No candidate goes by the id of a build that was in hand, or of another candidate."""
    used, named = set(taken), []
    for candidate in found:
        build = candidate.build
        while build.build_id in used:
            build = dataclasses.replace(build, build_id=f"{build.build_id}-new")
        used.add(build.build_id)
        named.append(dataclasses.replace(candidate, build=build))
    return tuple(named)

"""Which screws and tape from the rack come nearest to a mass that is needed, in whole grams."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from puttwright.errors import UserError
from puttwright.evidence import Part


class NothingFits(UserError):
    """No weight in stock comes nearer to {needed_g:.0f} g than none at all; the lightest is {lightest_g:.0f} g."""  # noqa: E501

    code = "nothing-fits"


class NoWeights(UserError):
    """There is no weight in stock; enter screws and tape on the rack with their mass in grams."""

    code = "no-weights"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pick:
    """So many of one weight."""

    part_id: str
    count: int
    mass_g: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Filled:
    """Weights picked, what they come to, and what is still missing (negative: too much)."""

    picks: tuple[Pick, ...]
    mass_g: float
    missing_g: float


def pick_weights(
    rack: Sequence[Part], /, *, needed_g: float, ports: int = 2, paired: bool = True,
    tape_g: int = 0,
) -> Filled:  # fmt: skip
    """The weights in stock that come nearest to a mass.

    Parameters
    ----------
    rack
        Parts of kind "weight" with their mass; the stock says how many there are.
    needed_g
        Mass to add.
    ports
        How many screws the head takes.
    paired
        Screws go in by equal pairs, heel and toe, so that the balance of the head
        does not move sideways.
    tape_g
        How many whole grams of tape may come on top.

    Returns
    -------
    Filled
        The fewest screws among the nearest, then the least tape.

    Raises
    ------
    NoWeights, NothingFits
        Nothing is in stock, or nothing is better than the best.

    Examples
    --------
    >>> rack = [
    ...     Part(part_id="S5", kind="weight", mass_g=5, stock=4),
    ...     Part(part_id="S10", kind="weight", mass_g=10, stock=2),
    ... ]
    >>> filled = pick_weights(rack, needed_g=21, tape_g=3)
    >>> [(pick.part_id, pick.count) for pick in filled.picks], filled.mass_g
    ([('S10', 2), ('tape', 1)], 21.0)
    """
    screws = [part for part in rack if part.kind == "weight" and part.mass_g]
    in_stock = {part.part_id: 99 if part.stock is None else part.stock for part in screws}
    screws = [part for part in screws if in_stock[part.part_id] > 0]
    if not screws and not tape_g:
        raise NoWeights
    sets = _sets(screws, in_stock, ports=ports, step=2 if paired else 1)
    options = []
    for counts in sets:
        mass = sum(n * (part.mass_g or 0.0) for n, part in zip(counts, screws, strict=True))
        tape = min(max(round(needed_g - mass), 0), tape_g)
        options.append((abs(needed_g - mass - tape), sum(counts), tape, counts, mass + tape))
    _, _, tape, counts, mass = min(options)
    if not mass and needed_g > 0.5:
        lightest = min(part.mass_g or 0.0 for part in screws) * (2 if paired else 1)
        raise NothingFits(needed_g=needed_g, lightest_g=lightest)
    picks = [
        Pick(part_id=part.part_id, count=n, mass_g=n * (part.mass_g or 0.0))
        for n, part in zip(counts, screws, strict=True)
        if n
    ]
    if tape:
        picks.append(Pick(part_id="tape", count=tape, mass_g=float(tape)))
    return Filled(picks=tuple(picks), mass_g=float(mass), missing_g=needed_g - mass)


def _sets(
    screws: Sequence[Part], in_stock: dict[str, int], *, ports: int, step: int
) -> list[tuple[int, ...]]:
    """Every way to fill at most ``ports`` with what is in stock, as counts."""
    sets: list[tuple[int, ...]] = [()]
    for part in screws:
        sets = [
            (*counts, n)
            for counts in sets
            for n in range(0, min(in_stock[part.part_id], ports - sum(counts)) + 1, step)
        ]
    return sets

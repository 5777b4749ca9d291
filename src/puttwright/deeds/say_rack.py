"""What the rack makes, in words and as data."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from puttwright.club.targets import TARGETS
from puttwright.deeds.search_rack import Searched, parts_said
from puttwright.fitting.phrases import chances, figure, interval, measure
from puttwright.fitting.rack import Made
from puttwright.fitting.rack_best import MOST_WEIGHED, Valued

_NEAR = 1.0


def distance_words(made: Made) -> str:
    """How near a combination comes, in the workshop's tolerances."""
    if made.distance < _NEAR:
        return "within tolerance"
    return f"{figure(made.distance)} tolerances off"


def spec_words(made: Made) -> str:
    """The figures it would have."""
    found = [
        f"{target.name.lower()} {measure(value, target.unit, digits=target.digits)}"
        for target in TARGETS
        if (value := getattr(made.build, target.field)) is not None
    ]
    return ", ".join(found)


def price_words(made: Made) -> str:
    """What its parts cost, and which have no price."""
    missing = f", without {', '.join(made.unpriced)}" if made.unpriced else ""
    return f"parts {made.price:,.2f}{missing}"


def worth_words(valued: Valued) -> str:
    """What it is expected to save, never in hand as it is."""
    saved = valued.saved
    return (
        f"{figure(saved.mean, sign=True)} strokes a round ({interval(saved.interval_90)}), "
        f"better than the own putter {chances(valued.better_probability)}"
    )


def rack_lines(searched: Searched) -> list[str]:
    """The combinations, the first the best."""
    count = searched.found.combinations
    lines = [f"{count:,} putters can be built from this rack. Nearest to {searched.wanted.name}:"]
    if searched.valued:
        some = min(MOST_WEIGHED, count)
        lines = [
            f"{count:,} putters can be built; of the {some} nearest, the best for this golfer:"
        ]
    worth = {id(each.made): [worth_words(each)] for each in searched.valued}
    for number, made in enumerate(searched.made, start=1):
        lines += [
            f"{number:>3}  {parts_said(made.parts)}",
            *[f"     {words}" for words in worth.get(id(made), ())],
            f"     {distance_words(made)}; {price_words(made)}",
            f"     {spec_words(made)}",
        ]
    note = "Never in the golfer's hand as it stands: confirm with a short trial before ordering."
    return [*lines, note]


def rack_json(searched: Searched) -> Mapping[str, Any]:
    """The same for programs."""
    saved = {id(each.made): each for each in searched.valued}
    return {
        "combinations": searched.found.combinations,
        "wanted": searched.wanted.build_id,
        "made": [
            {
                "parts": [part.part_id for part in made.parts],
                "distance": round(made.distance, 4),
                "price": round(made.price, 2),
                "unpriced": list(made.unpriced),
                "figures": {
                    target.field: value
                    for target in TARGETS
                    if (value := getattr(made.build, target.field)) is not None
                },
                **(_worth(saved[id(made)]) if id(made) in saved else {}),
            }
            for made in searched.made
        ],
    }


def _worth(valued: Valued) -> dict[str, Any]:
    low, high = valued.saved.interval_90
    return {
        "strokes_saved_per_round": {
            "mean": round(valued.saved.mean, 4),
            "sd": round(valued.saved.sd, 4),
            "interval_90": [round(low, 4), round(high, 4)],
        },
        "probability_better": round(valued.better_probability, 4),
    }

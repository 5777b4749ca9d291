"""What the rack makes, in words and as data."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from puttwright.club.swing_weight import letter, moment_in_oz
from puttwright.club.targets import TARGETS
from puttwright.deeds.search_rack import Searched, parts_said
from puttwright.fitting.phrases import chances, figure, interval, measure
from puttwright.fitting.rack_best import MOST_WEIGHED, Valued
from puttwright.fitting.rack_made import Made

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
    return ", ".join([*found, *[swing_words(made)] * bool(swing_words(made))])


def swing_words(made: Made) -> str:
    """The swing weight it comes to, computed; nothing where a part was never weighed."""
    if made.build.total_mass_g is None or made.build.balance_from_butt_mm is None:
        return ""
    moment = moment_in_oz(
        total_kg=1e-3 * made.build.total_mass_g, balance_m=1e-3 * made.build.balance_from_butt_mm
    )
    return f"swing weight {letter(moment)}"


def stands_words(made: Made) -> str:
    """Whether it can be tried at once."""
    return IN_THE_SHOP if made.built else ""


IN_THE_SHOP: Final = "stands in the shop: hand it over and take a few putts"


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
            f"     {'; '.join([distance_words(made), price_words(made), *_stands(made)])}",
            f"     {spec_words(made)}",
        ]
    why = searched.found.why_none_of_parts
    made_new = any(not made.built for made in searched.made)
    return [*lines, *[f"The parts make none: {why}"] * bool(why), *[NEVER_HELD] * made_new]


NEVER_HELD: Final = (
    "What is made of parts was never in the golfer's hand: confirm with a short trial before "
    "ordering."
)


def _stands(made: Made) -> list[str]:
    return [stands_words(made)] if made.built else []


def rack_json(searched: Searched) -> Mapping[str, Any]:
    """The same for programs."""
    saved = {id(each.made): each for each in searched.valued}
    return {
        "combinations": searched.found.combinations,
        "wanted": searched.wanted.build_id,
        "made": [
            {
                "parts": [part.part_id for part in made.parts],
                "built": made.built,
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

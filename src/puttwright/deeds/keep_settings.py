"""How a shop wants its pages: name, money, measures, language, ground, usual hand."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from puttwright.deeds.bootstrap import Clock
from puttwright.evidence import LEFT, RIGHT
from puttwright.store import Store, settings

TRADE, METRIC, IMPERIAL = "trade", "metric", "imperial"
CHOICES: Final[Mapping[str, tuple[str, ...]]] = {
    "measures": (TRADE, METRIC, IMPERIAL),
    "language": ("en", "de"),
    "ground": ("auto", "paper", "sun", "bay"),
    "handed": (RIGHT, LEFT),
    "tax_included": ("no", "yes"),
}
"""What may be chosen; the rest is written freely."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PageSettings:
    """What is set; what nobody set is as a shop usually wants it.

    ``measures`` "trade" speaks of putters in inches and of the rest in metric.
    ``tax_pct`` is written as a number, empty for none; so is ``keep_years``, for how many
    years golfers are kept before the shop is reminded to look at them.
    """

    shop: str = ""
    currency: str = ""
    tax_pct: str = ""
    tax_included: str = "no"
    measures: str = TRADE
    language: str = "en"
    ground: str = "auto"
    handed: str = RIGHT
    keep_years: str = ""


NAMES: Final = tuple(field.name for field in dataclasses.fields(PageSettings))


def settings_of(values: Mapping[str, str]) -> PageSettings:
    """The settings that hold these values; what is not known or cannot be chosen is left aside.

    Examples
    --------
    >>> settings_of({"language": "en", "measures": "cubits"}).measures
    'trade'
    """
    known = {
        name: value
        for name, value in values.items()
        if name in NAMES and value in CHOICES.get(name, (value,))
    }
    return PageSettings(**known)


def look_at_settings(store: Store) -> PageSettings:
    """What is set."""
    with store.reading() as look:
        return settings_of(settings.load(look))


def change_settings(store: Store, clock: Clock, *, wanted: PageSettings, who: str) -> PageSettings:
    """Keep what is wanted; what is set then."""
    with store.writing() as write:
        settings.put(write, dataclasses.asdict(wanted), now=clock(), who=who)
        return settings_of(settings.load(write))

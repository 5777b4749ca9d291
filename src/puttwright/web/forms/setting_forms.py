"""The questions about how the shop wants its pages."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from puttwright.deeds.keep_settings import CHOICES, PageSettings
from puttwright.evidence import Column
from puttwright.fitting.quote import MOST_TAX_PCT
from puttwright.web.forms.asking import Question
from puttwright.web.texts import LANGUAGES, catalogue

_YEARS: Final = Column("keep_years", "count", "", unit="years", low=2, high=100)
_TAX: Final = Column("tax_pct", "number", "", unit="%", low=0, high=MOST_TAX_PCT)


def setting_groups() -> Mapping[str, tuple[Question, ...]]:
    """The questions under their titles, by the key of the title."""
    return {
        "settings.the_shop": (_written("shop", hint="settings.shop_hint"),),
        "settings.money": (
            _written("currency", hint="settings.currency_hint"),
            Question(name="tax_pct", column=_TAX, label=catalogue()("settings.tax")),
            _chosen("tax_included"),
        ),
        "settings.measures_title": (_chosen("measures", hint="settings.measures_hint"),),
        "settings.drawings_title": (_chosen("ground"), _chosen("handed")),
        "settings.language_title": (_language(),),
        "settings.people_title": (
            Question(
                name="keep_years",
                column=_YEARS,
                label=catalogue()("settings.keep_years"),
                hint=catalogue()("settings.keep_years_hint"),
            ),
        ),
    }


def setting_questions() -> tuple[Question, ...]:
    """All of them."""
    return tuple(asked for group in setting_groups().values() for asked in group)


def typed_of(kept: PageSettings) -> dict[str, str]:
    """The settings as the form holds them."""
    return {asked.name: getattr(kept, asked.name) for asked in setting_questions()}


def _written(name: str, *, hint: str) -> Question:
    text = catalogue()
    column = Column(name, "text", "")
    return Question(name=name, column=column, label=text(f"settings.{name}"), hint=text(hint))


def _chosen(name: str, *, hint: str = "") -> Question:
    text = catalogue()
    choices = CHOICES[name]
    return Question(
        name=name,
        column=Column(name, "text", "", choices=choices),
        label=text(f"settings.{name}"),
        hint=text(hint) if hint else "",
        needed=True,
        offered=tuple((each, text(f"settings.{name}_{each}")) for each in choices),
    )


def _language() -> Question:
    text = catalogue()
    return Question(
        name="language",
        column=Column("language", "text", "", choices=CHOICES["language"]),
        label=text("settings.language"),
        hint=text("settings.language_hint"),
        needed=True,
        offered=tuple(LANGUAGES.items()),
    )

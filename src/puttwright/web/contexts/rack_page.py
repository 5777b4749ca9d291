"""The rack: every part by kind, and the form for one more."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from puttwright.club.alloys import ALLOYS
from puttwright.club.metal import bend_limits, metal_of
from puttwright.evidence import Part
from puttwright.web.contexts.heading import quoted
from puttwright.web.forms.asking import Field, fields
from puttwright.web.forms.part_forms import part_questions
from puttwright.web.measures import measure
from puttwright.web.texts import catalogue

KINDS = ("putter", "head", "neck", "shaft", "grip", "weight")
_FIGURES = (
    ("length_mm", "mm", 0), ("lie_deg", "°", 1), ("loft_deg", "°", 1), ("offset_mm", "mm", 0),
    ("toe_hang_deg", "°", 0), ("mass_g", "g", 0), ("grip_diameter_mm", "mm", 0),
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class PartLine:
    """One part in the list."""

    part_id: str
    name: str
    figures: str
    stock: str
    price: str
    off: str


@dataclass(frozen=True, slots=True, kw_only=True)
class KindList:
    """The parts of one kind under their title."""

    title: str
    parts: tuple[PartLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RackPage:
    """The rack and its forms; ``message`` and ``faults`` tell what a table has wrong."""

    kinds: tuple[KindList, ...]
    count: str
    fields: tuple[Field, ...]
    wrong: bool
    message: str
    faults: tuple[str, ...]


def rack_page(
    parts: Sequence[Part],
    *,
    typed: Mapping[str, str] | None = None,
    messages: Mapping[str, str] | None = None,
    message: str = "",
    faults: Sequence[str] = (),
) -> RackPage:
    """The page over what is on the rack."""
    text = catalogue()
    return RackPage(
        kinds=tuple(
            KindList(title=text(f"rack.{kind}s"), parts=tuple(map(_line, found)))
            for kind in KINDS
            if (found := [part for part in parts if part.kind == kind])
        ),
        count=text("rack.count", count=len(parts)),
        fields=fields(part_questions(), typed=typed, told=messages),
        wrong=bool(messages),
        message=message,
        faults=tuple(faults),
    )


def _line(part: Part) -> PartLine:
    text = catalogue()
    stock = "" if part.stock is None else text("rack.in_stock", count=part.stock)
    return PartLine(
        part_id=part.part_id,
        name=part.label or part.part_id,
        figures=_figures(part),
        stock=text("rack.none_left") if part.stock == 0 else stock,
        price="" if part.price is None else f"{part.price:,.2f}",
        off=f"/rack/{quoted(part.part_id)}/off",
    )


def _figures(part: Part) -> str:
    text = catalogue()
    said = [
        f"{text(f'rack.{name}').lower()} {measure(value, unit, digits=digits)}"
        for name, unit, digits in _FIGURES
        if (value := getattr(part, name)) is not None
    ]
    for name in ("loft", "lie"):
        limits = bend_limits(part, name)
        if limits is not None and limits[1] > limits[0]:
            low, high = limits
            ends = [measure(each, "°", digits=1) for each in (low, high)]
            word = text(f"rack.{name}_deg").lower()
            said.append(text("rack.bends", what=word, low=ends[0], high=ends[1]))
    alloy = ALLOYS.get(metal_of(part).alloy)
    if alloy is not None:
        said.append(text("rack.made_of", what=alloy.said))
    return ", ".join([*said, *[text("rack.goes_with", ids=part.fits)] * bool(part.fits)])

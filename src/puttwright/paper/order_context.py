"""What the build order says, as plain data."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from puttwright.club.check_in import Ordered
from puttwright.club.rules import BEYOND, DECIDES, LOOK, WITHIN, anchoring, rulings_of
from puttwright.club.targets import BY_FIELD
from puttwright.fitting.order import Order
from puttwright.fitting.phrases import figure, measure
from puttwright.fitting.putter_figures import assumed_of, in_short
from puttwright.paper.figures import day_words, shortened
from puttwright.paper.typesetting import day_of
from puttwright.paper.workshop import bend_warnings, cautions_of, metal_warnings
from puttwright.pictures.hand import putter_length, spoken_unit

_GUESS: Final = "Never in the golfer's hand: extrapolated from the builds tried."


@dataclass(frozen=True, slots=True, kw_only=True)
class TargetRow:
    """One figure to build to; the workshop writes the measured one beside it."""

    name: str
    target: str
    tolerance: str
    work: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRow:
    """One part to take."""

    kind: str
    part_id: str
    label: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RulesSaid:
    """The equipment rules in three lines, and what is told with a long putter."""

    within: str
    beyond: str
    look: str
    decides: str
    anchoring: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderContext:
    """The order, figure by figure."""

    order_id: str
    alias: str
    handed: str
    day: str
    fitting_id: str
    letter: str
    name: str
    build_id: str
    because: str
    guess: str
    targets: tuple[TargetRow, ...]
    comes_out: str
    assumed: str
    parts: tuple[PartRow, ...]
    warnings: tuple[str, ...]
    cautions: tuple[tuple[str, str], ...]
    rules: RulesSaid
    model: str


def order_context(order: Order, /) -> OrderContext:
    """Everything the sheet says of an order."""
    build = order.build
    return OrderContext(
        order_id=order.order_id,
        alias=order.alias,
        handed=order.handed,
        day=day_words(day_of(order.date)),
        fitting_id=order.fitting_id,
        letter=order.letter,
        name=shortened(build.name, most=36),
        build_id=build.build_id,
        because=order.because,
        guess=_GUESS if order.guess else "",
        targets=tuple(_target_row(each, order) for each in order.ordered),
        comes_out=f"Comes out at, computed: {'; '.join(in_short(order.figures))}.",
        assumed=_assumed(order),
        parts=tuple(
            PartRow(kind=each.kind, part_id=each.part_id, label=each.label, note=each.note)
            for each in order.parts
        ),
        warnings=_warnings(order),
        cautions=cautions_of(order.bends, weights=order.weights),
        rules=rules_said(order),
        model=f"model {order.version}, seed {order.seed}, readings {order.inputs_sha256[:12]}",
    )


def _assumed(order: Order) -> str:
    """What was never measured and taken as usual, and what should be weighed again."""
    notes = order.figures.figures.notes
    usual = [name for note, name in zip(notes, assumed_of(notes), strict=True) if note != name]
    other = [f"{note[0].upper()}{note[1:].removesuffix('.')}." for note in notes if note in
             assumed_of(notes)]  # fmt: skip
    said = [f"Not measured and taken as usual: {', '.join(usual)}."] if usual else []
    return " ".join([*said, *other])


def _warnings(order: Order) -> tuple[str, ...]:
    """What the metal says where it is known, else the usual limits of any bend."""
    said = metal_warnings(order.bends, verdict=order.bend_verdict, known=order.metal.known)
    return said or bend_warnings(order.bends)


def _target_row(asked: Ordered, order: Order) -> TargetRow:
    target = BY_FIELD[asked.field]
    work = next((bend.words for bend in order.bends if bend.field == asked.field), "")
    return TargetRow(
        name=target.name,
        target=measure(asked.ordered, target.unit, digits=target.digits) + _beside(asked),
        tolerance=f"± {figure(asked.tolerance, digits=0 if asked.tolerance >= 1 else 1)}",
        work="cut" if asked.field == "length_mm" else work,
    )


def _beside(asked: Ordered) -> str:
    """The length in inches too where the shop speaks of it so; the work is done in millimetres."""
    if asked.field != "length_mm" or spoken_unit("in") != "in":
        return ""
    return f" ({putter_length(asked.ordered)})"


def rules_said(order: Order, /) -> RulesSaid:
    """Which clauses this putter keeps anywhere in its tolerance, and which want a look."""
    made = {each.field: each.tolerance for each in order.ordered}
    error = made | {"grip_width_mm": made.get("grip_diameter_mm", 0.0)}
    found = rulings_of(order.build, error=error)

    def names(verdict: str) -> str:
        return ", ".join(each.key.replace("_", " ") for each in found if each.verdict == verdict)

    return RulesSaid(
        within=names(WITHIN),
        beyond=names(BEYOND),
        look=names(LOOK),
        decides=DECIDES,
        anchoring=anchoring(length_mm=order.build.length_mm) or "",
    )

"""Make the order of what a fitting decided, or of a build the fitter names."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from puttwright.club.alloys import ALLOYS
from puttwright.club.metal import metal_of
from puttwright.errors import NotAllowed, NotFound
from puttwright.evidence import Build, Fitting, Part
from puttwright.fitting.decision import KEEP, UNDECIDED, Decision
from puttwright.fitting.order import (
    Order,
    OrderPart,
    Promise,
    bends_of,
    metal_for,
    ordered_of,
    parts_of,
    weights_may_be_used,
)
from puttwright.fitting.phrases import measure, more_putts_phrase
from puttwright.fitting.putter_figures import lean_of
from puttwright.fitting.quote import Quote, QuoteLine, quote
from puttwright.pictures.of_fitting import chosen_build, marks

_HEAD_SHAPES: Final = {"blade": "blade", "half_mallet": "half mallet", "mallet": "mallet"}
_SIGHTS: Final = {
    "none": "no sight line",
    "dot": "dot",
    "line": "one line",
    "multi": "several lines",
}


class NothingToBuild(NotAllowed):
    """{what} Name a build to order one all the same (--build ID)."""

    code = "nothing-to-build"
    hint = "--build ID orders a build whatever the decision says."


@dataclass(frozen=True, slots=True, kw_only=True)
class Prices:
    """The shop's prices beside those of the rack, and its tax."""

    lines: tuple[QuoteLine, ...] = ()
    tax_pct: float = 0.0
    tax_included: bool = False
    currency: str = ""


def make_order(
    fitting: Fitting,
    decision: Decision,
    *,
    build_id: str | None = None,
    prices: Prices | None = None,
) -> Order:
    """The order of the build the decision, or the fitter, says to make.

    Parameters
    ----------
    fitting, decision
        What was seen and what it says.
    build_id
        A build to order whatever the decision says.
    prices
        For the quote; without any price there is none.

    Raises
    ------
    NothingToBuild
        The decision is to keep the own putter or to wait, and no build was named.
    NotFound
        There is no build of that id.
    OutOfRange
        A price or a tax that cannot be.
    """
    build = _ordered_build(fitting, decision, build_id=build_id)
    parts = parts_of(build, rack=fitting.rack)
    mark = marks(fitting, decision).get(build.build_id)
    verdict = decision.builds.get(build.build_id)
    guess = decision.extrapolated and build.build_id == decision.choice
    bends = bends_of(build, head=parts.get("head"))
    return Order(
        order_id=f"{fitting.fitting_id}-{build.build_id}",
        fitting_id=fitting.fitting_id,
        date=fitting.date,
        alias=fitting.golfer.alias,
        handed=fitting.golfer.handed,
        letter=mark.letter if mark else "–",
        build=build,
        because=_because(decision, build=build),
        guess=guess,
        ordered=ordered_of(build),
        parts=_parts(build, parts=parts),
        bends=bends,
        weights=weights_may_be_used(fitting),
        metal=metal_for(parts),
        lean=_lean(fitting, build),
        promised={
            name: Promise(mean=found.mean, sd=found.sd)
            for name, found in (verdict.quantities.items() if verdict and not guess else ())
        },
        quote=_quoted(build, parts=parts, prices=prices or Prices()),
        version=decision.model.version,
        seed=decision.model.seed,
        inputs_sha256=decision.inputs_sha256,
    )


def _ordered_build(fitting: Fitting, decision: Decision, *, build_id: str | None) -> Build:
    if build_id is None or build_id == decision.choice:
        chosen = chosen_build(fitting, decision)
        if chosen is None:
            raise _nothing_to_build(decision)
        return chosen
    known = {build.build_id: build for build in fitting.builds}
    if build_id not in known:
        raise NotFound(what="build", name=build_id, known=f"; there are {', '.join(known)}")
    return known[build_id]


def _nothing_to_build(decision: Decision) -> NothingToBuild:
    if decision.choice == KEEP:
        return NothingToBuild(
            what="The golfer keeps their own putter, so there is nothing to build."
        )
    settled = more_putts_phrase(decision.more_putts)
    return NothingToBuild(what=f"There is no decision to build by yet. {settled}")


def _lean(fitting: Fitting, build: Build) -> Promise | None:
    lean = lean_of(fitting, build_id=build.build_id)
    return None if lean is None else Promise(mean=lean.value, sd=lean.sd)


def _because(decision: Decision, *, build: Build) -> str:
    if build.build_id == decision.choice:
        return "the fitting's choice"
    said = {KEEP: "to keep the own putter", UNDECIDED: "that it is too close to call"}
    other = said.get(decision.choice, f"for {decision.choice}")
    return f"ordered by the fitter; the fitting says {other}"


def _parts(build: Build, *, parts: dict[str, Part | None]) -> tuple[OrderPart, ...]:
    ids = {"head": build.head_id, "neck": build.neck_id, "grip": build.grip_id}
    plain = {
        "head": _said(
            _HEAD_SHAPES.get(build.head_shape or ""), _SIGHTS.get(build.sight_line or "")
        ),
        "neck": _said(build.neck_style),
        "shaft": _said(build.shaft_mass_g and measure(build.shaft_mass_g, "g")),
        "grip": _said(build.grip_mass_g and measure(build.grip_mass_g, "g")),
    }
    return tuple(
        OrderPart(
            kind=kind,
            part_id=ids.get(kind) or "",
            label=_label(parts.get(kind)) or words or "shop's choice",
            note=_note(parts.get(kind), named=bool(ids.get(kind))),
            price=_price(parts.get(kind)),
        )
        for kind, words in plain.items()
    )


def _said(*words: object) -> str:
    return ", ".join(str(word) for word in words if word)


def _label(part: Part | None) -> str:
    """The name, and what a head is made of: whoever bends it has to know."""
    alloy = ALLOYS.get(metal_of(part).alloy)
    return _said(part and part.label, alloy and alloy.said)


def _price(part: Part | None) -> float | None:
    return part.price if part else None


def _note(part: Part | None, *, named: bool) -> str:
    if part is None:
        return "not on the rack list" if named else ""
    if part.stock is None:
        return ""
    return f"{part.stock} in stock" if part.stock else "none in stock: order in"


def _quoted(build: Build, *, parts: dict[str, Part | None], prices: Prices) -> Quote | None:
    """The putter at its own price, else its parts at theirs, and what the shop adds."""
    whole = [] if build.price is None else [QuoteLine(what="putter", price=build.price)]
    by_part = [
        QuoteLine(what=part.label or kind, price=part.price)
        for kind, part in parts.items()
        if part and part.price is not None
    ]
    lines = [*(whole or by_part), *prices.lines]
    return quote(
        lines, tax_pct=prices.tax_pct, currency=prices.currency, tax_included=prices.tax_included
    )

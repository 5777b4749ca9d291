"""The whole job on an invented golfer at an invented club."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from puttwright.deeds.decide_package import decide_package
from puttwright.deeds.invent_golfers import write_golfer
from puttwright.deeds.make_order import make_order
from puttwright.deeds.say_decision import five_lines
from puttwright.deeds.write_order import order_bytes
from puttwright.deeds.write_whole import write_whole
from puttwright.evidence import LEFT, RIGHT
from puttwright.fitting.decision import KEEP, UNDECIDED, Decision
from puttwright.paper.order import render_order
from puttwright.paper.report import render_report
from puttwright.virtual.golfers import VirtualGolfer, invent
from puttwright.virtual.rack import invent_rack

SEED: Final = 12
"""Of golfers whose right-hander has something to gain, so that there is something to order."""
_INVENTED: Final = 3
"""So many that both hands are among them."""
_PUTTS, _AIMS = 20, 8
_ALIASES: Final = {RIGHT: "Wren", LEFT: "Teasel"}
_CLUB: Final = "Quillmere Heath"


@dataclass(frozen=True, slots=True, kw_only=True)
class Demo:
    """What the demo did: the decision in five lines, and each file with what it is."""

    lines: Sequence[str]
    files: Mapping[Path, str]


def _first(golfers: Sequence[VirtualGolfer], *, handed: str) -> VirtualGolfer:
    """The first golfer of that hand, with a name and a club nobody has, and a shop's rack."""
    found = next(each for each in golfers if each.fitting.golfer.handed == handed)
    fitting = replace(
        found.fitting,
        rack=invent_rack(found.fitting.builds),
        fitting_id=f"demo-{handed}",
        golfer=replace(found.fitting.golfer, alias=_ALIASES[handed]),
        greens=tuple(
            replace(green, name=f"{_CLUB}, {green.name}") for green in found.fitting.greens
        ),
    )
    return replace(found, fitting=fitting)


def _to_order(decision: Decision) -> str | None:
    """Nothing to add when the decision names a build; else the likeliest, to show an order."""
    if decision.choice not in (KEEP, UNDECIDED):
        return None
    verdicts = decision.builds
    return max(verdicts, key=lambda each: verdicts[each].strokes_saved_per_round.mean)


def run_demo(out: Path, *, tell: Callable[[str], None] = lambda _step: None) -> Demo:
    """Invent two golfers, decide the right-hander's fitting, print sheet and order.

    Parameters
    ----------
    out
        The folder for all of it, made if it is not there.
    tell
        Called with a line before each step.

    Returns
    -------
    Demo
        The same every time.

    Raises
    ------
    CannotWrite
        A full disk, or a folder with other things in the way.
    """
    tell("1 of 4  Inventing a right-hander and a left-hander")
    golfers = invent(_INVENTED, seed=SEED, putts=_PUTTS, aims=_AIMS)
    right, left = out / "right-hander", out / "left-hander"
    write_golfer(_first(golfers, handed=RIGHT), right)
    write_golfer(_first(golfers, handed=LEFT), left)
    tell("2 of 4  Reading the right-hander's package and deciding")
    fitting, decision = decide_package(right, out=out)
    report, order = out / "report.pdf", out / "order.pdf"
    tell("3 of 4  Setting the golfer's sheet")
    write_whole(report, render_report(fitting, decision))
    tell("4 of 4  Setting the build order")
    ordered = make_order(fitting, decision, build_id=_to_order(decision))
    write_whole(order, render_order(ordered))
    write_whole(order.with_suffix(".json"), order_bytes(ordered))
    files = {
        right: "the readings",
        left: "a left-hander's",
        out / "decision.json": "the decision",
        report: "the golfer's sheet",
        order: "the build order",
        order.with_suffix(".json"): "the order as data",
    }
    return Demo(lines=five_lines(decision, fitting), files=files)

"""The study as a page with its pictures: docs/calibration.md, or any folder's."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

from puttwright.study.calibration import Judged
from puttwright.study.drawn import (
    claims_picture,
    coverage_picture,
    plans_picture,
    regret_picture,
)
from puttwright.study.plans import PlanOutcome
from puttwright.study.table import plan_lines, study_lines, world_lines

PAGE: Final = "calibration.md"
_FOLDER: Final = "pictures"
_ABOUT: Final = """\
It invents golfers whose truth is known and decides each by our rule and by others. The golfers live
in worlds made to differ from the model: levers that do nothing, a lot or the reverse, heavy tails,
drift, steering, a sensor that is off. Everything here is invented: it shows whether our arithmetic
is honest, not whether the world is like it."""
_RULES: Final = """\
Raw averages takes each build's averages and spreads as they stand. The Bayesian optimiser plans its
own putts, as many as the others got, in batches of four, and knows builds only as names: a Gaussian
process over them, and expected improvement. It scores the strokes each putt gained, or what the
raw averages of a batch are worth."""
_PLANS: Final = """\
The same golfers putt anew, and all plans meet the same luck: the tenth putt with a build is the
same stroke whatever led to it. The fixed plan takes rounds of four putts and two aims with every
build, from 8, 12 and 20 ft in turn. The others take one round of three putts and two aims, then
blocks of as many with the build, and all from the distance, of which most is to be learnt,
everything weighed again after each."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Study:
    """All that was judged; ``planned`` is empty where plans were not asked for."""

    n: int
    seed: int
    judged: Sequence[Judged]
    planned: Sequence[Sequence[PlanOutcome]] = field(default=())

    @property
    def command(self) -> str:
        """What makes the same study again."""
        plans = " --plans" if self.planned else ""
        return f"puttwright study calibration --n {self.n} --seed {self.seed}{plans}"

    def lines(self) -> list[str]:
        """The tables without pictures, line by line."""
        return [
            *study_lines(self.judged, seed=self.seed),
            "",
            *world_lines(self.judged),
            *(["", *plan_lines(self.planned)] if self.planned else []),
        ]

    def files(self) -> dict[str, str]:
        """The page and its pictures by their path in a folder."""
        drawings = {
            "claims": claims_picture(self.judged),
            "coverage": coverage_picture(self.judged),
            "regret": regret_picture(self.judged),
        }
        if self.planned:
            drawings["plans"] = plans_picture(self.planned)
        pictures = {f"{_FOLDER}/study-{name}.svg": svg + "\n" for name, svg in drawings.items()}
        return {PAGE: "\n".join(self._page()), **pictures}

    def _page(self) -> list[str]:
        return [
            "# Does what we claim come true",
            "",
            f"`{self.command} --out FOLDER` made this study.\n{_ABOUT}",
            "",
            "## Rules",
            "",
            *study_lines(self.judged, seed=self.seed),
            "",
            _RULES,
            "",
            _picture("regret", "What each rule leaves on the table, with two standard errors"),
            "",
            _picture("claims", "What was claimed of each build against what is true"),
            "",
            _picture("coverage", "Intervals that held the truth beside those meant to"),
            "",
            *self._plans(),
            "## Worlds",
            "",
            *world_lines(self.judged),
            "",
        ]

    def _plans(self) -> list[str]:
        if not self.planned:
            return []
        picture = _picture("plans", "What is left on the table by putts taken")
        return ["## Plans", "", _PLANS, "", *plan_lines(self.planned), "", picture, ""]


def _picture(name: str, words: str) -> str:
    return f"![{words}]({_FOLDER}/study-{name}.svg)"

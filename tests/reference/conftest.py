"""Checks against the outside world: each is asserted, collected, and listed in docs/validation.md.

A reference test takes the fixture ``validate`` and calls it once a case::

    def test_capture_speed(validate):
        validate(
            "greatest speed of a centred ball that drops, 2 cm hop",
            source="author (year), table 1",
            evidence="published, text seen",
            ours=capture_speed_mps(...),
            theirs=1.63,
            atol=0.005,
            unit="m/s",
        )

``quantity`` and ``source`` together name the case, so they must be unique. The tolerance comes from
the digits the source prints (half of the last), unless the test says why not.
"""

from __future__ import annotations

import csv
import math
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

import pytest


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One value of ours beside one of theirs."""

    quantity: str
    source: str
    evidence: str
    ours: float
    theirs: float
    atol: float
    rtol: float
    unit: str
    test: str

    @property
    def allowed(self) -> float:
        """The largest deviation that passes."""
        return self.atol + self.rtol * abs(self.theirs)

    @property
    def deviation(self) -> float:
        """Ours minus theirs."""
        return self.ours - self.theirs


class Validate(Protocol):
    """The shape of the fixture, for the tests that take it."""

    def __call__(
        self,
        quantity: str,
        *,
        source: str,
        evidence: str,
        ours: float,
        theirs: float,
        atol: float = 0,
        rtol: float = 0,
        unit: str = "",
    ) -> None: ...


CASES = pytest.StashKey[dict[tuple[str, str], Case]]()
COMPLETE = pytest.StashKey[bool]()
PAGE_TEST = "test_validation_page.py"
ROOT = Path(__file__).resolve().parents[2]


def pytest_configure(config: pytest.Config) -> None:
    """Start with no cases."""
    config.stash[CASES] = {}
    config.stash[COMPLETE] = True


def pytest_deselected(items: list[pytest.Item]) -> None:
    """A partial run cannot say that a line of the page is stale."""
    for item in items:
        item.config.stash[COMPLETE] = False


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """The page is checked when every other case has run."""
    items.sort(key=lambda item: item.path.name == PAGE_TEST)


@pytest.fixture
def validate(request: pytest.FixtureRequest) -> Validate:
    """Assert one published value and list it in docs/validation.md."""
    cases = request.config.stash[CASES]

    def check(
        quantity: str,
        *,
        source: str,
        evidence: str,
        ours: float,
        theirs: float,
        atol: float = 0,
        rtol: float = 0,
        unit: str = "",
    ) -> None:
        assert all((quantity, source, evidence)), "say what, from where, and how it was seen"
        assert (quantity, source) not in cases, f"{quantity!r} of {source!r} is checked twice"
        case = Case(
            quantity=quantity,
            source=source,
            evidence=evidence,
            ours=float(ours),
            theirs=float(theirs),
            atol=atol,
            rtol=rtol,
            unit=unit,
            test=request.node.nodeid.partition("[")[0],
        )
        cases[quantity, source] = case
        assert math.isfinite(case.ours)
        # A hair over the bound, so that 0.1 + 0.2 against 0.3 +- 0 in decimal is not a failure.
        slack = 4 * math.ulp(max(abs(case.ours), abs(case.theirs), 1.0))
        assert abs(case.deviation) <= case.allowed + slack, (
            f"{quantity}: ours {ours:.6g} {unit}, {source} has {theirs:.6g}; "
            f"allowed ±{case.allowed:.2g}"
        )

    return check


@pytest.fixture
def published(root: Path) -> Callable[..., dict[str, dict[str, object]]]:
    """Read ``references/<folder>/values.csv``: for each key what ``validate`` takes, less ours.

    ``keys`` are those the test has an answer for; they must be the file's, no more, no fewer.
    """

    def rows(folder: str, *, keys: Iterable[str]) -> dict[str, dict[str, object]]:
        with (root / "references" / folder / "values.csv").open(encoding="utf-8") as file:
            found = {row.pop("key"): _row(row) for row in csv.DictReader(file)}
        assert set(found) == set(keys), set(found) ^ set(keys)
        return found

    return rows


def _row(texts: dict[str, str]) -> dict[str, object]:
    numbers = {"theirs", "atol", "rtol"}
    return {name: float(text) if name in numbers else text for name, text in texts.items()}


def _figure(value: float) -> str:
    return f"{value:.5g}".replace("-", "−")


def _rows(cases: list[Case]) -> Iterator[str]:
    for case in cases:
        yield (
            f"| {case.quantity} | {case.unit} | {_figure(case.theirs)} | {_figure(case.ours)} "
            f"| {_figure(case.allowed)} | {case.evidence} |"
        )


HEAD = """# Validation

Every value here was published by somebody else and is compared with ours by a test in
`tests/reference/`. The page is written by `make docs` and checked by the tests; do not edit it.
Allowed is how far ours may lie from theirs: half of the last digit the source prints, unless the
test gives a reason. The last column says whether the text of the source was seen. Whether what we
claim comes true was tried on [invented golfers](#invented-golfers), at the end.
"""


def validation_page(cases: dict[tuple[str, str], Case]) -> str:
    """The page, one table a source, in alphabetical order."""
    by_source: dict[str, list[Case]] = defaultdict(list)
    for case in cases.values():
        by_source[case.source].append(case)
    parts = [HEAD, f"{len(cases)} values from {len(by_source)} sources.\n"]
    for source in sorted(by_source):
        shares = [abs(case.deviation) / case.allowed for case in by_source[source] if case.allowed]
        worst = f" Worst: {max(shares):.0%} of what is allowed." if shares else ""
        tests = ", ".join(f"`{test}`" for test in sorted({case.test for case in by_source[source]}))
        parts += [
            f"## {source}\n",
            f"Checked by {tests}.{worst}\n",
            "| quantity | unit | theirs | ours | allowed | seen |",
            "| --- | --- | --: | --: | --: | --- |",
            *_rows(by_source[source]),
            "",
        ]
    return "\n".join([*parts, study_section(), film_section()])


STUDY_HEADING = "## Invented golfers"
WORLDS_HEADING = "## Worlds"
FILM_HEADING = "## Rendered clips"


def study_section() -> str:
    """The study's tables and pictures, from the page that its command wrote."""
    page = (ROOT / "docs" / "calibration.md").read_text(encoding="utf-8")
    told = page.partition("\n")[2].partition(WORLDS_HEADING)[0].replace("\n## ", "\n### ")
    more = "How it went in each world is told in [calibration.md](calibration.md)."
    return f"{STUDY_HEADING}\n{told}{more}\n"


def film_section() -> str:
    """The study of rendered clips, from the page that its command wrote."""
    page = (ROOT / "docs" / "film-study.md").read_text(encoding="utf-8")
    told = page.partition("\n")[2].replace("\n## ", "\n### ")
    return f"{FILM_HEADING}\n{told}"


def listed(page: str) -> set[tuple[str, str]]:
    """The cases a page lists, as (quantity, source)."""
    found, source = set(), ""
    for line in page.partition(STUDY_HEADING)[0].splitlines():
        if line.startswith("## "):
            source = line[3:]
        elif line.startswith("| ") and not line.startswith(("| quantity ", "| --- ")):
            found.add((line[2:].split(" | ")[0], source))
    return found


@pytest.hookimpl(trylast=True)
def pytest_sessionfinish(session: pytest.Session) -> None:
    """Write the page when asked to."""
    target = session.config.getoption("--write-validation")
    cases = session.config.stash[CASES]
    if target and cases:
        Path(target).parent.mkdir(parents=True, exist_ok=True)
        Path(target).write_text(validation_page(cases), encoding="utf-8")


@pytest.fixture
def recorded(request: pytest.FixtureRequest) -> set[tuple[str, str]]:
    """What ran in this session, as (quantity, source)."""
    return set(request.config.stash[CASES])


@pytest.fixture
def page_listing(root: Path) -> set[tuple[str, str]]:
    """What docs/validation.md lists."""
    page = root / "docs" / "validation.md"
    return listed(page.read_text(encoding="utf-8")) if page.is_file() else set()


@pytest.fixture
def whole_run(request: pytest.FixtureRequest) -> bool:
    """Whether every reference test ran, so that a line nobody recorded is a stale line."""
    if hasattr(request.config, "workerinput"):
        return False  # one of several processes sees only its own share of the cases
    here = Path(__file__).parent
    ran = {item.path for item in request.session.items}
    return request.config.stash[COMPLETE] and set(here.glob("test_*.py")) <= ran


@pytest.fixture
def writing(request: pytest.FixtureRequest) -> bool:
    """Whether this run writes the page."""
    return request.config.getoption("--write-validation") is not None


@pytest.fixture
def study() -> str:
    """The study's part of docs/validation.md, as it ought to be."""
    return study_section()


@pytest.fixture
def films() -> str:
    """The rendered clips' part of docs/validation.md, as it ought to be."""
    return film_section()

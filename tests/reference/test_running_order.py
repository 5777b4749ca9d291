"""Orders balanced for carry-over, entry by entry as others print them: references/running_order."""

from __future__ import annotations

import csv

import numpy as np
import pytest

from puttwright.fitting.running_order import williams


@pytest.mark.parametrize("builds", [3, 4, 6, 10])
def test_the_orders_are_those_that_are_printed(builds, root, validate):
    with (root / "references/running_order/orders.csv").open(encoding="utf-8") as file:
        rows = [row for row in csv.DictReader(file) if int(row["builds"]) == builds]
    printed = np.array([[int(each) for each in row["order"].split()] for row in rows])

    ours = williams(builds)[: len(printed)] + 1

    validate(
        f"entries of the orders of {builds} that differ, of {printed.size}",
        source=f"Williams 1949; {rows[0]['source']}",
        evidence="text seen",
        ours=float((ours != printed).sum()),
        theirs=0.0,
    )

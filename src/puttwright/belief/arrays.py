"""What a chain reads and what it moves, as the compiled kernels take them."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray


class Given(NamedTuple):
    """What a chain reads: structure, priors and readings of all quantities.

    Readings lie quantity by quantity and group by group; those of group ``b`` of
    quantity ``q`` are ``bounds[q, b]`` up to ``bounds[q, b + 1]``. ``parent`` is the
    number of the quantity it follows, or -1; ``partner`` the reading that a reading may
    not share its limits with, or -1.
    """

    nu_grid: NDArray[np.float64]
    bounds: NDArray[np.int64]
    parent: NDArray[np.int64]
    scales: NDArray[np.float64]
    mean: NDArray[np.float64]
    levers: NDArray[np.float64]
    offset: NDArray[np.float64]
    low: NDArray[np.float64]
    high: NDArray[np.float64]
    censored: NDArray[np.bool_]
    partner: NDArray[np.int64]
    group: NDArray[np.int64]
    order: NDArray[np.float64]
    instrument_var: NDArray[np.float64]


class State(NamedTuple):
    """What a chain moves; all after ``fitted`` is steps and working space.

    ``precision`` is the t weight of each reading over its variance.
    """

    value: NDArray[np.float64]
    location: NDArray[np.float64]
    log_spread: NDArray[np.float64]
    hyper: NDArray[np.float64]
    precision: NDArray[np.float64]
    fitted: NDArray[np.float64]
    steps: NDArray[np.float64]
    data_precision: NDArray[np.float64]
    data_pull: NDArray[np.float64]
    matrices: NDArray[np.float64]
    vectors: NDArray[np.float64]

"""A flat thing in a photo: from millimetres to pixels and back, lens included, and how sure.

The photo of a plane is a homography (eight numbers); a lens bends it by one more,
``p (1 + k r²)`` around the middle of the picture with ``r`` 1 in its corners
(Brown 1971, first radial term). A tenth says how far corners of black squares are seen
toward their middles: ink, blur and a bright paper eat at them alike. All ten come from
marked points by least squares; the last two have priors, because points near the middle
of the picture say nothing of the lens, and points without squares nothing of those.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

Points = NDArray[np.float64]

BEND_SD: Final = 0.03
"""Prior of k: 3 % at the corners. Phones straighten their pictures; common practice, no source."""
EATEN_SD_MM: Final = 0.5
"""Prior of how far a corner is seen inside its place; a guess, wide."""
LEAST_NOISE_PX: Final = 0.15
"""No corner is believed better than this, however well the fit goes through."""
_STEPS: Final = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneFit:
    """How a plane came to lie in a picture.

    ``parameters`` are the homography without its last element, from units of
    ``reach_mm`` to units of half the picture's diagonal around its middle, then k, then
    how far corners are eaten; ``covariance`` is theirs. ``noise_px`` is how far the marked
    points lie off the fit.
    """

    parameters: NDArray[np.float64]
    covariance: NDArray[np.float64]
    reach_mm: float
    middle_px: tuple[float, float]
    half_diagonal_px: float
    noise_px: float

    def to_pixels(self, points_mm: ArrayLike) -> Points:
        """Where points of the plane [mm] lie, shape (n, 2); centres of pixels are whole."""
        near = np.atleast_2d(np.asarray(points_mm, float)) / self.reach_mm
        bent = _project(self.parameters, near)
        seen: Points = bent * self.half_diagonal_px + np.asarray(self.middle_px)
        return seen

    def to_mm(self, points_px: ArrayLike) -> Points:
        """Where on the plane pixels look [mm], shape (n, 2)."""
        seen = np.atleast_2d(np.asarray(points_px, float)) - np.asarray(self.middle_px)
        return _back(self.parameters, seen / self.half_diagonal_px) * self.reach_mm

    def sd_mm(self, point_px: ArrayLike) -> tuple[float, float]:
        """Spread of a pixel's place on the plane, across and up [mm], from the fit alone."""
        seen = np.atleast_2d(np.asarray(point_px, float)) - np.asarray(self.middle_px)
        seen = seen / self.half_diagonal_px
        steps = 1e-6 * np.eye(len(self.parameters))
        slopes = np.stack([
            (_back(self.parameters + step, seen) - _back(self.parameters - step, seen))[0] / 2e-6
            for step in steps
        ])  # fmt: skip
        variance = np.einsum("pi,pq,qi->i", slopes, self.covariance, slopes)
        across, up = np.sqrt(np.maximum(variance, 0.0)) * self.reach_mm
        return float(across), float(up)

    def scale_px_per_mm(self, point_mm: ArrayLike) -> float:
        """How many pixels a millimetre is there, along the shorter of both ways."""
        middle = np.asarray(point_mm, float)
        ends = self.to_pixels(middle + np.array([(0.0, 0.0), (1.0, 0.0), (0.0, 1.0)]))
        return float(np.min(np.linalg.norm(ends[1:] - ends[0], axis=1)))


def fit_plane(
    points_mm: ArrayLike, points_px: ArrayLike, *, size_px: tuple[int, int], inward: ArrayLike = 0.0
) -> PlaneFit:
    """Fit perspective and lens to points seen.

    Parameters
    ----------
    points_mm
        On the plane, shape (n, 2), right and up positive; at least 4, no 3 of 4 in a line.
    points_px
        The same points in the picture, shape (n, 2), down positive.
    size_px
        Width and height of the picture.
    inward
        For corners of squares, the way toward the square's middle, shape (n, 2), so that
        1 mm of it moves a corner 1 mm along both sides; zero for other points.

    Returns
    -------
    PlaneFit
        With its covariance.

    Raises
    ------
    numpy.linalg.LinAlgError
        The points do not fix a plane.

    Examples
    --------
    >>> fit = fit_plane(
    ...     [(0, 0), (9, 0), (9, 9), (0, 9)],
    ...     [(10, 90), (90, 90), (90, 10), (10, 10)],
    ...     size_px=(100, 100),
    ... )
    >>> fit.to_mm([(50, 50)]).round(2)
    array([[4.5, 4.5]])
    """
    plane, seen = np.asarray(points_mm, float), np.asarray(points_px, float)
    reach = float(np.max(np.abs(plane - plane.mean(axis=0)))) or 1.0
    middle = ((size_px[0] - 1) / 2, (size_px[1] - 1) / 2)
    half = float(np.hypot(*size_px)) / 2
    near, shown = plane / reach, (seen - np.asarray(middle)) / half
    eaten = np.broadcast_to(np.asarray(inward, float), plane.shape)
    parameters = np.append(_straight(near, shown), (0.0, 0.0))
    noise = LEAST_NOISE_PX / half
    for _ in range(3):
        parameters, normal = _refined(
            parameters, near, shown, eaten=eaten, noise=noise, eaten_sd=EATEN_SD_MM / reach
        )
        left = _project(parameters, near, eaten) - shown
        freedom = max(left.size - len(parameters) + 2, 1)
        noise = max(float(np.sqrt((left**2).sum() / freedom)), LEAST_NOISE_PX / half)
    return PlaneFit(
        parameters=parameters, covariance=np.asarray(np.linalg.inv(normal), np.float64),
        reach_mm=reach, middle_px=middle, half_diagonal_px=half, noise_px=noise * half,
    )  # fmt: skip


def _straight(plane: Points, seen: Points) -> NDArray[np.float64]:
    """The homography without a lens, by the direct linear transform; its last element is 1."""
    rows = []
    for (x, y), (u, v) in zip(plane, seen, strict=True):
        rows.append([x, y, 1, 0, 0, 0, -u * x, -u * y, -u])
        rows.append([0, 0, 0, x, y, 1, -v * x, -v * y, -v])
    flat = np.linalg.svd(np.asarray(rows))[2][-1]
    if abs(flat[8]) < 1e-12:
        raise np.linalg.LinAlgError("the points do not fix a plane")
    whole: NDArray[np.float64] = flat / flat[8]
    return whole[:8]


def _project(parameters: NDArray[np.float64], plane: Points, eaten: ArrayLike = 0.0) -> Points:
    plane = plane + parameters[9] * np.asarray(eaten)
    matrix = np.append(parameters[:8], 1.0).reshape(3, 3)
    ends = np.column_stack([plane, np.ones(len(plane))]) @ matrix.T
    straight = ends[:, :2] / ends[:, 2:]
    bent: Points = straight * (1.0 + parameters[8] * (straight**2).sum(axis=1, keepdims=True))
    return bent


def _back(parameters: NDArray[np.float64], seen: Points) -> Points:
    straight = seen
    for _ in range(_STEPS):
        straight = seen / (1.0 + parameters[8] * (straight**2).sum(axis=1, keepdims=True))
    matrix = np.linalg.inv(np.append(parameters[:8], 1.0).reshape(3, 3))
    ends = np.column_stack([straight, np.ones(len(seen))]) @ matrix.T
    back: Points = ends[:, :2] / ends[:, 2:]
    return back


def _refined(
    parameters: NDArray[np.float64],
    plane: Points,
    seen: Points,
    *,
    eaten: Points,
    noise: float,
    eaten_sd: float,
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Gauss-Newton from a start that is close; the normal matrix is the inverse covariance."""
    prior = np.zeros((10, 10))
    prior[8, 8], prior[9, 9] = 1.0 / BEND_SD**2, 1.0 / eaten_sd**2
    steps = 1e-6 * np.eye(10)
    normal = prior
    for _ in range(_STEPS):
        left = (_project(parameters, plane, eaten) - seen).ravel() / noise
        slopes = np.column_stack([
            _project(parameters + step, plane, eaten).ravel()
            - _project(parameters - step, plane, eaten).ravel()
            for step in steps
        ]) / (2e-6 * noise)  # fmt: skip
        normal = slopes.T @ slopes + prior
        change = np.linalg.solve(normal, slopes.T @ left + prior @ parameters)
        parameters = parameters - change
        if float(np.max(np.abs(change))) < 1e-10:
            break
    return parameters, normal

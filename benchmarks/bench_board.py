"""A 12-megapixel photo to a reading, beside looking for the markers in full size alone."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import cv2
import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "scripts"))

from board_scene import Dot, Shot, jpeg

from puttwright.address.board import FAMILY
from puttwright.readers.board_photo import read_board
from puttwright.readers.photo import photo_of

PEER = "decode and detect markers at full size"


def _best_of_five(action: Callable[[], object]) -> float:
    def once() -> float:
        started = time.perf_counter()
        action()
        return time.perf_counter() - started

    return min(once() for _ in range(5))


def _peer(data: bytes) -> object:
    grey = cv2.imdecode(np.frombuffer(data, np.uint8), cv2.IMREAD_GRAYSCALE)
    how = cv2.aruco.DetectorParameters()
    how.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
    family = cv2.aruco.getPredefinedDictionary(getattr(cv2.aruco, FAMILY))
    return cv2.aruco.ArucoDetector(family, how).detectMarkers(grey)


def rows() -> Iterator[tuple[str, float, str, float]]:
    """From near, where the board fills the photo, and from three metres."""
    for said, camera_m in (("from 0.8 m", 0.8), ("from 3 m", 3.0)):
        dot = Dot(x_mm=33.0, y_mm=12.0)
        shot = Shot(dots=(dot,), size=(4000, 3000), camera_m=camera_m, yaw_deg=12, pitch_deg=-8)
        data = jpeg(shot)
        ours_s = _best_of_five(lambda data=data: read_board(photo_of(data)))
        yield f"12 Mpx photo {said}", ours_s, PEER, _best_of_five(lambda data=data: _peer(data))

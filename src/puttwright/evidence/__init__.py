"""What was seen: frozen records of a fitting, their columns and their signs."""

from puttwright.evidence.columns import Column, columns_of
from puttwright.evidence.fingerprint import inputs_sha256
from puttwright.evidence.records import (
    LEFT,
    RIGHT,
    AimReading,
    Build,
    FirstPutt,
    Fitting,
    FittingGreen,
    Golfer,
    Green,
    Instrument,
    Part,
    Putt,
    SetupReading,
)

__all__ = [
    "LEFT",
    "RIGHT",
    "AimReading",
    "Build",
    "Column",
    "FirstPutt",
    "Fitting",
    "FittingGreen",
    "Golfer",
    "Green",
    "Instrument",
    "Part",
    "Putt",
    "SetupReading",
    "columns_of",
    "inputs_sha256",
]

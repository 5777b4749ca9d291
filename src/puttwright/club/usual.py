"""What a part usually weighs and where it balances, for what nobody measured, and measuring errors.

All of it common practice without a source, with a spread wide enough to be honest;
a figure that was measured always wins.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from puttwright.club.uncertainty import Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Usual:
    """One thing that goes into a putter: its name, field, unit, usual value and spread.

    ``field`` is the column of a build it is read from ("" if there is none), ``si``
    the size of the unit, ``error`` the standard deviation of one careful measurement.
    """

    name: str
    said: str
    unit: str
    si: float
    value: float
    spread: float
    field: str = ""
    error: float = 0.0

    def assumed(self) -> Quantity:
        """The usual value with its spread [SI]."""
        return Quantity(value=self.si * self.value, sd=self.si * self.spread)

    def measured(self, value: float, /) -> Quantity:
        """A measured value in the unit people say, with its measuring error [SI]."""
        return Quantity(value=self.si * value, sd=self.si * self.error)


_G, _MM, _DEG = 1e-3, 1e-3, math.pi / 180.0
_SHAPED: Final = {
    # shape: CG behind the face [mm], its spread; inertia about the upright axis [g cm²], its spread
    "blade": (11.0, 4.0, 4000.0, 700.0),
    "half_mallet": (18.0, 5.0, 4800.0, 900.0),
    "mallet": (30.0, 8.0, 6200.0, 1500.0),
}
_ANY_SHAPE: Final = (18.0, 9.0, 4800.0, 1400.0)

_ALWAYS: Final = (
    Usual(name="head_kg", said="the head's mass", unit="g", si=_G, value=350, spread=15,
          field="head_mass_g", error=0.5),
    Usual(name="shaft_kg", said="the shaft's mass", unit="g", si=_G, value=110, spread=12,
          field="shaft_mass_g", error=0.5),
    Usual(name="grip_kg", said="the grip's mass", unit="g", si=_G, value=70, spread=20,
          field="grip_mass_g", error=0.5),
    Usual(name="epoxy_kg", said="the epoxy", unit="g", si=_G, value=2, spread=1),
    Usual(name="tape_kg", said="the tape under the grip", unit="g", si=_G, value=4, spread=2),
    Usual(name="length_m", said="the length", unit="mm", si=_MM, value=864, spread=13,
          field="length_mm", error=1.0),
    Usual(name="lie_rad", said="the lie", unit="°", si=_DEG, value=70, spread=1.5,
          field="lie_deg", error=0.25),
    Usual(name="loft_rad", said="the loft", unit="°", si=_DEG, value=3, spread=1,
          field="loft_deg", error=0.25),
    Usual(name="offset_m", said="the offset", unit="mm", si=_MM, value=6, spread=6,
          field="offset_mm", error=0.5),
    Usual(name="cg_from_axis_m", said="the centre of gravity from the shaft axis", unit="mm",
          si=_MM, value=20, spread=15, field="cg_from_axis_mm", error=1.0),
    Usual(name="cg_high_m", said="the centre of gravity above the sole", unit="mm", si=_MM,
          value=12, spread=3),
    Usual(name="tip_high_m", said="where the shaft's tip ends", unit="mm", si=_MM,
          value=45, spread=15),
    Usual(name="shaft_balance_share", said="where the shaft balances", unit="%", si=0.01,
          value=50, spread=2),
    Usual(name="grip_length_m", said="the grip's length", unit="mm", si=_MM,
          value=270, spread=15),
    Usual(name="grip_balance_share", said="where the grip balances", unit="%", si=0.01,
          value=45, spread=3),
)  # fmt: skip

TOTAL: Final = Usual(name="total_kg", said="the putter's mass", unit="g", si=_G, value=530,
                     spread=25, field="total_mass_g", error=0.5)  # fmt: skip
BALANCE: Final = Usual(name="balance_m", said="the balance point", unit="mm", si=_MM, value=670,
                       spread=20, field="balance_from_butt_mm", error=1.5)  # fmt: skip
HANG: Final = Usual(name="hang_rad", said="the hang", unit="°", si=_DEG, value=30, spread=25,
                    field="toe_hang_deg", error=2.0)  # fmt: skip


def usual_for(head_shape: str | None, /) -> tuple[Usual, ...]:
    """What is usual for a head of that shape; wider where the shape is not known.

    Examples
    --------
    >>> [each.value for each in usual_for("mallet") if each.name == "cg_behind_face_m"]
    [30.0]
    """
    depth, depth_spread, inertia, inertia_spread = _SHAPED.get(head_shape or "", _ANY_SHAPE)
    return (
        *_ALWAYS,
        Usual(name="cg_behind_face_m", said="the centre of gravity behind the face", unit="mm",
              si=_MM, value=depth, spread=depth_spread, field="cg_depth_mm", error=1.0),
        Usual(name="moi_vertical_kg_m2", said="the head's inertia", unit="g cm²", si=1e-7,
              value=inertia, spread=inertia_spread, field="moi_vertical_axis_g_cm2",
              error=0.02 * inertia),
    )  # fmt: skip

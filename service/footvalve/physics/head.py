"""Pressure as a height of water, and back."""

from footvalve.physics.si import STANDARD_GRAVITY, KilogramsPerCubicMetre, Metres, Pascals


def pressure_head(*, pressure: Pascals, density: KilogramsPerCubicMetre) -> Metres:
    """Height of water that makes a pressure, h = p / (rho g).

    Valid for: any pressure; a partial vacuum gives a negative height.
    Source: hydrostatics.

    >>> round(pressure_head(pressure=10_000.0, density=999.5), 4)
    1.0202
    """
    return pressure / (density * STANDARD_GRAVITY)


def head_pressure(*, head: Metres, density: KilogramsPerCubicMetre) -> Pascals:
    """Pressure of a height of water, p = rho g h.

    Valid for: any height.
    Source: hydrostatics.

    >>> round(head_pressure(head=1.0, density=999.5), 1)
    9801.7
    """
    return head * density * STANDARD_GRAVITY

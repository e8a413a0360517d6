"""Turns the units that the tables are written in into those that physics reckons in."""

INCH = 0.0254
"""m. Exact. Source: NIST SP 811 (2008), Appendix B.8."""
THOUSAND_FEET = 304.8
"""m. Exact, the international foot. Source: NIST SP 811 (2008), Appendix B.8."""
ICE_POINT = 273.15
"""K. Source: NIST SP 811 (2008), 4.2.1.1."""

FACTORS: dict[str, float] = {
    "1": 1.0,
    "(ft/s)/(ft^3/lb)^0.5": 0.3048 * (0.45359237 / 0.3048**3) ** 0.5,
    "1/K": 1.0,
    "1/h": 1.0,
    "1/month": 1.0,
    "A": 1.0,
    "V": 1.0,
    "in": INCH,
    "mA/Ah": 1.0,
    "mm": 1e-3,
    "mm^2": 1e-6,
    "ohm mm^2/m": 1e-6,
    "ohm/kft": 1 / THOUSAND_FEET,
    "ohm/km": 1e-3,
}
"""What one of each unit is in SI. Gassing currents stay in mA/Ah, in which IEC 62485-2 is written."""


def si_value(text: str, unit: str) -> float:
    """A number of a table in the unit that physics takes.

    >>> si_value("0.5", "in")
    0.0127
    >>> si_value("25", "degC")
    298.15
    """
    if unit == "degC":
        return float(text) + ICE_POINT
    return float(text) * FACTORS[unit]

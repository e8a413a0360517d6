"""The SI units that physics functions take and give, as annotations that tools and readers can see."""

from typing import Annotated

Metres = Annotated[float, "m"]
SquareMetres = Annotated[float, "m^2"]
CubicMetres = Annotated[float, "m^3"]
Seconds = Annotated[float, "s"]
Hours = Annotated[float, "h"]
MetresPerSecond = Annotated[float, "m/s"]
CubicMetresPerSecond = Annotated[float, "m^3/s"]
SquareMetresPerSecond = Annotated[float, "m^2/s"]
Pascals = Annotated[float, "Pa"]
PascalSeconds = Annotated[float, "Pa*s"]
Kelvins = Annotated[float, "K"]
KilogramsPerCubicMetre = Annotated[float, "kg/m^3"]
Amperes = Annotated[float, "A"]
Volts = Annotated[float, "V"]
Watts = Annotated[float, "W"]
WattHours = Annotated[float, "Wh"]
AmpereHours = Annotated[float, "Ah"]
Ohms = Annotated[float, "ohm"]
OhmMetres = Annotated[float, "ohm*m"]
PerKelvin = Annotated[float, "1/K"]
Fraction = Annotated[float, "1"]
Number = Annotated[float, "1"]
PerHour = Annotated[float, "1/h"]

STANDARD_GRAVITY: Annotated[float, "m/s^2"] = 9.80665
"""Standard acceleration of gravity. Source: CGPM 1901, as in NIST SP 811 (2008), Appendix B.8."""

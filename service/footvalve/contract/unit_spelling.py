"""How installers write the units of the wire: what a fault takes for meant, and what a client may take in its place.

The wire itself takes its own spellings alone. The lists are closed: a unit is on them only where it can mean nothing
else in its dimension. So `psia` is not, as pressures are gauge; nor `MA`, which is no small ampere.
"""

from difflib import get_close_matches
from typing import Final

from footvalve.quantity import DIMENSIONS, wire_units

_ALSO_WRITTEN: Final[dict[str, dict[str, str]]] = {
    "Length": {
        "m": "metre metres meter meters",
        "cm": "centimetre centimetres centimeter centimeters",
        "mm": "millimetre millimetres millimeter millimeters",
        "ft": "ft. foot feet ' \u2032 \u2019",
        "in": 'in. inch inches " \u2033 \u201d',
    },
    "Area": {
        "mm^2": "mm2 mm\u00b2 sq_mm sqmm",
        "cm^2": "cm2 cm\u00b2 sq_cm sqcm",
        "in^2": "in2 in\u00b2 sq_in sq._in. sqin square_inch square_inches",
    },
    "Duration": {
        "s": "sec sec. secs second seconds",
        "min": "min. mins minute minutes",
        "h": "hr hr. hrs hour hours",
        "d": "day days",
    },
    "Flow": {
        "L/s": "lps l/sec litre/s liter/s litres/s liters/s litres_per_second liters_per_second",
        "L/min": "lpm l/minute litre/min liter/min litres/min liters/min litres_per_minute liters_per_minute",
        "m^3/h": "m3/h m\u00b3/h m3/hr m\u00b3/hr m^3/hr cubic_metres_per_hour cubic_meters_per_hour",
        "gal/min": "gpm g.p.m. usgpm us_gpm gal/minute gal_per_min gals/min gallons/min gallons/minute "
        "gal_per_minute gallons_per_minute",
        "gal/h": "gph g.p.h. gal/hr gal/hour gal_per_hr gals/h gallons/h gallons/hr gallons/hour gal_per_hour "
        "gallons_per_hour",
    },
    "Volume": {
        "L": "litre litres liter liters ltr",
        "m^3": "m3 m\u00b3 cubic_metre cubic_metres cubic_meter cubic_meters",
        "gal": "gal. gals gallon gallons us_gal us_gallon us_gallons",
    },
    "Pressure": {
        "Pa": "pascal pascals",
        "kPa": "kilopascal kilopascals",
        "bar": "bars",
        "psi": "psig p.s.i. lb/in2 lb/in\u00b2 lb/in^2 lbs/in2 lbs/in^2 lbf/in2 lbf/in^2",
        "ftH2O": "ft_h2o fth\u2082o ft_water ft_of_water feet_of_water",
        "mH2O": "m_h2o mh\u2082o m_water m_of_water mwc metres_of_water meters_of_water",
    },
    "Temperature": {
        "degC": "c \u00b0c deg_c deg._c celsius degrees_c degrees_celsius \u2103",
        "degF": "f \u00b0f deg_f deg._f fahrenheit degrees_f degrees_fahrenheit \u2109",
        "K": "kelvin kelvins",
    },
    "Current": {"A": "amp amps ampere amperes", "mA": "milliamp milliamps"},
    "Voltage": {"V": "volt volts vdc v_dc", "mV": "millivolt millivolts"},
    "Power": {"W": "watt watts", "kW": "kilowatt kilowatts", "hp": "horsepower h.p."},
    "Energy": {"Wh": "watt-hour watt-hours watt_hour watt_hours w-h", "kWh": "kw-h kilowatt-hour kilowatt-hours"},
    "Charge": {"Ah": "a-h amp-hour amp-hours amp_hour amp_hours ampere-hours ampere_hours"},
    "Resistance": {"ohm": "ohms \u03a9", "mohm": "milliohm milliohms"},
    "SpecificCapacity": {
        "gal/min/ft": "gpm/ft gpm/foot gpm_per_ft gpm_per_foot gal/min_per_ft gal/min_per_foot gal/(min_ft)",
        "L/s/m": "lps/m l/s_per_m l/s_per_metre l/s_per_meter l/(s_m)",
    },
    "Velocity": {"m/s": "mps m/sec metres_per_second meters_per_second", "ft/s": "fps ft/sec ft_per_s feet_per_second"},
}
"""Each unit's other spellings; an underscore stands for a blank, and capitals and small letters are alike."""

_CAPITAL_IS_MEGA: Final = frozenset({"mA", "mV", "mohm"})
"""A capital M would make these a thousand million times as large: they are taken as they are written, or not at all."""

EXAMPLES: Final[dict[str, tuple[tuple[float, str], ...]]] = {
    "Length": ((14.0, "ft"), (4.0, "m")),
    "Area": ((25.0, "mm^2"),),
    "Duration": ((90.0, "s"),),
    "Flow": ((5.0, "gal/min"), (20.0, "L/min")),
    "Volume": ((20.0, "gal"), (80.0, "L")),
    "Pressure": ((40.0, "psi"), (2.8, "bar")),
    "Temperature": ((50.0, "degF"), (10.0, "degC")),
    "Current": ((5.0, "A"),),
    "Voltage": ((12.0, "V"),),
    "Power": ((60.0, "W"),),
    "Energy": ((600.0, "Wh"),),
    "Charge": ((100.0, "Ah"),),
    "Resistance": ((5.0, "mohm"),),
    "SpecificCapacity": ((1.5, "gal/min/ft"), (0.3, "L/s/m")),
    "Velocity": ((5.0, "ft/s"), (1.5, "m/s")),
}
"""How a quantity of each dimension is written: first by who thinks in the units of the US, then by who does not."""


def _spellings(dimension: str) -> dict[str, str]:
    """The unit that each spelling means, the unit's own small letters among them."""
    return {
        spelling.replace("_", " ").casefold(): unit
        for unit in wire_units(dimension)
        for spelling in (*(() if unit in _CAPITAL_IS_MEGA else (unit,)), *_ALSO_WRITTEN[dimension][unit].split())
    }


SPELLINGS: Final[dict[str, dict[str, str]]] = {dimension: _spellings(dimension) for dimension in DIMENSIONS}
"""For each dimension the unit that each spelling means, in small letters."""


def meant(unit: str, dimension: str) -> str | None:
    """The unit of the dimension that a text most likely means, or is nearest to; None where none is near."""
    spellings = SPELLINGS[dimension]
    written = " ".join(unit.casefold().split())
    near = [written] if written in spellings else get_close_matches(written, spellings, n=1)
    return spellings[near[0]] if near else None

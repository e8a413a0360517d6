"""What every request holds: the site's air and water, and the system of units that the answer speaks."""

from typing import Annotated, Literal

from msgspec import Meta, Struct

from footvalve.contract.name_pattern import NAME_PATTERN
from footvalve.contract.quantities import Length, Temperature
from footvalve.contract.ranges import Within

UnitSystemName = Literal["us", "metric"]

Name = Annotated[
    str,
    Meta(
        min_length=1,
        max_length=80,
        pattern=NAME_PATTERN,
        description="A short label of the caller's own: one line, without control characters and without such as "
        "cannot be seen.",
    ),
]


class Site(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """The place: how high it lies, and how warm its water and air are."""

    altitude: Annotated[Length, Within(-500.0, 5000.0), Meta(description="Above mean sea level.")] = Length(0.0, "m")
    water_temperature: Annotated[
        Temperature, Within(273.15, 368.15), Meta(description="Of the water that is drawn.")
    ] = Temperature(12.0, "degC")
    air_temperature: Annotated[
        Temperature, Within(223.15, 333.15), Meta(description="Of the air in the well and around the plant.")
    ] = Temperature(12.0, "degC")


Units = Annotated[UnitSystemName, Meta(description="The system of units in which the answer speaks.")]
Place = Annotated[Site, Meta(description="The place; each field has a default.")]


Contributions = Annotated[
    bool,
    Meta(description="Whether the answer tells how much each uncertain input has to do with its uncertainties."),
]


class Request(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """What every request may hold. A request that another one nests adds these fields to its question instead."""

    units: Units = "us"
    site: Place = Site()
    contributions: Contributions = False

"""Which fields of a plan's request differ from those of another, and what in a plan depends on which."""

from collections.abc import Set as AbstractSet
from typing import Final

from footvalve.contract.site_plan import SitePlanRequest

SOUNDING: Final = frozenset({"units", "site", "sounding", "depth_to_water"})
"""What the depth to the water depends on."""

SUCTION: Final = frozenset({"units", "suction_line"})
DELIVERY: Final = frozenset({"units", "delivery_line"})
"""What the parts of the lines depend on."""

PUMP: Final = frozenset({"pump"})
"""What the pump's curve and current depend on."""

INTAKE: Final = SUCTION | PUMP | {"intake_elevation"}
"""What the elevation of the intake depends on."""

WELL: Final = frozenset({"units", "site", "sounding", "seasonal_fall", "well"})
"""What the well depends on, but for the depth to its water and the elevation of the intake."""

TANKS: Final = frozenset({"units", "site", "tanks", "switch", "demand", "daily_water", "least_run", "gas_exponent"})
"""What is asked of the tanks, but for what the pump gives into them."""

BANK: Final = frozenset({"units", "site", "battery", "loads", "wire", "charger", "solar", "days"})
"""What is asked of the battery, but for what the pump draws."""

ALL_FIELDS: Final = frozenset(SitePlanRequest.__struct_fields__)


def moved_fields(one: SitePlanRequest, other: SitePlanRequest) -> AbstractSet[str]:
    """The fields in which two requests differ. Both stem from one: what neither changed is the same object in both."""
    return {name for name in ALL_FIELDS if getattr(one, name) is not getattr(other, name)}

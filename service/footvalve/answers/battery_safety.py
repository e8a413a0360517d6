"""What a battery asks of the room that it stands in and of the people around it."""

from collections.abc import Iterator
from functools import cache

from msgspec import UNSET, UnsetType

from footvalve.answers.basis import Reckoned, reckoned
from footvalve.answers.battery_bank import Bank, bank_temperature
from footvalve.answers.cautions import cautions
from footvalve.answers.unit_system import UnitSystem, air_flow
from footvalve.contract.answer import Caution
from footvalve.contract.battery_runtime import Battery, BatteryRuntimeRequest, Ventilation
from footvalve.physics.method import Method
from footvalve.physics.ventilation import VENTILATION, ventilation_flow, ventilation_opening
from footvalve.tables.chemistries import chemistry
from footvalve.tables.si_values import ICE_POINT

GREATEST_SAFE_VOLTAGE = 60.0
"""V of direct current that may be touched where it is dry. Source: that of the caution in its table."""

WHERE_OPENINGS_BELONG = (
    "An inlet near the floor and an outlet near the ceiling on the opposite wall, each with this free area; "
    "or a fan that moves this much air, proven to run while the battery charges."
)


def ventilation(battery: Battery, bank: Bank, units: UnitSystem) -> Ventilation | UnsetType:
    """The air against the hydrogen of a boost charge; nothing for cells that make none."""
    if not bank.chemistry.gases:
        return UNSET
    flow = ventilation_flow(
        cells=_cells(battery, bank),
        gassing_current=bank.chemistry.boost_gassing_current,
        rated_capacity=battery.capacity.base,
    )
    return Ventilation(
        airflow=air_flow(flow),
        opening=units.area(ventilation_opening(flow=flow)),
        text=WHERE_OPENINGS_BELONG,
    )


def _cells(battery: Battery, bank: Bank) -> int:
    """All cells of the bank, those of every string counted."""
    a_battery = max(1, round(battery.voltage.base / bank.chemistry.nominal_cell_voltage))
    return a_battery * battery.series * battery.parallel


def ventilation_steps(request: BatteryRuntimeRequest, bank: Bank) -> Iterator[Reckoned]:
    """Where the air flow comes from; nothing for cells that make no gas."""
    if not bank.chemistry.gases:
        return
    yield reckoned("Current that makes gas", _gassing_of(bank.chemistry.name))
    yield reckoned("Ventilation", VENTILATION, temperature=bank_temperature(request))


@cache
def _gassing_of(name: str) -> Method:
    """That of a chemistry by its name, of which the table has a handful."""
    kind, figure = chemistry(name), "boost_gassing_current"
    return Method(f"{kind.title}: {kind.boost_gassing_current:g} mA for each Ah on boost", kind.sources[figure])


def battery_cautions(request: BatteryRuntimeRequest, bank: Bank) -> list[Caution]:
    """The cautions that this bank, its temperature and its charger call for."""
    return cautions(battery_caution_codes(bank, is_charged=request.charger is not UNSET))


def battery_caution_codes(bank: Bank, *, is_charged: bool) -> list[str]:
    """Their codes, of a bank with a charger or without."""
    freezing = bank.temperature < ICE_POINT
    lithium = bank.chemistry.family == "lfp"
    called_for = {
        "battery-gas": bank.chemistry.gases,
        "battery-acid": not lithium,
        "battery-shock": bank.voltage > GREATEST_SAFE_VOLTAGE,
        "fuse-near-battery": True,
        "battery-frost": freezing and not lithium,
        "lfp-charge-below-freezing": freezing and lithium,
        "mains-charger": is_charged,
    }
    return [code for code, needed in called_for.items() if needed]

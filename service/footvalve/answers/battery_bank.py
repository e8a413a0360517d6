"""The battery bank of a request as physics sees it, with what is doubtful about it."""

from collections.abc import Iterator
from functools import cache

from msgspec import UNSET, Struct
from msgspec.structs import replace

from footvalve.answers.basis import At, Reckoned, reckoned
from footvalve.answers.unit_system import UnitSystem, unit_system, voltage
from footvalve.contract.answer import Warning
from footvalve.contract.battery_runtime import Battery, BatteryRuntimeRequest
from footvalve.contract.problem import Fault, Refused
from footvalve.contract.quantities import Temperature, figure
from footvalve.physics.cold_capacity import CapacityPoint, capacity_fraction_at, cold_capacity
from footvalve.physics.method import Method, OutsideDomain
from footvalve.physics.peukert import PEUKERT, peukert_exponent, peukert_hours
from footvalve.tables.chemistries import Chemistry, chemistry

GREATEST_VOLTAGE = 1000.0
"""V. What is above is no battery for a small pump (own choice)."""
GREATEST_EXPONENT = 2.0
"""Two ratings that give more are not of one battery (own choice, the limit of the field for the exponent)."""
CELL_TOLERANCE = 0.1
"""Part of a cell by which a battery's voltage may be off a whole number of cells (own choice)."""
LAST_DIGITS = 1e-6
"""K that conversion from another unit may take off a temperature."""
VOLTAGE_CLASS = 12.0
"""V. Batteries of all chemistries are sold as 12 V and its multiples, whatever their cells make. Common practice, no
source."""


AIR = "/site/air_temperature"
"""Where the battery's temperature comes from unless it is stated."""


class Bank(Struct, frozen=True, eq=False):
    """A bank: V, Ah, h and K. `rated_capacity` is that of the new bank, `capacity` what age and cold leave."""

    chemistry: Chemistry
    voltage: float
    rated_capacity: float
    capacity: float
    rated_hours: float
    temperature: float
    temperature_fraction: float
    exponent: float
    floor: float

    @property
    def rated_current(self) -> float:
        """The current in A at which the capacity holds."""
        return self.capacity / self.rated_hours

    @property
    def is_too_cold_to_charge(self) -> bool:
        """Whether the chemistry forbids to charge at this temperature."""
        return self.temperature < self.chemistry.least_charge_temperature - LAST_DIGITS


def told_temperature(kelvins: float, units: UnitSystem) -> Temperature:
    """A limit of the tables to a tenth of a degree: those that are round in the other unit come out round."""
    exact = units.temperature(kelvins)
    return Temperature(round(exact.value, 1) + 0.0, exact.unit)


def bank_voltage(battery: Battery) -> float:
    """The nominal voltage of the batteries in series, in V."""
    return battery.voltage.base * battery.series


def resolve_bank(request: BatteryRuntimeRequest) -> Bank:
    """The bank that a request describes. Raises Refused for what no battery is, or no table knows."""
    battery = request.battery
    kind = chemistry(battery.chemistry)
    if bank_voltage(battery) > GREATEST_VOLTAGE:
        raise Refused(Fault("/battery/series", f"makes a bank of more than {GREATEST_VOLTAGE:g} V"))
    temperature = bank_temperature(request)
    temperature_fraction = _temperature_fraction(kind, temperature, unit_system(request.units))
    rated_capacity = battery.capacity.base * battery.parallel
    return Bank(
        chemistry=kind,
        voltage=bank_voltage(battery),
        rated_capacity=rated_capacity,
        capacity=rated_capacity * battery.age_fraction * temperature_fraction,
        rated_hours=battery.rated_hours,
        temperature=temperature.value,
        temperature_fraction=temperature_fraction,
        exponent=_exponent(battery, kind),
        floor=kind.floor_fraction if battery.floor_fraction is UNSET else battery.floor_fraction,
    )


def _temperature_fraction(kind: Chemistry, temperature: At, units: UnitSystem) -> float:
    points = _capacity_points(kind.name)
    coldest, warmest = points[0], points[-1]
    if temperature.value < coldest.temperature:
        text = f"below {told_temperature(coldest.temperature, units)} no figure for this chemistry's capacity is known"
        if temperature.pointer == AIR:
            text += ". The battery is taken to be as cold as the air: state `battery.temperature` if it is kept warmer"
        raise Refused(Fault(temperature.pointer, text))
    return capacity_fraction_at(points, temperature=min(temperature.value, warmest.temperature))


@cache
def _capacity_points(name: str) -> tuple[CapacityPoint, ...]:
    """Those of a chemistry by its name, of which the table has a handful."""
    return tuple(CapacityPoint(point.temperature, point.capacity_fraction) for point in chemistry(name).cold_capacity)


@cache
def _cold_capacity_of(name: str) -> Method:
    return cold_capacity(_capacity_points(name))


def _exponent(battery: Battery, kind: Chemistry) -> float:
    if battery.second_rating is UNSET:
        return kind.peukert_exponent if battery.peukert_exponent is UNSET else battery.peukert_exponent
    if battery.peukert_exponent is not UNSET:
        raise Refused(Fault("/battery", "takes `peukert_exponent` or `second_rating`, one of the two"))
    try:
        exponent = peukert_exponent(
            capacity=battery.capacity.base,
            rated_hours=battery.rated_hours,
            second_capacity=battery.second_rating.capacity.base,
            second_rated_hours=battery.second_rating.rated_hours,
        )
    except OutsideDomain as outside:
        raise Refused(Fault("/battery/second_rating", str(outside))) from None
    if exponent > GREATEST_EXPONENT:
        text = f"the two ratings give an exponent of {figure(exponent)}: they are not of one battery"
        raise Refused(Fault("/battery/second_rating", text))
    return exponent


def bank_doubts(request: BatteryRuntimeRequest, bank: Bank) -> list[Warning]:
    """What is doubtful about the bank besides the ranges of its methods."""
    return [
        *_voltage_doubts(request.battery, bank.chemistry),
        *_floor_doubts(request.battery, bank.chemistry),
        *_too_cold(request, bank),
    ]


def _voltage_doubts(battery: Battery, kind: Chemistry) -> Iterator[Warning]:
    stated, cell = battery.voltage.base, kind.nominal_cell_voltage
    if _is_whole(stated / VOLTAGE_CLASS, 1e-6) or _is_whole(stated / cell, CELL_TOLERANCE):
        return
    cells = max(1, round(stated / cell))
    text = f"is no whole number of cells of {voltage(cell)}: {voltage(cells * cell)} would be {cells} of them"
    yield Warning("/battery/voltage", f"{text}. Check voltage and chemistry; give the nominal voltage, not a reading")


def _is_whole(number: float, tolerance: float) -> bool:
    return number >= 1.0 - tolerance and abs(number - round(number)) <= tolerance


def _floor_doubts(battery: Battery, kind: Chemistry) -> Iterator[Warning]:
    if battery.floor_fraction is not UNSET and battery.floor_fraction < kind.floor_fraction:
        text = f"is below the {kind.floor_fraction:.0%} that are left in routine use of this chemistry"
        yield Warning("/battery/floor_fraction", f"{text}: such deep discharge shortens its life")


def _too_cold(request: BatteryRuntimeRequest, bank: Bank) -> Iterator[Warning]:
    charges = request.charger is not UNSET or request.solar is not UNSET
    if charges and bank.is_too_cold_to_charge:
        least = told_temperature(bank.chemistry.least_charge_temperature, unit_system(request.units))
        text = f"this chemistry must not be charged below {least}: warm it first"
        yield Warning(bank_temperature(request).pointer, text)


def bank_temperature(request: BatteryRuntimeRequest) -> At:
    """The battery's temperature in K, stated or that of the air around it."""
    stated = request.battery.temperature
    if stated is UNSET:
        return At(AIR, request.site.air_temperature.base)
    return At("/battery/temperature", stated.base)


def bank_steps(request: BatteryRuntimeRequest, bank: Bank) -> Iterator[Reckoned]:
    """Where the bank's capacity and exponent come from."""
    battery = request.battery
    yield _capacity_step(request, bank)
    if battery.floor_fraction is UNSET:
        yield chemistry_step(bank, "Floor of the discharge", "floor_fraction")
    if battery.second_rating is not UNSET:
        second = "/battery/second_rating/rated_hours"
        yield reckoned(
            "Peukert's exponent from the two ratings",
            PEUKERT,
            exponent=_exponent_of(battery, bank),
            rated_hours=[_rated_hours(battery), At(second, battery.second_rating.rated_hours)],
            hours=(),
        )
    elif battery.peukert_exponent is UNSET:
        yield chemistry_step(bank, "Peukert's exponent", "peukert_exponent")


def _capacity_step(request: BatteryRuntimeRequest, bank: Bank) -> Reckoned:
    def too_warm() -> str:
        warmest = told_temperature(bank.chemistry.cold_capacity[-1].temperature, unit_system(request.units))
        return f"above {warmest} no more capacity is counted, and heat shortens a battery's life"

    temperature = replace(bank_temperature(request), told=too_warm)
    method = _cold_capacity_of(bank.chemistry.name)
    return reckoned("Capacity at the battery's temperature", method, temperature=temperature)


def charge_step(battery: Battery, bank: Bank, *, steady_current: float, leading: int) -> Reckoned:
    """The charge that loads get which together draw so many A at the most, the load at this place more than any."""
    return reckoned(
        "Charge that these loads get",
        PEUKERT,
        exponent=_exponent_of(battery, bank),
        rated_hours=_rated_hours(battery),
        hours=_hours_at(bank, steady_current, f"/loads/{leading}"),
    )


def _exponent_of(battery: Battery, bank: Bank) -> At:
    field = "peukert_exponent" if battery.second_rating is UNSET else "second_rating"
    return At(f"/battery/{field}", bank.exponent)


def _rated_hours(battery: Battery) -> At:
    return At("/battery/rated_hours", battery.rated_hours)


def _hours_at(bank: Bank, current: float, pointer: str) -> list[At]:
    """How long a current lasts; nothing up to the rated one, where the law is not used."""
    if current <= bank.rated_current:
        return []
    hours = peukert_hours(capacity=bank.capacity, rated_hours=bank.rated_hours, current=current, exponent=bank.exponent)
    return [At(pointer, hours)]


def chemistry_step(bank: Bank, step: str, field: str) -> Reckoned:
    """Where a figure comes from that is the chemistry's."""
    return reckoned(step, _figure_of(bank.chemistry.name, field))


@cache
def _figure_of(name: str, field: str) -> Method:
    """The method of a figure that stands in the table of chemistries."""
    kind = chemistry(name)
    return Method(f"{kind.title}: {getattr(kind, field):g}", kind.sources[field])

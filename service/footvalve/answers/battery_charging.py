"""How the battery comes back: chargers, and the sun."""

from collections.abc import Iterator
from functools import cache
from typing import get_args

from msgspec import UNSET

from footvalve.answers.basis import At, Reckoned, reckoned
from footvalve.answers.battery_bank import Bank, bank_temperature, chemistry_step, told_temperature
from footvalve.answers.battery_loads import DailyLoads
from footvalve.answers.unit_system import UnitSystem, current, energy
from footvalve.contract.battery_runtime import BatteryRuntimeRequest, Charger, Month, Recharge, Solar, SolarBalance
from footvalve.contract.problem import Fault, Refused
from footvalve.contract.quantities import figure, rounded
from footvalve.physics.charging import CHARGE_WITH_TAPER, ChargedBattery, holds, recharge_hours
from footvalve.physics.self_discharge import SELF_DISCHARGE, self_discharge_current
from footvalve.physics.solar_harvest import PEAK_SUN, daily_harvest, daily_need
from footvalve.tables.chemistries import Chemistry, chemistry

SLOWEST_SPELLED_RATE = 1e-4
"""1/h. What is slower is not told apart."""

SAME_RATE = 0.002
"""Part of a rate by which two are the same: the table has a third to three digits."""

MONTHS: tuple[Month, ...] = get_args(Month)[:12]
"""January to December, without the word for every month."""


def bank_self_discharge(bank: Bank) -> float:
    """The current in A that the bank loses by itself."""
    return self_discharge_current(
        capacity=bank.rated_capacity, fraction_per_month=bank.chemistry.self_discharge_fraction_per_month
    )


def recharges(charger: Charger, bank: Bank, loads: DailyLoads, units: UnitSystem) -> list[Recharge]:
    """How each charger does with this bank and these loads."""
    lost = bank_self_discharge(bank)
    return [_recharge(output.base, bank, loads, lost, units) for output in charger.currents]


def _recharge(amperes: float, bank: Bank, loads: DailyLoads, lost: float, units: UnitSystem) -> Recharge:
    def outruns(drawn: float) -> bool:
        return not bank.is_too_cold_to_charge and holds(
            charger_current=amperes,
            standing_current=drawn,
            efficiency=bank.chemistry.charge_efficiency_fraction,
            self_discharge=lost,
        )

    standing = loads.standing_current
    holds_standing = outruns(standing)
    hours = _hours(amperes - standing, bank) if holds_standing else UNSET
    return Recharge(
        current=current(amperes),
        hours=hours,
        rate_note=rate_note(amperes, bank, units),
        holds=holds_standing,
        carries_loads=outruns(loads.average_current),
    )


def _hours(net_current: float, bank: Bank) -> float:
    battery = ChargedBattery(
        capacity=bank.capacity,
        net_current=net_current,
        efficiency=bank.chemistry.charge_efficiency_fraction,
        taper_start=bank.chemistry.absorption_start_fraction,
        taper_current=bank.chemistry.absorption_start_rate * bank.capacity,
    )
    return rounded(recharge_hours(battery, start=bank.floor))


def rate_note(amperes: float, bank: Bank, units: UnitSystem) -> str:
    """A charger's rate in the trade's words, and whether it suits the chemistry."""
    kind = bank.chemistry
    if amperes == 0.0:
        return f"{current(amperes)}: gives nothing"
    rate = amperes / bank.rated_capacity
    if bank.is_too_cold_to_charge:
        least = told_temperature(kind.least_charge_temperature, units)
        return f"{_spelled(rate)}: not used, as {kind.name} must not be charged below {least}"
    if is_too_strong(rate, kind):
        verdict = "more than these batteries should take, limit it"
    elif rate < kind.least_charge_rate:
        verdict = "less than usual, so slow"
    else:
        verdict = "within the usual range"
    return f"{_spelled(rate)}: {verdict} ({_usual_rates(kind.name)} for {kind.name})"


def is_too_strong(rate: float, kind: Chemistry) -> bool:
    """Whether a rate in 1/h is more than a chemistry should take; just as much is not."""
    return rate > (1.0 + SAME_RATE) * kind.greatest_charge_rate


@cache
def _usual_rates(name: str) -> str:
    """Those of a chemistry by its name, of which the table has a handful."""
    kind = chemistry(name)
    greatest = _spelled(kind.greatest_charge_rate)
    return f"{_spelled(kind.least_charge_rate)} to {greatest}" if kind.least_charge_rate > 0 else f"up to {greatest}"


def _spelled(rate: float) -> str:
    """A rate in 1/h as the trade writes it: C/10 is a tenth of the capacity an hour."""
    if rate < SLOWEST_SPELLED_RATE:
        return f"under C/{1 / SLOWEST_SPELLED_RATE:.0f}"
    divisor = float(f"{1 / rate:.3g}")
    return f"C/{divisor:g}" if divisor > 1 else f"{figure(rate)}C"


def check_solar(request: BatteryRuntimeRequest) -> None:
    """Raises Refused where there is sun for neither one month nor twelve."""
    solar = request.solar
    if solar is not UNSET and len(solar.sun_hours) not in (1, 12):
        raise Refused(Fault("/solar/sun_hours", "takes one figure for the whole year, or twelve"))


def solar_balance(solar: Solar, bank: Bank, loads: DailyLoads) -> list[SolarBalance]:
    """A day of each month's sun against a day of the loads."""
    need = daily_need(
        charge=loads.charge,
        voltage=bank.voltage,
        charge_efficiency=bank.chemistry.charge_efficiency_fraction,
    )
    told_need = energy(need)
    months: tuple[Month, ...] = MONTHS if len(solar.sun_hours) == len(MONTHS) else ("every",)
    rows = []
    for month, sun_hours in zip(months, solar.sun_hours, strict=True):
        harvest = _harvest(solar, sun_hours)
        covers = min(1.0, rounded(harvest / need))
        rows.append(SolarBalance(month=month, harvest=energy(harvest), need=told_need, covers_fraction=covers))
    return rows


def worst_harvest(solar: Solar) -> float:
    """The energy in Wh that the array brings on a day of the month with the least sun."""
    return _harvest(solar, min(solar.sun_hours))


def _harvest(solar: Solar, sun_hours: float) -> float:
    return daily_harvest(array_power=solar.array_power.base, sun_hours=sun_hours, derate=solar.derate_fraction)


def charger_steps(request: BatteryRuntimeRequest, bank: Bank) -> Iterator[Reckoned]:
    """Where the hours of recharge come from."""
    taper_start = At("/battery/chemistry", bank.chemistry.absorption_start_fraction)
    yield chemistry_step(bank, "Charge efficiency", "charge_efficiency_fraction")
    yield chemistry_step(bank, "Start of the taper", "absorption_start_fraction")
    yield chemistry_step(bank, "Current for each Ah that tapers there", "absorption_start_rate")
    yield reckoned("Recharge", CHARGE_WITH_TAPER, taper_start=taper_start)
    yield chemistry_step(bank, "Self-discharge in a month", "self_discharge_fraction_per_month")
    yield reckoned("Whether a charger holds", SELF_DISCHARGE, temperature=bank_temperature(request))


def solar_steps(bank: Bank, solar: Solar) -> Iterator[Reckoned]:
    """Where harvest and need come from."""
    sun_hours = [At(f"/solar/sun_hours/{index}", hours) for index, hours in enumerate(solar.sun_hours)]
    yield chemistry_step(bank, "Charge efficiency", "charge_efficiency_fraction")
    yield reckoned("Harvest of the sun", PEAK_SUN, sun_hours=sun_hours)

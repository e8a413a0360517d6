"""The blocks of a site sheet about its battery: what it gives, how it comes back, and the sun."""

from collections.abc import Sequence

from msgspec import UNSET

from footvalve.contract.battery_runtime import BatteryRuntimeAnswer, Recharge, SolarBalance
from footvalve.drawings.figures import NO_BREAK, figure, percent, share_told, told
from footvalve.drawings.sheet_blocks import Block, facts, first_of, known, number_cell

_LETTERS_OF_MONTH = 3
_MOST_CHARGERS = 6


def battery(answer: BatteryRuntimeAnswer) -> Block:
    """What the battery gives."""
    air, drop = answer.ventilation, answer.voltage_drop
    return facts(
        "Battery",
        ("capacity, after age and cold", told(answer.bank.capacity)),
        ("usable, full to floor", told(answer.usable_charge)),
        ("a day's loads", told(answer.daily_draw.charge)),
        ("greatest current", told(answer.daily_draw.greatest_current)),
        ("lasts without charging", f"{figure(answer.days_of_autonomy)}{NO_BREAK}days"),
        ("water from one charge", known(answer.water_per_charge)),
        ("lost in the wire", None if drop is UNSET else f"{told(drop.volts)}, {share_told(drop.fraction)}"),
        ("air while it charges", None if air is UNSET else told(air.airflow)),
        ("or two openings, each", None if air is UNSET else told(air.opening)),
    )


def recharge(chargers: Sequence[Recharge]) -> Block:
    """How it comes back by each charger."""
    rows = [
        (
            told(charger.current),
            number_cell(charger.hours),
            "yes" if charger.holds else "NO",
            "yes" if charger.carries_loads else "NO",
        )
        for charger in chargers[:_MOST_CHARGERS]
    ]
    rates = [f"{told(charger.current)}: {charger.rate_note}" for charger in chargers]
    columns = ("charger", "hours", "holds", "carries loads")
    remarks = first_of(rates, _MOST_CHARGERS)
    return Block(title="Recharge, floor to full", columns=columns, rows=rows, remarks=remarks)


def sun(months: Sequence[SolarBalance]) -> Block:
    """What the sun covers, month by month."""
    names = ["all year" if month.month == "every" else month.month[:_LETTERS_OF_MONTH].capitalize() for month in months]
    unit = months[0].harvest.unit
    rows = [
        (f"harvest, {unit}", *(figure(month.harvest.value) for month in months)),
        (f"need, {unit}", *(figure(month.need.value) for month in months)),
        ("covers", *(percent(month.covers_fraction) for month in months)),
    ]
    return Block(title="Sun, on a day of each month", columns=("", *names), rows=rows)

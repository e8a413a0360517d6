"""The wire of `battery-runtime`: how long a battery lasts, how much water it gives, and how it comes back."""

from typing import Annotated, Literal

from msgspec import UNSET, Meta, Struct, UnsetType

from footvalve.contract.answer import Answer
from footvalve.contract.quantities import (
    Area,
    Charge,
    Current,
    Duration,
    Energy,
    Flow,
    Length,
    Power,
    Temperature,
    Voltage,
    Volume,
)
from footvalve.contract.ranges import Within
from footvalve.contract.request import Name, Request

BatteryChemistry = Literal["flooded", "agm", "gel", "lfp"]
WireGauge = Literal["18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0"]
WireMetal = Literal["copper", "aluminum"]
Month = Literal[
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
    "every",
]

BatteryCapacity = Annotated[Charge, Within(0.1, 5000.0)]
RatedHours = Annotated[float, Meta(ge=0.1, le=1000)]
BatteryCount = Annotated[int, Meta(ge=1, le=50, extra_json_schema={"format": "int32"})]
SunHours = Annotated[float, Meta(ge=0, le=24)]


class BatteryRating(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """A capacity with the hours that it was measured over."""

    capacity: Annotated[BatteryCapacity, Meta(description="The capacity at that rate.")]
    rated_hours: Annotated[RatedHours, Meta(description="Hours from full to empty at the rating's current.")]


class Battery(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One battery of a bank, and how many stand in series and in parallel."""

    chemistry: Annotated[BatteryChemistry, Meta(description="A chemistry of the table of chemistries.")]
    capacity: Annotated[BatteryCapacity, Meta(description="Rated capacity of one battery, new and at 25 degC.")]
    rated_hours: Annotated[
        RatedHours, Meta(description="Hours of that rating, such as 20: it holds at capacity / hours.")
    ]
    voltage: Annotated[Voltage, Within(1.0, 100.0), Meta(description="Nominal voltage of one battery.")]
    series: Annotated[BatteryCount, Meta(description="Batteries in a string; their voltages add.")] = 1
    parallel: Annotated[BatteryCount, Meta(description="Strings side by side; their capacities add.")] = 1
    peukert_exponent: Annotated[
        Annotated[float, Meta(ge=1, le=2)] | UnsetType,
        Meta(description="Peukert's exponent; else from `second_rating`, else the chemistry's. One of the two."),
    ] = UNSET
    second_rating: Annotated[
        BatteryRating | UnsetType,
        Meta(description="Another rating of the same battery, from which the exponent follows."),
    ] = UNSET
    temperature: Annotated[
        Temperature | UnsetType,
        Within(223.15, 343.15),
        Meta(description="Of the battery; the site's air temperature by default."),
    ] = UNSET
    floor_fraction: Annotated[
        Annotated[float, Meta(ge=0, le=0.95)] | UnsetType,
        Meta(description="The state of charge at which the loads are cut off; the chemistry's by default."),
    ] = UNSET
    age_fraction: Annotated[
        float, Meta(ge=0.05, le=1, description="What is left of the rated capacity; 1 for a new battery.")
    ] = 1.0


class ElectricLoad(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """Something that draws on the battery: by `current` or `power`, for `hours_per_day` or a `duty_fraction`."""

    name: Annotated[Name | UnsetType, Meta(description="The caller's label for this load.")] = UNSET
    current: Annotated[
        Current | UnsetType, Within(0.0, 500.0), Meta(description="While it runs, at the bank's voltage.")
    ] = UNSET
    power: Annotated[
        Power | UnsetType,
        Within(0.0, 100_000.0),
        Meta(
            description="While it runs, in place of `current`: at the battery's terminals. What an inverter feeds "
            "takes its power over the inverter's efficiency, and what the inverter draws without a load is a load "
            "beside it."
        ),
    ] = UNSET
    greatest_current: Annotated[
        Current | UnsetType,
        Within(0.0, 500.0),
        Meta(
            description="The most that it draws for longer than it takes to start, where `current` or `power` is its "
            "mean: what wire and fuse must carry."
        ),
    ] = UNSET
    hours_per_day: Annotated[
        Annotated[float, Meta(ge=0, le=24)] | UnsetType,
        Meta(description="How long it runs in a day. The pump's may follow from `daily_water`."),
    ] = UNSET
    duty_fraction: Annotated[
        Annotated[float, Meta(ge=0, le=1)] | UnsetType,
        Meta(description="The part of the day that it runs, in place of `hours_per_day`."),
    ] = UNSET
    draws_water: Annotated[
        bool,
        Meta(
            description="Marks the pump that `pump_flow` belongs to; needed where there are several loads and "
            'none is named "pump".'
        ),
    ] = False


class Wire(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """The pair of wires between battery and pump, by `gauge` or by `area`."""

    length: Annotated[Length, Within(0.0, 1000.0), Meta(description="One way; the current runs it twice.")]
    gauge: Annotated[WireGauge | UnsetType, Meta(description="American wire gauge.")] = UNSET
    area: Annotated[Area | UnsetType, Within(1e-7, 1e-3), Meta(description="Cross-section, in place of `gauge`.")] = (
        UNSET
    )
    material: Annotated[WireMetal, Meta(description="What the wire is made of.")] = "copper"
    temperature: Annotated[
        Temperature | UnsetType,
        Within(223.15, 423.15),
        Meta(
            description="Of the loaded conductor, for its resistance; 75 degC by default, which overstates a cool "
            "wire's drop."
        ),
    ] = UNSET


LoadWire = Annotated[
    Wire | UnsetType,
    Meta(
        description="The wire that carries all the loads. What it may carry is reckoned for insulation that bears "
        "60 degC, in the site's air or in 30 degC, whichever is warmer."
    ),
]


class Charger(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One or more chargers to compare."""

    currents: Annotated[
        list[Annotated[Current, Within(0.0, 5000.0)]],
        Meta(min_length=1, max_length=50, description="The rated output of each, compared one by one."),
    ]


class Solar(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """An array and the sun that it sees."""

    array_power: Annotated[Power, Within(0.0, 1e6), Meta(description="Rated power of the whole array.")]
    sun_hours: Annotated[
        list[SunHours],
        Meta(
            min_length=1,
            max_length=12,
            description="Peak sun hours a day in the plane of the array: one for all the year, or twelve from "
            "January to December.",
        ),
    ]
    derate_fraction: Annotated[
        float,
        Meta(
            gt=0, le=1, description="What is left of the rated power after heat, dirt, wire and the charge controller."
        ),
    ] = 0.7


class BatteryRuntimeRequest(Request, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """A battery bank and what draws on it and charges it."""

    battery: Annotated[Battery, Meta(description="The battery bank.")]
    loads: Annotated[
        list[ElectricLoad], Meta(min_length=1, max_length=50, description="All that draws on the battery.")
    ]
    pump_flow: Annotated[
        Flow | UnsetType, Within(1e-7, 0.01), Meta(description="What the pump brings while it runs.")
    ] = UNSET
    daily_water: Annotated[
        Volume | UnsetType, Within(0.0, 1000.0), Meta(description="Water used in a day; needs `pump_flow`.")
    ] = UNSET
    wire: LoadWire = UNSET
    charger: Annotated[Charger | UnsetType, Meta(description="Chargers on mains or a generator.")] = UNSET
    solar: Annotated[Solar | UnsetType, Meta(description="A solar array on the battery.")] = UNSET
    days: Annotated[
        int,
        Meta(
            ge=1,
            le=60,
            description="How many days of outage `state_of_charge` follows.",
            extra_json_schema={"format": "int32"},
        ),
    ] = 3


class BatteryBank(Struct, frozen=True, kw_only=True):
    """The bank as it was reckoned with."""

    voltage: Annotated[Voltage, Meta(description="Nominal, of all batteries in series.")]
    capacity: Annotated[Charge, Meta(description="At the rated hours, after age and temperature.")]
    temperature_fraction: Annotated[float, Meta(description="What the temperature leaves of the capacity.")]
    peukert_exponent: Annotated[float, Meta(description="Peukert's exponent that was used.")]
    floor_fraction: Annotated[float, Meta(description="The state of charge at which the loads are cut off.")]


class DailyDraw(Struct, frozen=True, kw_only=True):
    """What the loads draw in a day."""

    charge: Annotated[Charge, Meta(description="In a whole day.")]
    average_current: Annotated[Current, Meta(description="Over the 24 hours.")]
    greatest_current: Annotated[
        Current,
        Meta(
            description="With all loads that run at all, each at the most that it draws: what wire and fuse must carry."
        ),
    ]


class VoltageDrop(Struct, frozen=True, kw_only=True):
    """What the wire takes at the greatest current, there and back."""

    volts: Annotated[Voltage, Meta(description="Lost in both wires together.")]
    fraction: Annotated[float, Meta(description="Of the bank's nominal voltage.")]


class Recharge(Struct, frozen=True, kw_only=True):
    """How one charger does."""

    current: Annotated[Current, Meta(description="The charger's.")]
    hours: Annotated[
        float | UnsetType,
        Meta(
            description="From the floor to full beside the standing loads, with a taper that a slow charger hardly "
            "meets; absent where the charger does not hold."
        ),
    ] = UNSET
    rate_note: Annotated[str, Meta(description="The rate, and whether it suits the chemistry.")]
    holds: Annotated[
        bool,
        Meta(
            description="Whether it outruns self-discharge and the loads that run day and night; never where the "
            "battery is too cold to be charged."
        ),
    ]
    carries_loads: Annotated[
        bool, Meta(description="Whether, never switched off, it outruns self-discharge and the whole day's loads.")
    ]


class SolarBalance(Struct, frozen=True, kw_only=True):
    """A day of sun against a day of loads."""

    month: Annotated[Month, Meta(description="`every` where one figure stands for the whole year.")]
    harvest: Annotated[Energy, Meta(description="What the array brings in a day.")]
    need: Annotated[Energy, Meta(description="The day's loads over the battery's charge efficiency.")]
    covers_fraction: Annotated[float, Meta(description="Harvest over need, at most 1.")]


class ChargeState(Struct, frozen=True, kw_only=True):
    """The state of charge at one hour."""

    hour: Annotated[
        int,
        Meta(description="From the outage's beginning, at midnight.", extra_json_schema={"format": "int32"}),
    ]
    fraction: Annotated[float, Meta(description="Of what a full battery delivers under these loads.")]


class Ventilation(Struct, frozen=True, kw_only=True):
    """The air that a charging battery needs against its hydrogen."""

    airflow: Annotated[Flow, Meta(description="Air through the battery's room or box while it charges.")]
    opening: Annotated[
        Area, Meta(description="Free area of the inlet, and again of the outlet, where the air moves by itself.")
    ]
    text: Annotated[str, Meta(description="Where the openings belong.")]


class BatteryRuntimeAnswer(Answer, frozen=True, kw_only=True):
    """How long the battery lasts, how much water it gives, and how it comes back."""

    usable_charge: Annotated[Charge, Meta(description="What these loads get from full down to the floor.")]
    usable_energy: Annotated[Energy, Meta(description="The same at the bank's nominal voltage.")]
    runtime: Annotated[
        Duration,
        Meta(description="From full down to the floor by the clock, with the day's loads and no charging."),
    ]
    days_of_autonomy: Annotated[float, Meta(description="The same in days.")]
    water_per_charge: Annotated[
        Volume | UnsetType, Meta(description="What the pump brings in that time; absent without `pump_flow`.")
    ] = UNSET
    pump_hours_per_day: Annotated[
        float | UnsetType, Meta(description="How long the pump runs in a day; absent without `pump_flow`.")
    ] = UNSET
    bank: Annotated[BatteryBank, Meta(description="The bank as it was reckoned with.")]
    daily_draw: Annotated[DailyDraw, Meta(description="What the loads draw in a day.")]
    voltage_drop: Annotated[VoltageDrop | UnsetType, Meta(description="Absent without `wire`.")] = UNSET
    recharge: Annotated[
        list[Recharge] | UnsetType, Meta(description="One row for each charger, in the request's order.")
    ] = UNSET
    solar_balance: Annotated[
        list[SolarBalance] | UnsetType, Meta(description="One row for each of `sun_hours`; absent without `solar`.")
    ] = UNSET
    state_of_charge: Annotated[
        list[ChargeState],
        Meta(description="Hour by hour from a full battery, with the sun of the worst month where there is any."),
    ]
    ventilation: Annotated[Ventilation | UnsetType, Meta(description="Absent for cells that make no gas.")] = UNSET

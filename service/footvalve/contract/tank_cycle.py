"""The wire of `tank-cycle`: how often the pump starts."""

from typing import Annotated, Literal

from msgspec import UNSET, Meta, Struct, UnsetType

from footvalve.contract.answer import Answer
from footvalve.contract.quantities import Duration, Flow, Pressure, Volume
from footvalve.contract.ranges import Within
from footvalve.contract.request import Request

SwitchPressure = Annotated[Pressure, Within(2.0e4, 1.5e6)]
TankFlow = Annotated[Flow, Within(0.0, 0.02)]
LEAST_PUMP_FLOW = 1e-7
LEAST_DEMAND = 1e-8
"""m^3/s. Flows below are taken neither for a pump's nor for a demand, unless they are 0 (own choice)."""

Finding = Literal["agrees", "lost-air", "overcharged", "switch-differs"]


class Tank(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """A tank with a gas cushion, or several alike. A plain tank closed at air pressure has a precharge of 0."""

    volume: Annotated[Volume, Within(1e-4, 2.0), Meta(description="Of the whole tank, gas and water together.")]
    precharge: Annotated[
        Pressure,
        Within(0.0, 1.5e6),
        Meta(description="Pressure of the gas with the tank empty of water."),
    ]
    count: Annotated[int, Meta(ge=1, le=10, description="How many.", extra_json_schema={"format": "int32"})] = 1


class Switch(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """The pressure switch."""

    cut_in: Annotated[SwitchPressure, Meta(description="The pump starts when the pressure falls to here.")]
    cut_out: Annotated[SwitchPressure, Meta(description="The pump stops when the pressure rises to here.")]


class PumpPoint(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """What the pump delivers into the tank at one pressure."""

    pressure: Annotated[Pressure, Within(0.0, 3.0e6), Meta(description="In the tank.")]
    flow: Annotated[TankFlow, Meta(description="Into the tank there; 0 at shut-off, else 0.006 L/min or more.")]


class TankPump(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """The pump, by one `flow` or by `points`: one of the two."""

    flow: Annotated[
        Flow | UnsetType,
        Within(LEAST_PUMP_FLOW, 0.02),
        Meta(description="One flow at any pressure, as a displacement pump nearly has."),
    ] = UNSET
    points: Annotated[
        Annotated[list[PumpPoint], Meta(min_length=2, max_length=100)] | UnsetType,
        Meta(
            description="Points of its curve in order of rising pressure, from cut-in or below to cut-out or above; "
            "the flow is straight between them and never rises. Nothing is made up beyond them, but that there is no "
            "flow above a point of no flow."
        ),
    ] = UNSET


class TankCycleRequest(Request, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """Tanks, switch and pump, and what the house draws: one of `demand` and `demands`."""

    tanks: Annotated[list[Tank], Meta(min_length=1, max_length=10, description="All tanks on the line.")]
    switch: Annotated[Switch, Meta(description="The pressure switch.")]
    pump: Annotated[TankPump, Meta(description="The pump that fills the tanks.")]
    demand: Annotated[
        TankFlow | UnsetType,
        Meta(description="A steady flow that is drawn from the tanks: 0, or 0.0006 L/min or more."),
    ] = UNSET
    demands: Annotated[
        Annotated[list[TankFlow], Meta(min_length=1, max_length=100)] | UnsetType,
        Meta(
            description="Several such flows, each answered in `cycles`; the headline is the worst of them: the "
            "greatest at which the pump runs on; else the one that starts the pump most often; else one at which it "
            "stays off."
        ),
    ] = UNSET
    least_run: Annotated[
        Duration | UnsetType,
        Within(1.0, 3600.0),
        Meta(description="How long the pump shall run at least each time it starts."),
    ] = UNSET
    gas_exponent: Annotated[
        float,
        Meta(ge=1, le=1.4, description="n in p V^n: 1 for a slow cycle (isothermal), 1.4 for a quick one (adiabatic)."),
    ] = 1.0
    observed_drawdown: Annotated[
        Volume | UnsetType,
        Within(0.0, 200.0),
        Meta(description="Water caught between the pump's stop and its next start, with the pump's supply off."),
    ] = UNSET


CycleDemand = Annotated[Flow, Meta(description="The steady flow that is drawn.")]
CycleOutcome = Annotated[
    Literal["cycles", "stays-off", "runs-on"],
    Meta(
        description="`cycles`; `stays-off` once the tanks are full, without demand; `runs-on` where the pump never "
        "brings the tanks up to cut-out."
    ),
]
RunTime = Annotated[
    Duration | UnsetType, Meta(description="From the pump's start to its stop; absent where it runs on.")
]
RestTime = Annotated[
    Duration | UnsetType, Meta(description="From its stop to its next start; absent where it does not cycle.")
]
StartsPerHour = Annotated[float, Meta(ge=0, description="Starts in an hour; 0 where the pump does not cycle.")]
SettlingPressure = Annotated[
    Pressure | UnsetType,
    Meta(description="Where the pressure stands still while the pump runs on; absent where it falls below cut-in."),
]


class Cycle(Struct, frozen=True, kw_only=True):
    """What the pump does at one demand."""

    demand: CycleDemand
    outcome: CycleOutcome
    run_time: RunTime = UNSET
    rest_time: RestTime = UNSET
    starts_per_hour: StartsPerHour
    settling_pressure: SettlingPressure = UNSET


class WorstCase(Struct, frozen=True, kw_only=True):
    """The steady demand that starts the pump most often."""

    demand: Annotated[Flow, Meta(description="Half the flow of a pump with one flow.")]
    starts_per_hour: StartsPerHour


class PrechargeAdvice(Struct, frozen=True, kw_only=True):
    """What the precharge of a bladder or diaphragm tank is set to."""

    precharge: Annotated[Pressure, Meta(description="With the tank empty of water and the pump off.")]
    text: Annotated[str, Meta(description="Why, and how far the stated precharges are from it.")]


class Diagnosis(Struct, frozen=True, kw_only=True):
    """What an observed drawdown says about the precharge."""

    finding: Annotated[
        Finding,
        Meta(
            description="`agrees` with what is stated; `lost-air` or `overcharged` where a lower or a higher "
            "precharge explains it; `switch-differs` where none does."
        ),
    ]
    precharge: Annotated[
        Pressure | UnsetType,
        Meta(
            description="The precharge of the first tank that explains the observation, all others moved by the same "
            "`shift`. Below zero there is less gas than fills the tank at air pressure. Absent for `switch-differs`."
        ),
    ] = UNSET
    shift: Annotated[
        Pressure | UnsetType, Meta(description="How far that lies from the stated precharge; below zero for lost air.")
    ] = UNSET
    other_precharge: Annotated[
        Pressure | UnsetType,
        Meta(description="The first tank's precharge on the other side of cut-in that explains the same."),
    ] = UNSET
    text: Annotated[str, Meta(description="The finding in words, and how to make sure.")]


class TankCycleAnswer(Answer, frozen=True, kw_only=True):
    """How often the pump starts at the demand, or at the worst of the demands."""

    demand: CycleDemand
    outcome: CycleOutcome
    run_time: RunTime = UNSET
    rest_time: RestTime = UNSET
    starts_per_hour: StartsPerHour
    settling_pressure: SettlingPressure = UNSET
    drawdown: Annotated[Volume, Meta(description="Water that the tanks give between cut-out and cut-in.")]
    acceptance_fraction: Annotated[
        float, Meta(ge=0, le=1, description="Share of the tanks' volume that is water at cut-out.")
    ]
    shortest_run: Annotated[
        Duration | UnsetType, Meta(description="The run with no demand; absent where the pump never reaches cut-out.")
    ] = UNSET
    worst_case: Annotated[
        WorstCase | UnsetType, Meta(description="Absent where the pump never reaches cut-out at any demand.")
    ] = UNSET
    cycles: Annotated[list[Cycle] | UnsetType, Meta(description="One for each of `demands`, in their order.")] = UNSET
    precharge_advice: Annotated[PrechargeAdvice, Meta(description="How to set the precharge.")]
    volume_needed: Annotated[
        Volume | UnsetType,
        Meta(
            description="For `least_run`: total tank volume, in the stated mix and precharge, with which even the run "
            "without demand lasts so long."
        ),
    ] = UNSET
    diagnosis: Annotated[Diagnosis | UnsetType, Meta(description="For `observed_drawdown`.")] = UNSET

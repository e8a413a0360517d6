"""What the precharge of a bladder or diaphragm tank is set to."""

from footvalve.answers.unit_system import UnitSystem
from footvalve.contract.tank_cycle import PrechargeAdvice, Switch, TankCycleRequest
from footvalve.physics.method import Method
from footvalve.quantity import to_base

BELOW_CUT_IN = to_base(2.0, "psi")
"""Pa by which the precharge stands below cut-in, so that the tank is not quite empty when the pump starts."""

PRECHARGE_RULE = Method(
    name="Precharge 2 psi below cut-in",
    source="Water Systems Council, wellcare sheet Pressure Tanks (January 2007), read in an excerpt",
)

REMARKABLE = to_base(1.0, "psi")
"""Pa from the advice within which a precharge is left alone: a tyre gauge tells no better (common practice)."""


def advised_precharge(switch: Switch) -> float:
    """The precharge in Pa, gauge, that goes with a switch."""
    return switch.cut_in.base - BELOW_CUT_IN


def precharge_advice(request: TankCycleRequest, units: UnitSystem) -> PrechargeAdvice:
    """The precharge to set, and which of the tanks stand off it."""
    advised = advised_precharge(request.switch)
    apart = [
        f"tank {index} stands at {units.pressure(tank.precharge.base)}"
        for index, tank in enumerate(request.tanks, start=1)
        if abs(tank.precharge.base - advised) > REMARKABLE
    ]
    rule = (
        f"A tank with a bladder or diaphragm is charged to {units.pressure(advised)}, {units.pressure(BELOW_CUT_IN)} "
        "below cut-in: a little water stays in it, and the pressure at the taps does not drop before the pump starts."
    )
    stand = f" Of those stated, {', '.join(apart)}." if apart else " Those stated are charged to that."
    return PrechargeAdvice(precharge=units.pressure(advised), text=rule + stand)

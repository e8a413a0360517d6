"""Where a pump runs: at the flow whose rise carries the water from the well into the tank."""

from collections.abc import Sequence
from dataclasses import dataclass

from fluids.numerics import brenth

from footvalve.physics.head import head_pressure
from footvalve.physics.line_element import LineElement
from footvalve.physics.method import Method, OutsideDomain
from footvalve.physics.pump_curve import PumpCurve
from footvalve.physics.pumping_level import PumpingLevel
from footvalve.physics.si import CubicMetresPerSecond, Metres, Pascals
from footvalve.physics.water import Water

OPERATING_POINT = Method(
    "Rise of the pump = tank pressure + rho g (height from the pumping level to the tank + losses of both lines)",
    "Energy equation, White, Fluid Mechanics, 7th ed., equation 3.73; pump and system matched as in its section 11.6 "
    "(the section from memory); solved by Brent's method",
    note="steady flow; the points' rise is between inlet and outlet, whose velocity heads are taken as equal, and a "
    "reciprocating pump's acceleration head counts at its inlet alone",
)


@dataclass(frozen=True, slots=True)
class PumpedSystem:
    """What a pump works against besides the tank's pressure: `static_head` is from the water at rest up to the tank."""

    elements: Sequence[LineElement]
    water: Water
    level: PumpingLevel
    static_head: Metres

    def head_at(self, flow: CubicMetresPerSecond) -> Metres:
        """Head that a flow takes from the well up to the tank.

            H = z_tank - z_rest + s(Q) + sum of the parts' losses

        Valid for: a flow above zero.
        Source: energy equation, White, Fluid Mechanics, 7th ed., equation 3.73.
        """
        losses = sum([element.head_loss(flow, self.water) for element in self.elements])
        return self.static_head + self.level.drawdown_at(flow) + losses


@dataclass(frozen=True, slots=True)
class OperatingPoint:
    """A pump's rise and flow against a pressure in the tank."""

    rise: Pascals
    flow: CubicMetresPerSecond


def tank_pressure(system: PumpedSystem, pump: PumpCurve, *, rise: Pascals) -> Pascals:
    """Pressure in the tank against which the pump makes a rise, p_tank = dp - rho g H(Q(dp)).

    The flow never rises with the rise, and the head never falls with the flow: so the pressure in the tank grows with
    the rise, and each belongs to one of the other.

    Valid for: a pump whose points all have a flow above zero.
    Source: energy equation, White, Fluid Mechanics, 7th ed., equation 3.73.
    Raises: OutsideDomain for a rise that the points do not cover.

    >>> from footvalve.physics.water import water
    >>> system = PumpedSystem((), water(temperature=285.15), PumpingLevel(), static_head=10.0)
    >>> round(tank_pressure(system, PumpCurve((1.0e5, 3.0e5), (3.0e-4, 2.0e-4)), rise=2.0e5))
    101983
    """
    return rise - head_pressure(head=system.head_at(pump.flow_at(rise)), density=system.water.density)


def tank_pressure_span(system: PumpedSystem, pump: PumpCurve) -> tuple[Pascals, Pascals]:
    """The least and the greatest pressure in the tank that the pump's points tell of.

    Below the first the pump gives more than is known, above the last less.

    Valid for: as `tank_pressure`.
    Source: `tank_pressure` at the first point and at the last.

    >>> from footvalve.physics.water import water
    >>> system = PumpedSystem((), water(temperature=285.15), PumpingLevel(), static_head=10.0)
    >>> low, high = tank_pressure_span(system, PumpCurve((1.0e5, 3.0e5), (3.0e-4, 2.0e-4)))
    >>> round(low), round(high)
    (1983, 201983)
    """
    first, last = pump.pressures[0], pump.pressures[-1]
    return tank_pressure(system, pump, rise=first), tank_pressure(system, pump, rise=last)


def operating_point(
    system: PumpedSystem, pump: PumpCurve, *, pressure: Pascals, span: tuple[Pascals, Pascals] | None = None
) -> OperatingPoint:
    """Where the pump runs against a pressure in the tank, dp - rho g H(Q(dp)) = p_tank solved for the rise dp.

    Where a pipe's flow turns from laminar to turbulent its loss jumps, and over some pressures the flow hangs there.
    `span` is the `tank_pressure_span`, where it is known already.

    Valid for: as `tank_pressure`.
    Source: `tank_pressure`, solved by Brent's method; it grows with the rise, so there is one solution.
    Raises: OutsideDomain for a pressure outside `tank_pressure_span`.

    >>> from footvalve.physics.water import water
    >>> system = PumpedSystem((), water(temperature=285.15), PumpingLevel(), static_head=10.0)
    >>> found = operating_point(system, PumpCurve((1.0e5, 3.0e5), (3.0e-4, 2.0e-4)), pressure=1.0e5)
    >>> round(found.rise), round(found.flow, 9)
    (198017, 0.000250991)
    """
    least, greatest = span or tank_pressure_span(system, pump)
    if not least <= pressure <= greatest:
        raise OutsideDomain(f"the pump's points tell of tank pressures from {least:g} to {greatest:g} Pa")

    def excess(rise: Pascals) -> Pascals:
        return tank_pressure(system, pump, rise=rise) - pressure

    ends = {"fa": least - pressure, "fb": greatest - pressure}
    rise = float(brenth(excess, pump.pressures[0], pump.pressures[-1], xtol=_RISE_TOLERANCE, **ends))
    return OperatingPoint(rise, pump.flow_at(rise))


_RISE_TOLERANCE: Pascals = 1e-6

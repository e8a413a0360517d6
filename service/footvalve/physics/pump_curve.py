"""What a pump delivers against the pressure in the tank."""

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import inf
from typing import NamedTuple, Self

from footvalve.physics.method import Method, OutsideDomain
from footvalve.physics.si import CubicMetresPerSecond, Pascals

PUMP_CURVE = Method(
    name="Pump flow, straight between the given points",
    source="linear interpolation; the chord of a curve that bends down does not overstate the flow",
    note="from the first point to the last, and beyond a shut-off: outside them nothing is answered",
)


class CurvePiece(NamedTuple):
    """A stretch of a pump's curve on which the flow is straight over the pressure."""

    low: Pascals
    high: Pascals
    flow_at_low: CubicMetresPerSecond
    flow_at_high: CubicMetresPerSecond

    def flow_at(self, pressure: Pascals) -> CubicMetresPerSecond:
        """The flow at a pressure on this stretch."""
        return _straight_between(*self, pressure)


def _straight_between(
    low: Pascals,
    high: Pascals,
    flow_at_low: CubicMetresPerSecond,
    flow_at_high: CubicMetresPerSecond,
    pressure: Pascals,
) -> CubicMetresPerSecond:
    return flow_at_low + (flow_at_high - flow_at_low) * ((pressure - low) / (high - low))


@dataclass(frozen=True, slots=True)
class PumpCurve:
    """Flow over pressure, straight between points; pressures strictly rising, flows never rising.

    The pressures share their zero with whatever the curve is asked at: absolute with absolute.
    """

    pressures: tuple[Pascals, ...]
    flows: tuple[CubicMetresPerSecond, ...]

    def __post_init__(self) -> None:
        if len(self.pressures) != len(self.flows) or len(self.pressures) < 2:
            raise OutsideDomain("a pump curve needs two or more points")
        if not all(low < high for low, high in pairwise(self.pressures)):
            raise OutsideDomain("the pressures of a pump curve must rise from point to point")
        if not all(low >= high for low, high in pairwise(self.flows)):
            raise OutsideDomain("the flow of a pump must not rise with the pressure")
        if not (self.flows[-1] >= 0 and self.flows[0] > 0):
            raise OutsideDomain("the flow of a pump is positive, and at shut-off zero")

    @classmethod
    def constant(cls, flow: CubicMetresPerSecond) -> Self:
        """A pump whose flow does not depend on the pressure: a displacement pump, nearly."""
        return cls((0.0, inf), (flow, flow))

    @property
    def shut_off_pressure(self) -> Pascals | None:
        """The lowest pressure at which the flow is zero; None where the points do not reach it."""
        return next((p for p, flow in zip(self.pressures, self.flows, strict=True) if flow == 0), None)

    def flow_at(self, pressure: Pascals) -> CubicMetresPerSecond:
        """The pump's flow against a pressure.

            Q = Q_i + (Q_j - Q_i) (p - p_i) / (p_j - p_i)

        Beyond a last point of no flow (shut-off) there is no flow, for a check valve holds the water.
        Nothing is extended past the points otherwise: below the first the pump gives more than is known,
        which would make the run look too long, and above the last it gives less, which would hide a pump
        that never stops.

        Valid for: pressures from the first point to the last, and beyond a shut-off.
        Source: linear interpolation.
        Raises: OutsideDomain for a pressure that the points do not cover.

        >>> round(PumpCurve((1.0e5, 3.0e5), (2.0e-4, 1.0e-4)).flow_at(2.0e5), 9)
        0.00015
        """
        if pressure >= self.pressures[-1]:
            return self._flow_from_last_point(pressure)
        if not pressure >= self.pressures[0]:
            raise OutsideDomain(f"the pump's points begin at {self.pressures[0]:g} Pa, above {pressure:g} Pa")
        after = bisect_right(self.pressures, pressure)
        ends = slice(after - 1, after + 1)
        (low, high), (flow_at_low, flow_at_high) = self.pressures[ends], self.flows[ends]
        return _straight_between(low, high, flow_at_low, flow_at_high, pressure)

    def pressure_at(self, flow: CubicMetresPerSecond) -> Pascals:
        """The lowest pressure at which the pump gives no more than a flow, where it settles against that demand; for
        the flow of a first stretch that is level the end of that stretch.

            p = p_i + (p_j - p_i) (Q_i - Q) / (Q_i - Q_j)

        Valid for: flows from the first point's to the last's.
        Source: `flow_at`, inverted.
        Raises: OutsideDomain for a flow that the points do not cover.

        >>> round(PumpCurve((1.0e5, 3.0e5), (2.0e-4, 1.0e-4)).pressure_at(1.5e-4))
        200000
        """
        for piece in self.pieces_between(self.pressures[0], self.pressures[-1]):
            if piece.flow_at_low >= flow >= piece.flow_at_high and piece.flow_at_low > piece.flow_at_high:
                share = (piece.flow_at_low - flow) / (piece.flow_at_low - piece.flow_at_high)
                return piece.low + (piece.high - piece.low) * share
        raise OutsideDomain(f"the pump's points do not cover a flow of {flow:g} m^3/s")

    def pieces_between(self, low: Pascals, high: Pascals) -> Iterator[CurvePiece]:
        """The straight pieces of the curve from one pressure up to another. Raises as `flow_at`."""
        bounds = [low, *(p for p in self.pressures if low < p < high), high]
        flows = map(self.flow_at, bounds)
        for (start, end), (at_start, at_end) in zip(pairwise(bounds), pairwise(flows), strict=True):
            yield CurvePiece(start, end, at_start, at_end)

    def _flow_from_last_point(self, pressure: Pascals) -> CubicMetresPerSecond:
        if pressure > self.pressures[-1] and self.flows[-1] > 0:
            raise OutsideDomain(f"the pump's points end at {self.pressures[-1]:g} Pa, below {pressure:g} Pa")
        return self.flows[-1]

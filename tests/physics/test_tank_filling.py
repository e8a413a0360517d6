"""The pieces of a filling, against scipy's quadrature of the gas law."""

import pytest
from scipy.integrate import quad

from footvalve.physics.pump_curve import CurvePiece, PumpCurve
from footvalve.physics.tank_bank import PrechargedTank, TankBank
from footvalve.physics.tank_filling import Stretch, stretches, value_over_flow, water_over_net_flow

PIECES = {
    "flat": CurvePiece(3.0e5, 4.0e5, 2.0e-4, 2.0e-4),
    "falling": CurvePiece(3.0e5, 4.0e5, 3.0e-4, 2.0e-4),
    "hardly any flow at its end": CurvePiece(3.0e5, 4.0e5, 3.0e-4, 1.0e-4 + 1e-8),
    "wide": CurvePiece(1.0e5, 9.0e5, 3.0e-4, 2.5e-4),
}


@pytest.mark.parametrize("piece", PIECES.values(), ids=PIECES.keys())
@pytest.mark.parametrize("exponent", [1.0, 1.4])
@pytest.mark.parametrize("power", [1, 2])
def test_the_water_over_a_power_of_the_net_flow_is_that_of_quadrature(piece, exponent, power):
    """dV = gas p^(-1/n - 1) / n dp over (Q(p) - D)^power; the pole just past a piece's end takes digits from quad."""

    def integrand(pressure):
        net = piece.flow_at(pressure) - 1.0e-4
        return 3.0e4 / exponent * pressure ** (-1 / exponent - 1) / net**power

    near_its_end = piece.high - (piece.high - piece.low) * 1e-3
    expected = sum(
        quad(integrand, *ends, limit=400, epsrel=1e-11)[0]
        for ends in ((piece.low, near_its_end), (near_its_end, piece.high))
    )
    found = water_over_net_flow(Stretch(piece, 3.0e4), demand=1.0e-4, gas_exponent=exponent, power=power)
    assert found == pytest.approx(expected, rel=1e-7)


@pytest.mark.parametrize("piece", PIECES.values(), ids=PIECES.keys())
@pytest.mark.parametrize("exponent", [1.0, 1.4])
def test_a_value_over_the_flow_is_that_of_quadrature(piece, exponent):
    def integrand(pressure):
        value = 5.0 + 4.0 * (pressure - piece.low) / (piece.high - piece.low)
        return value * 3.0e4 / exponent * pressure ** (-1 / exponent - 1) / piece.flow_at(pressure)

    expected = quad(integrand, piece.low, piece.high, limit=400, epsrel=1e-11)[0]
    found = value_over_flow(Stretch(piece, 3.0e4), at_low=5.0, at_high=9.0, gas_exponent=exponent)
    assert found == pytest.approx(expected, rel=1e-9)


def test_a_filling_is_cut_where_the_curve_bends_and_where_a_tank_begins():
    """A tank that begins at cut-in takes water from there, one that begins at cut-out none at all."""
    tanks = (PrechargedTank(0.1, 3.0e5), PrechargedTank(0.2, 3.5e5, count=2), PrechargedTank(0.1, 4.0e5))
    pump = PumpCurve((2.0e5, 3.2e5, 4.0e5), (3.0e-4, 2.0e-4, 1.0e-4))
    found = stretches(TankBank(tanks, cut_in_absolute=3.0e5, cut_out_absolute=4.0e5), pump)
    assert [(stretch.piece.low, stretch.piece.high) for stretch in found] == [
        (3.0e5, 3.2e5),
        (3.2e5, 3.5e5),
        (3.5e5, 4.0e5),
    ]
    assert [stretch.gas for stretch in found] == pytest.approx([3.0e4, 3.0e4, 3.0e4 + 2 * 7.0e4])

"""The gas cushion of a tank, and what must hold for any."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.physics.atmosphere import atmospheric_pressure
from footvalve.physics.gas_tank import acceptance_fraction, drawdown, gas_volume
from footvalve.physics.method import OutsideDomain

PSI = 6894.757293168
"""NIST SP 811 (2008), Appendix B.8."""

pressures = st.floats(1.1e5, 1.1e6)
exponents = st.floats(1.0, 1.4)


def test_a_precharge_above_cut_in_counts_from_the_precharge():
    between = drawdown(tank_volume=0.1, precharge_absolute=3.5e5, cut_in_absolute=3e5, cut_out_absolute=5e5)
    assert between == pytest.approx(0.1 * (1 - 3.5 / 5))


def test_a_precharge_at_cut_out_lets_no_water_in():
    assert drawdown(tank_volume=0.1, precharge_absolute=5e5, cut_in_absolute=3e5, cut_out_absolute=5e5) == 0


@given(st.floats(1e4, 1.1e6), pressures, pressures, exponents)
def test_no_precharge_gives_more_than_a_precharge_at_cut_in(precharge, one, other, exponent):
    low, high = sorted((one, other))
    if low == high:
        return
    switch = {"cut_in_absolute": low, "cut_out_absolute": high, "gas_exponent": exponent}
    given_ = drawdown(tank_volume=1.0, precharge_absolute=precharge, **switch)
    most = drawdown(tank_volume=1.0, precharge_absolute=low, **switch)
    assert 0 <= given_ <= most * (1 + 1e-12)


@given(st.floats(0, 20), st.floats(0, 2500), st.floats(1, 500))
def test_higher_up_the_same_gauge_settings_give_more_at_a_precharge_of_cut_in(psi_apart, altitude, climb):
    """Thinner air makes the ratio of absolute pressures larger: 1 - (p1 + a) / (p2 + a) falls with a."""
    cut_in, cut_out = 30 * PSI, (50 + psi_apart) * PSI

    def given_at(height):
        air = atmospheric_pressure(altitude=height)
        return drawdown(
            tank_volume=1.0,
            precharge_absolute=cut_in + air,
            cut_in_absolute=cut_in + air,
            cut_out_absolute=cut_out + air,
        )

    assert given_at(altitude + climb) > given_at(altitude)


def test_acceptance_is_the_drawdown_of_a_precharge_at_cut_in():
    accepted = acceptance_fraction(precharge_absolute=3e5, cut_out_absolute=5e5, gas_exponent=1.2)
    given_ = drawdown(
        tank_volume=1.0, precharge_absolute=3e5, cut_in_absolute=3e5, cut_out_absolute=5e5, gas_exponent=1.2
    )
    assert accepted == pytest.approx(given_, rel=1e-12)


@pytest.mark.parametrize(
    "wrong",
    [
        {"tank_volume": 0.0},
        {"tank_volume": float("nan")},
        {"precharge_absolute": -1.0},
        {"pressure_absolute": 0.0},
        {"gas_exponent": 0.0},
    ],
)
def test_what_no_tank_can_be_is_refused(wrong):
    right = {"tank_volume": 0.1, "precharge_absolute": 3e5, "pressure_absolute": 4e5, "gas_exponent": 1.0}
    with pytest.raises(OutsideDomain):
        gas_volume(**right | wrong)


def test_a_cut_out_that_is_not_above_cut_in_is_refused():
    with pytest.raises(OutsideDomain):
        drawdown(tank_volume=0.1, precharge_absolute=3e5, cut_in_absolute=4e5, cut_out_absolute=4e5)


def test_the_gas_law_holds_down_to_the_thinnest_gas():
    """A tenth of a pascal pressed to half a pascal takes a fifth of the room."""
    thin = gas_volume(tank_volume=0.1, precharge_absolute=0.1, pressure_absolute=0.5)
    assert thin == pytest.approx(0.02, rel=1e-12)


def test_a_tank_and_its_switch_are_refused_with_what_is_wrong():
    with pytest.raises(OutsideDomain, match=r"^a tank needs a volume, an absolute pressure above vacuum"):
        gas_volume(tank_volume=0.0, precharge_absolute=3e5, pressure_absolute=4e5)
    with pytest.raises(OutsideDomain, match=r"^the cut-out pressure must be above the cut-in pressure"):
        drawdown(tank_volume=0.1, precharge_absolute=3e5, cut_in_absolute=4e5, cut_out_absolute=4e5)

"""Tanks side by side: sums of single tanks, and shifts of precharge that explain what was observed."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from footvalve.physics.gas_tank import drawdown
from footvalve.physics.tank_bank import (
    PrechargedTank,
    TankBank,
    bank_acceptance_fraction,
    bank_drawdown,
    explaining_shifts,
    most_generous_shift,
)

SWITCH = {"cut_in_absolute": 3.1e5, "cut_out_absolute": 4.5e5}
MIXED = TankBank((PrechargedTank(0.08, 2.9e5, count=2), PrechargedTank(0.2, 2.5e5)), **SWITCH)

exponents = st.floats(1.0, 1.4)
tanks = st.builds(PrechargedTank, st.floats(0.005, 1.0), st.floats(1.0e5, 4.4e5), st.integers(1, 3))
several = st.lists(tanks, min_size=1, max_size=3).map(tuple)


def one_tank(volume=0.1, precharge=2.9e5, count=1, exponent=1.0):
    return TankBank((PrechargedTank(volume, precharge, count),), **SWITCH, gas_exponent=exponent)


def test_a_bank_gives_what_its_tanks_give_one_by_one():
    alone = [
        tank.count * drawdown(tank_volume=tank.volume, precharge_absolute=tank.precharge_absolute, **SWITCH)
        for tank in MIXED.tanks
    ]
    assert bank_drawdown(MIXED) == pytest.approx(sum(alone))


def test_a_bank_of_equal_tanks_accepts_the_fraction_of_one():
    assert bank_acceptance_fraction(one_tank()) == pytest.approx(bank_acceptance_fraction(one_tank(count=3)))
    assert one_tank(count=3).volume == pytest.approx(3 * one_tank().volume)


@given(st.floats(0.005, 1.0), st.floats(0.001, 0.999), exponents)
def test_the_shifts_of_one_tank_are_those_of_the_inverted_gas_law(volume, share, exponent):
    """Below cut-in p0 = {V_d / [V (p1^(-1/n) - p2^(-1/n))]}^n, above it p0 = p2 (1 - V_d / V)^n."""
    low, high, stated = SWITCH["cut_in_absolute"], SWITCH["cut_out_absolute"], 2.9e5
    observed = share * volume * (1 - (low / high) ** (1 / exponent))
    below = (observed / (volume * (low ** (-1 / exponent) - high ** (-1 / exponent)))) ** exponent
    above = high * (1 - observed / volume) ** exponent
    found = explaining_shifts(one_tank(volume, stated, exponent=exponent), observed_drawdown=observed)
    assert [stated + shift for shift in found] == pytest.approx([below, above], rel=1e-9)


@given(several, st.floats(-3e5, 3e5), st.just(1.0) | exponents)
def test_every_shift_found_gives_the_observed_drawdown_and_the_true_one_is_among_them(tanks, shift, exponent):
    bank = TankBank(tanks, **SWITCH, gas_exponent=exponent)
    observed = bank_drawdown(bank, precharge_shift=shift)
    assume(observed > 1e-6)
    found = explaining_shifts(bank, observed_drawdown=observed)
    for each in found:
        assert bank_drawdown(bank, precharge_shift=each) == pytest.approx(observed, rel=1e-9)
    if exponent == 1 or len(tanks) == 1:
        assert min(abs(each - shift) for each in found) < 1.0


def test_tanks_without_water_have_lost_all_gas_or_are_charged_to_cut_out():
    assert explaining_shifts(one_tank(), observed_drawdown=0.0) == pytest.approx((-2.9e5, 1.6e5))


@given(st.floats(0.005, 1.0), st.floats(1.0e5, 4.4e5), exponents)
def test_the_greatest_drawdown_has_one_explanation(volume, precharge, exponent):
    bank, to_cut_in = one_tank(volume, precharge, exponent=exponent), SWITCH["cut_in_absolute"] - precharge
    greatest = bank_drawdown(one_tank(volume, SWITCH["cut_in_absolute"], exponent=exponent))
    assert explaining_shifts(bank, observed_drawdown=greatest) == pytest.approx((to_cut_in,), abs=1e-3)


def test_tanks_give_most_with_their_precharge_at_cut_in():
    assert most_generous_shift(one_tank(count=2)) == pytest.approx(0.2e5)


@given(several, st.floats(-3e5, 3e5))
def test_no_shift_gives_more_than_the_most_generous(tanks, shift):
    bank = TankBank(tanks, **SWITCH)
    most = bank_drawdown(bank, precharge_shift=most_generous_shift(bank))
    assert bank_drawdown(bank, precharge_shift=shift) <= most * (1 + 1e-12)


def test_more_than_the_switch_allows_is_not_explained():
    assert explaining_shifts(MIXED, observed_drawdown=MIXED.volume) == ()


@given(several, exponents)
def test_the_fraction_accepted_is_all_the_water_over_all_the_volume(tanks, exponent):
    """Each tank's gas is pressed from its precharge to cut-out by p V^n = constant."""
    bank = TankBank(tanks, **SWITCH, gas_exponent=exponent)
    whole = sum(tank.count * tank.volume for tank in tanks)
    gas = sum(t.count * t.volume * (t.precharge_absolute / 4.5e5) ** (1 / exponent) for t in tanks)
    assert bank_acceptance_fraction(bank) == pytest.approx(1 - gas / whole, rel=1e-9)

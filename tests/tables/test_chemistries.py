"""Battery chemistries against published practice, and what must hold for any of them."""

from itertools import pairwise

import pytest

from footvalve.tables.chemistries import CHEMISTRIES, chemistry
from footvalve.tables.reading import UnknownEntry

LEAD_ACID = ("flooded", "agm", "gel")
FREEZING = 273.15


def capacity_at(points, temperature):
    """On the straight line between the points beside a temperature."""
    for colder, warmer in pairwise(points):
        if colder.temperature <= temperature <= warmer.temperature:
            share = (temperature - colder.temperature) / (warmer.temperature - colder.temperature)
            return colder.capacity_fraction + share * (warmer.capacity_fraction - colder.capacity_fraction)
    raise AssertionError(temperature)


@pytest.mark.parametrize("name", CHEMISTRIES)
def test_capacity_does_not_fall_with_warmth_and_is_whole_at_the_rating(name):
    """Ratings are at 25 degC, so the table must say 1 there; it reaches from frost to a hot shed."""
    points = chemistry(name).cold_capacity
    for colder, warmer in pairwise(points):
        assert colder.temperature < warmer.temperature
        assert colder.capacity_fraction <= warmer.capacity_fraction
    assert capacity_at(points, 298.15) == pytest.approx(1)
    assert points[0].temperature < FREEZING - 15
    assert points[-1].temperature > FREEZING + 45
    assert all(point.source for point in points)


@pytest.mark.parametrize("name", CHEMISTRIES)
def test_defaults_make_sense(name):
    """Fractions are fractions, an exponent is one or more, and the least rate is less than the greatest."""
    found = chemistry(name)
    assert 1 <= found.peukert_exponent < 1.4
    assert 0 < found.floor_fraction < found.absorption_start_fraction < 1
    assert 0.8 <= found.charge_efficiency_fraction < 1
    assert 0 < found.self_discharge_fraction_per_month <= 0.1
    assert 0 <= found.least_charge_rate < found.greatest_charge_rate <= 1
    assert found.least_charge_rate <= found.absorption_start_rate <= found.greatest_charge_rate
    assert set(found.sources) >= {"peukert_exponent", "floor_fraction", "least_charge_temperature"}


@pytest.mark.parametrize(
    ("name", "on_float", "on_boost"), [("flooded", 5, 20), ("agm", 1, 8), ("gel", 1, 8), ("lfp", 0, 0)]
)
def test_gassing_currents_are_the_standards(name, on_float, on_boost):
    """IEC 62485-2 (2010), Table 1 (seen): mA/Ah of vented and of valve-regulated cells."""
    found = chemistry(name)
    assert (found.float_gassing_current, found.boost_gassing_current) == (on_float, on_boost)
    assert found.gases == (on_boost > 0)


@pytest.mark.parametrize(("name", "low", "high"), [("flooded", 0.05, 0.2), ("agm", 0.2, 0.334), ("gel", 0.1, 0.2)])
def test_charge_rates_lie_in_the_usual_range(name, low, high):
    """IEEE 1013, IEEE 1361 and handbooks (memory): flooded to C/5, AGM C/5 to C/3, gel C/10 to C/5."""
    found = chemistry(name)
    assert low <= found.least_charge_rate < found.greatest_charge_rate <= high


def test_lead_acid_is_one_family_and_lithium_is_not_charged_in_frost():
    """Lithium plates out on a frozen anode; lead-acid may be charged while its acid is liquid."""
    assert {chemistry(name).family for name in LEAD_ACID} == {"lead-acid"}
    assert {chemistry(name).nominal_cell_voltage for name in LEAD_ACID} == {2.0}
    assert chemistry("lfp").least_charge_temperature == FREEZING
    assert all(chemistry(name).least_charge_temperature < FREEZING for name in LEAD_ACID)


def test_lithium_minds_the_current_less_than_lead():
    """Its exponent is the smallest, its efficiency the greatest, and its taper the shortest."""
    lithium = chemistry("lfp")
    for lead in map(chemistry, LEAD_ACID):
        assert lithium.peukert_exponent < lead.peukert_exponent
        assert lithium.charge_efficiency_fraction > lead.charge_efficiency_fraction
        assert lithium.absorption_start_fraction > lead.absorption_start_fraction


def test_an_unknown_chemistry_is_named_with_the_choices():
    """A caller who asks for what is not there learns what is."""
    with pytest.raises(UnknownEntry) as unknown:
        chemistry("nickel")
    assert unknown.value.choices == CHEMISTRIES == ("flooded", "agm", "gel", "lfp")

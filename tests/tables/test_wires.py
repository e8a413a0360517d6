"""Wires against their standard's formula, and against the metal that they are made of."""

import math
from itertools import pairwise

import pytest

from footvalve.tables.conductors import CONDUCTORS, conductor
from footvalve.tables.reading import UnknownEntry
from footvalve.tables.wires import AWG_WIRES, METRIC_WIRES, awg_wire, metric_wire

INCH = 0.0254


@pytest.mark.parametrize("gauge", AWG_WIRES)
def test_gauge_follows_its_formula(gauge):
    """ASTM B258: d = 0.005 in x 92^((36 - n)/39), with n = 0 for 1/0 and -1 for 2/0; five digits are stored."""
    number = 1 - int(gauge.removesuffix("/0")) if gauge.endswith("/0") else int(gauge)
    wire = awg_wire(gauge)
    assert wire.diameter == pytest.approx(0.005 * INCH * 92 ** ((36 - number) / 39), rel=5e-5)
    assert wire.area == pytest.approx(math.pi / 4 * wire.diameter**2, rel=1e-4)


@pytest.mark.parametrize("gauge", AWG_WIRES)
def test_american_wire_resists_as_its_copper_does(gauge):
    """The code prints three digits, and its lay is 2 % give or take: 1 %."""
    copper, wire = conductor("copper"), awg_wire(gauge)
    warming = 1 + copper.temperature_coefficient * (wire.copper.temperature - 293.15)
    expected = copper.resistivity / wire.area * warming * copper.stranding_factor
    assert wire.copper.resistance_per_metre == pytest.approx(expected, rel=0.01)


@pytest.mark.parametrize("designation", METRIC_WIRES)
def test_metric_wire_resists_up_to_a_tenth_more_than_its_name_says(designation):
    """IEC 60228 states the greatest resistance; the metal may be less than nominal (50 mm2 is about 47)."""
    copper, wire = conductor("copper"), metric_wire(designation)
    nominal = copper.resistivity / wire.area
    assert nominal * copper.stranding_factor < wire.copper.resistance_per_metre < 1.13 * nominal
    assert wire.copper.temperature == 293.15


@pytest.mark.parametrize("designation", [d for d, wire in METRIC_WIRES.items() if wire.aluminum])
def test_metric_wire_of_aluminum_resists_up_to_a_tenth_more_than_its_name_says(designation):
    """And as much more than copper as IEC 60228 has it: 1.03 to 1.04 of the metals' own ratio, 1/0.61."""
    metal, wire = conductor("aluminum"), metric_wire(designation)
    assert metal.resistivity / wire.area < wire.aluminum.resistance_per_metre < 1.14 * metal.resistivity / wire.area
    ratio = wire.aluminum.resistance_per_metre / wire.copper.resistance_per_metre
    assert ratio == pytest.approx(1.66, rel=0.015)


def test_aluminum_is_told_of_the_sizes_that_the_standard_has_it_in():
    assert [d for d, wire in METRIC_WIRES.items() if wire.aluminum] == ["10", "16", "25", "35", "50", "70"]
    assert not any(wire.aluminum for wire in AWG_WIRES.values())


@pytest.mark.parametrize("wires", [AWG_WIRES, METRIC_WIRES], ids=["awg", "metric"])
def test_thicker_wire_resists_less(wires):
    """American gauges stand from thin to thick as their numbers fall, metric wires as theirs grow."""
    for thinner, thicker in pairwise(wires.values()):
        assert thinner.area < thicker.area
        assert thinner.copper.resistance_per_metre > thicker.copper.resistance_per_metre


@pytest.mark.parametrize("wires", [AWG_WIRES, METRIC_WIRES], ids=["awg", "metric"])
def test_thicker_wire_may_carry_more_but_less_for_each_area(wires):
    """A thick wire has less surface for its metal; 240.4(D) limits the thinnest ones further, so those are left out."""
    for thinner, thicker in pairwise(wires.values()):
        assert thinner.ampacity < thicker.ampacity
    by_heat = [wire for wire in wires.values() if wire.area > 5.2e-6]
    for thinner, thicker in pairwise(by_heat):
        assert thinner.ampacity / thinner.area > thicker.ampacity / thicker.area


@pytest.mark.parametrize("metric", list(METRIC_WIRES.values())[1:], ids=lambda wire: wire.designation)
def test_a_metric_wire_may_carry_what_the_next_thinner_american_one_may(metric):
    """So that no wire is allowed more than the code allows one of less metal."""
    assert metric.ampacity == max(wire.ampacity for wire in AWG_WIRES.values() if wire.area <= metric.area)


def test_the_tables_reach_as_far_as_they_should():
    """From 18 to 2/0 AWG, and from 0.75 to 70 mm2."""
    assert (*AWG_WIRES,) == ("18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0")
    assert (next(iter(METRIC_WIRES)), list(METRIC_WIRES)[-1]) == ("0.75", "70")


def test_aluminum_conducts_61_percent_as_well_as_copper():
    """By the definition of its grade, 61 % of the International Annealed Copper Standard."""
    assert CONDUCTORS == ("copper", "aluminum")
    ratio = conductor("copper").resistivity / conductor("aluminum").resistivity
    assert ratio == pytest.approx(0.61, abs=0.0005)
    assert conductor("copper").resistivity == pytest.approx(1e-6 / 58, rel=1e-4)


@pytest.mark.parametrize(("name", "at_75_degrees"), [("copper", 0.00323), ("aluminum", 0.00330)])
def test_temperature_coefficient_is_the_codes_when_referred_to_75_degrees(name, at_75_degrees):
    """NFPA 70, Table 8, note 2 (memory) states it at 75 degC: alpha75 = alpha20 / (1 + 55 K alpha20)."""
    at_20_degrees = conductor(name).temperature_coefficient
    assert at_20_degrees / (1 + 55 * at_20_degrees) == pytest.approx(at_75_degrees, abs=5e-6)


def test_an_unknown_wire_or_metal_is_named_with_the_choices():
    """A caller who asks for what is not there learns what is."""
    for ask, choices in ((awg_wire, AWG_WIRES), (metric_wire, METRIC_WIRES), (conductor, CONDUCTORS)):
        with pytest.raises(UnknownEntry) as unknown:
            ask("7")
        assert unknown.value.choices == tuple(choices)

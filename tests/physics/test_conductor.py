"""Wire resistance against the code's table, and what must hold for any wire."""

import csv
import json
import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.physics.conductor import (
    conductor_resistance,
    resistance_at_temperature,
    voltage_drop,
    warm_air_fraction,
)
from footvalve.physics.method import OutsideDomain

REFERENCE = Path(__file__).parents[1] / "reference"
FOOT = 0.3048
COPPER = {"resistivity_20": 1.7241e-8, "temperature_coefficient": 0.00393}  # IEC 60028 (1925)
LAY = 1.02  # a strand is 2 % longer than the wire: ASTM B8, from memory


def rows(name):
    with (REFERENCE / name).open(encoding="utf-8") as table:
        return list(csv.DictReader(table))


def gauge_area(gauge):
    """The solid wire of ASTM B258: d = 0.005 in x 92^((36 - n) / 39)."""
    number = 1 - int(gauge.split("/")[0]) if "/" in gauge else int(gauge)
    return math.pi / 4 * (0.005 * 0.0254 * 92 ** ((36 - number) / 39)) ** 2


@pytest.mark.parametrize("row", rows("conductor.csv"), ids=lambda row: row["id"])
def test_resistance_agrees_with_the_codes_table(row):
    """The tolerance is 0.6 to 0.8 %: the table rounds areas to circular mils, and lays vary."""
    wire = json.loads(row["inputs"])
    there_and_back = conductor_resistance(
        length_one_way=1000 * FOOT,
        area=gauge_area(wire["AWG"]) / (LAY if wire["stranded"] else 1),
        temperature=wire["T_C"] + 273.15,
        **COPPER,
    )
    assert there_and_back / 2 == pytest.approx(float(row["expected"]), abs=float(row["tolerance"])), row["source"]


def resistance(**change):
    return conductor_resistance(**{"length_one_way": 10.0, "area": 4e-6, "temperature": 348.15} | COPPER | change)


@given(st.floats(0.1, 500), st.floats(1.001, 10))
def test_a_longer_wire_drops_more(length, more):
    assert resistance(length_one_way=length * more) > resistance(length_one_way=length)


@given(st.floats(1e-7, 1e-4), st.floats(1.001, 10))
def test_a_thicker_wire_drops_less(area, more):
    assert resistance(area=area * more) < resistance(area=area)


@given(st.floats(233, 370), st.floats(0.1, 100))
def test_a_warmer_wire_drops_more(temperature, more):
    assert resistance(temperature=temperature + more) > resistance(temperature=temperature)


@given(st.floats(0, 500), st.floats(0.01, 100))
def test_more_current_drops_more(current, more):
    assert voltage_drop(current=current + more, resistance=0.1) > voltage_drop(current=current, resistance=0.1)


@pytest.mark.parametrize("change", [{"length_one_way": -1}, {"area": 0}, {"resistivity_20": 0}, {"temperature": 20}])
def test_a_wire_without_meaning_is_refused(change):
    with pytest.raises(OutsideDomain):
        resistance(**change)


@given(st.floats(233, 370), st.floats(233, 370))
def test_a_resistance_carried_to_a_temperature_is_the_one_reckoned_there(known_at, temperature):
    carried = resistance_at_temperature(
        resistance=resistance(temperature=known_at),
        known_at=known_at,
        temperature_coefficient=COPPER["temperature_coefficient"],
        temperature=temperature,
    )
    assert carried == pytest.approx(resistance(temperature=temperature), rel=1e-12)


def test_a_negative_resistance_is_refused():
    with pytest.raises(OutsideDomain):
        resistance_at_temperature(resistance=-1, known_at=348.15, temperature_coefficient=0.00393, temperature=298.15)


def test_a_negative_current_is_refused():
    with pytest.raises(OutsideDomain):
        voltage_drop(current=-1, resistance=0.1)


def test_a_wire_of_no_length_resists_nothing():
    assert resistance(length_one_way=0.0) == 0.0
    assert (
        resistance_at_temperature(resistance=0.0, known_at=348.15, temperature_coefficient=0.004, temperature=300) == 0
    )
    assert voltage_drop(current=10.0, resistance=0.0) == 0.0
    assert voltage_drop(current=0.0, resistance=0.1) == 0.0


@pytest.mark.parametrize(
    "change",
    [
        {"length_one_way": -0.1},
        {"area": 0.0},
        {"resistivity_20": 0.0},
        {"temperature_coefficient": 0.5, "temperature": 291.15},  # 1 + 0.5 (291.15 - 293.15) is zero
    ],
)
def test_a_wire_is_refused_with_what_is_wrong(change):
    with pytest.raises(OutsideDomain, match=r"^length must not be negative; area, resistivity and resistance"):
        resistance(**change)


@pytest.mark.parametrize(
    "change", [{"resistance": -0.1}, {"known_at": 291.15}, {"temperature": 291.15}, {"known_at": 290.0}]
)
def test_neither_temperature_may_be_one_that_leaves_no_resistance(change):
    """With a coefficient of 0.5/K the straight line is at zero at 291.15 K, and below it under zero."""
    right = {"resistance": 1.0, "known_at": 300.0, "temperature_coefficient": 0.5, "temperature": 310.0}
    with pytest.raises(OutsideDomain, match=r"^the resistance must not be negative, nor the temperature"):
        resistance_at_temperature(**right | change)


@pytest.mark.parametrize("wrong", [{"current": -0.1}, {"resistance": -0.1}])
def test_a_drop_is_refused_with_what_is_wrong(wrong):
    with pytest.raises(OutsideDomain, match=r"^current and resistance must not be negative"):
        voltage_drop(**{"current": 1.0, "resistance": 1.0} | wrong)


@pytest.mark.parametrize(
    ("celsius", "factor"), [(30, 1.00), (35, 0.91), (40, 0.82), (45, 0.71), (50, 0.58), (55, 0.41)]
)
def test_what_warm_air_leaves_of_an_ampacity_is_the_codes_factor(celsius, factor):
    """NFPA 70, Table 310.15(B)(1), 60 degC column, at the warm end of each band (read in two copies of the table)."""
    assert warm_air_fraction(air_temperature=celsius + 273.15) == pytest.approx(factor, abs=0.005)


@given(st.floats(303.15, 333.1), st.floats(0.01, 20))
def test_so_the_wires_heat_leaves_it_at_the_warmth_that_its_insulation_bears(air, watts):
    """Derived without the equation: a wire that loses so many W for each K, with 1 ohm."""
    full = watts * (333.15 - 303.15)
    allowed = math.sqrt(full) * warm_air_fraction(air_temperature=air)
    assert air + allowed**2 / watts == pytest.approx(333.15, abs=1e-6)


def test_cool_air_grants_no_more_and_air_as_warm_as_the_insulation_nothing():
    assert warm_air_fraction(air_temperature=233.15) == 1.0
    with pytest.raises(OutsideDomain, match=r"^insulation for 60 degC carries nothing in air of 60 degC$"):
        warm_air_fraction(air_temperature=333.15)

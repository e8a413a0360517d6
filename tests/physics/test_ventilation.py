"""Hydrogen and the air against it, by Faraday."""

import csv
import json
from pathlib import Path

import pytest
from scipy import constants

from footvalve.physics.method import OutsideDomain
from footvalve.physics.ventilation import hydrogen_evolution, ventilation_flow, ventilation_opening

REFERENCE = Path(__file__).parents[1] / "reference"
PER_SECOND = {"L/h": 1e-3 / 3600, "ft3/min": 0.3048**3 / 60}


def rows(name):
    with (REFERENCE / name).open(encoding="utf-8") as table:
        return list(csv.DictReader(table))


@pytest.mark.parametrize("row", rows("hydrogen.csv"), ids=lambda row: row["id"])
def test_hydrogen_agrees_with_faraday(row):
    cell = json.loads(row["inputs"])
    flow = hydrogen_evolution(cells=cell["cells"], current=cell["A"], temperature=cell["T_C"] + 273.15, pressure=101325)
    found = flow / PER_SECOND[row["unit"]]
    assert found == pytest.approx(float(row["expected"]), abs=float(row["tolerance"])), row["source"]


def test_hydrogen_agrees_with_the_constants_of_an_independent_library():
    faraday = constants.value("Faraday constant")
    expected = 24 * 25 * constants.R * 298.15 / (2 * faraday * constants.atm)
    found = hydrogen_evolution(cells=24, current=25, temperature=298.15, pressure=constants.atm)
    assert found == pytest.approx(expected, rel=1e-9)


def test_the_standards_air_keeps_hydrogen_below_a_fifth_of_the_explosive_limit():
    """0.05 rounds 24 x 0.42e-3 x 5 = 0.0504 down, hence 1 % of room."""
    hydrogen = hydrogen_evolution(cells=6, current=4.0, temperature=273.15, pressure=101325)
    air = ventilation_flow(cells=6, gassing_current=20, rated_capacity=200)
    assert hydrogen / (air + hydrogen) < 0.04 / 5 * 1.05


def test_the_opening_is_28_square_centimetres_for_each_cubic_metre_an_hour():
    assert ventilation_opening(flow=2.5 / 3600) == pytest.approx(70e-4)


def test_inputs_without_meaning_are_refused():
    with pytest.raises(OutsideDomain):
        ventilation_flow(cells=-1, gassing_current=20, rated_capacity=200)
    with pytest.raises(OutsideDomain):
        ventilation_opening(flow=-1)
    with pytest.raises(OutsideDomain):
        hydrogen_evolution(cells=6, current=1, temperature=0, pressure=101325)


@pytest.mark.parametrize("nothing", ["cells", "gassing_current", "rated_capacity"])
def test_where_nothing_gasses_no_air_is_needed(nothing):
    bank = {"cells": 6, "gassing_current": 20.0, "rated_capacity": 200.0} | {nothing: 0}
    assert ventilation_flow(**bank) == 0.0
    assert ventilation_opening(flow=0.0) == 0.0


@pytest.mark.parametrize("nothing", ["cells", "current"])
def test_without_cells_or_current_no_hydrogen_is_set_free(nothing):
    gassing = {"cells": 6, "current": 0.5, "temperature": 298.15, "pressure": 101325.0}
    assert hydrogen_evolution(**gassing) > 0.0
    assert hydrogen_evolution(**gassing | {nothing: 0}) == 0.0


def test_hydrogen_is_an_ideal_gas_however_cold_and_thin():
    """One ampere sets free half a mole of it for each Faraday, whatever room that takes: R T / (2 F p)."""
    cold = {"temperature": 0.5, "pressure": 0.25}
    expected = constants.R * 0.5 / (2 * constants.value("Faraday constant") * 0.25)
    assert hydrogen_evolution(cells=1, current=1.0, **cold) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("wrong", [{"cells": -1}, {"gassing_current": -0.1}, {"rated_capacity": -0.1}])
def test_a_bank_below_zero_is_refused_with_what_is_wrong(wrong):
    bank = {"cells": 6, "gassing_current": 20.0, "rated_capacity": 200.0}
    with pytest.raises(OutsideDomain, match=r"^cells, gassing current and capacity must not be negative"):
        ventilation_flow(**bank | wrong)


def test_an_air_flow_below_zero_is_refused_with_what_is_wrong():
    with pytest.raises(OutsideDomain, match=r"^a flow must not be negative"):
        ventilation_opening(flow=-1e-6)


@pytest.mark.parametrize(
    "wrong", [{"cells": -1}, {"current": -0.1}, {"temperature": 0.0}, {"pressure": 0.0}, {"pressure": -1.0}]
)
def test_gas_that_cannot_be_is_refused_with_what_is_wrong(wrong):
    gassing = {"cells": 6, "current": 0.5, "temperature": 298.15, "pressure": 101325.0}
    with pytest.raises(OutsideDomain, match=r"^cells and current must not be negative, temperature and pressure"):
        hydrogen_evolution(**gassing | wrong)

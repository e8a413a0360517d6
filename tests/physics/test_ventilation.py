"""Hydrogen and the air against it, by the standard and by Faraday."""

import csv
import json
from pathlib import Path

import pytest
from scipy import constants

from footvalve.physics.method import OutsideDomain
from footvalve.physics.ventilation import hydrogen_evolution, ventilation_flow, ventilation_opening

REFERENCE = Path(__file__).parents[1] / "reference"
PER_SECOND = {"L/h": 1e-3 / 3600, "ft3/min": 0.3048**3 / 60, "m3/h": 1 / 3600}


def rows(name):
    with (REFERENCE / name).open(encoding="utf-8") as table:
        return list(csv.DictReader(table))


@pytest.mark.parametrize("row", rows("ventilation.csv"), ids=lambda row: row["id"])
def test_air_flow_agrees_with_the_standard(row):
    bank = json.loads(row["inputs"])
    flow = ventilation_flow(cells=bank["cells"], gassing_current=bank["mA_per_Ah"], rated_capacity=bank["Ah"])
    found = flow / PER_SECOND[row["unit"]]
    assert found == pytest.approx(float(row["expected"]), abs=float(row["tolerance"])), row["source"]


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

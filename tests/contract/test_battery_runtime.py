"""The closed lists of `battery-runtime` are those of the tables."""

from typing import get_args

from footvalve.contract.battery_runtime import BatteryChemistry, WireGauge, WireMetal
from footvalve.tables.chemistries import CHEMISTRIES
from footvalve.tables.conductors import CONDUCTORS
from footvalve.tables.wires import AWG_WIRES


def test_every_chemistry_of_the_table_is_on_the_wire_and_no_other():
    """Add the name to `BatteryChemistry`, or the rows to chemistries.csv."""
    assert set(get_args(BatteryChemistry)) == set(CHEMISTRIES)


def test_every_gauge_of_the_table_is_on_the_wire_and_no_other():
    """Add the gauge to `WireGauge`, or the row to wires.csv."""
    assert get_args(WireGauge) == tuple(AWG_WIRES)


def test_every_metal_of_the_table_is_on_the_wire_and_no_other():
    """Add the name to `WireMetal`, or the rows to conductors.csv."""
    assert set(get_args(WireMetal)) == set(CONDUCTORS)

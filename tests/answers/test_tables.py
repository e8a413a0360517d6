"""The tables as they go out: every row of the CSV files, in the unit that it is written in there, with its source."""

import re
from typing import get_args

import msgspec
import pytest

from footvalve.answers.tables import TABLES, table
from footvalve.contract.battery_runtime import BatteryChemistry, WireGauge
from footvalve.contract.line import FittingKind, NominalSize, PipeProduct, ValveKind
from footvalve.contract.quantities import Quantity
from footvalve.contract.tables import ChemistryRow
from footvalve.quantity import DIMENSIONS, to_base, wire_units
from footvalve.tables.reading import facts, rows


def test_the_tables_are_those_of_the_contract():
    assert TABLES == ("pipes", "fittings", "valves", "wires", "chemistries", "cautions", "units")
    with pytest.raises(KeyError):
        table("pumps")


@pytest.mark.parametrize("name", TABLES)
def test_every_row_tells_where_it_is_from(name):
    sent = msgspec.to_builtins(table(name))
    assert sent["table"] == name
    assert sent["rows"]
    for row in sent["rows"]:
        told = [row["source"]] if "source" in row else [part["source"] for part in row["sources"]]
        assert told
        assert all(told)


def test_pipes_are_those_of_the_files_in_inches():
    sent = {
        (row.product, size.nominal): (size.outside_diameter, size.inside_diameter, size.source)
        for row in table("pipes").rows
        for size in row.sizes
    }
    kept = {(row["product"], row["nominal"]): row for row in rows("pipes")}
    assert sent.keys() == kept.keys()
    for key, (outside, inside, source) in sent.items():
        assert (outside.unit, inside.unit) == ("in", "in")
        assert outside.value == float(kept[key]["outside_diameter_in"])
        assert inside.value == pytest.approx(float(kept[key]["inside_diameter_in"]), rel=5e-6)
        assert source == kept[key]["source"]


def test_the_walls_of_pipes_are_those_of_the_files():
    kept = facts("materials", "material")
    for row in table("pipes").rows:
        wall = kept[row.material]
        assert (row.roughness.value, row.roughness.unit) == (float(wall["roughness"]["value"]), "mm")
        assert row.roughness_source == wall["roughness"]["source"]
        assert row.hazen_williams_coefficient == float(wall["hazen_williams_coefficient"]["value"])


@pytest.mark.parametrize(("name", "number"), [("fittings", "value"), ("valves", "equivalent_length_ratio")])
def test_fittings_and_valves_are_those_of_the_files(name, number):
    key = name.removesuffix("s")
    sent = {row[key]: row for row in msgspec.to_builtins(table(name))["rows"]}
    kept = {row[key]: row for row in rows(name)}
    assert sent.keys() == kept.keys()
    for each, row in sent.items():
        assert row.get(number) == (float(kept[each][number]) if kept[each][number] else None)
        assert row["source"] == kept[each]["source"]
        assert row.get("note", "") == kept[each]["note"]


def test_the_velocity_that_lifts_a_disc_is_worked_out_for_water_as_heavy_as_a_conventional_column():
    """Crane's V = c sqrt(v): water of 1000 kg/m^3 is 62.428 lb/ft^3 (1 lb/ft^3 = 16.01846 kg/m^3, NIST SP 811)."""
    sent = {row.valve: row for row in table("valves").rows}
    kept = {row["valve"]: row for row in rows("disc_lift")}
    assert {name for name, row in sent.items() if row.full_lift_velocity is not msgspec.UNSET} == kept.keys()
    for name, row in kept.items():
        velocity = sent[name].full_lift_velocity
        assert velocity.unit == "ft/s"
        assert velocity.value == pytest.approx(float(row["full_lift_constant"]) / 62.42797**0.5, rel=1e-5)
        assert sent[name].full_lift_source == row["source"]


def test_wires_have_the_resistance_of_the_length_that_their_trade_uses():
    kept = {(row["system"], row["designation"]): row for row in rows("wires")}
    sent = {(row.system, row.designation): row for row in table("wires").rows}
    assert sent.keys() == kept.keys()
    for key, row in sent.items():
        assert (row.area.value, row.area.unit) == (float(kept[key]["area_mm2"]), "mm^2")
        assert row.resistance.value == float(kept[key]["resistance"])
        length = {"ohm/kft": (1000, "ft"), "ohm/km": (1000, "m")}[kept[key]["resistance_unit"]]
        assert (row.resistance_length.value, row.resistance_length.unit) == length
        assert (row.ampacity.value, row.ampacity.unit) == (float(kept[key]["ampacity_A"]), "A")
        assert row.ampacity_source == kept[key]["ampacity_source"]
        assert row.resistance_temperature.value == float(kept[key]["resistance_temperature_degC"])
        assert (row.diameter is msgspec.UNSET) == (not kept[key]["diameter_mm"])


IN_THE_FILE = {
    "absorption_start_current": "absorption_start_rate",
    "monthly_self_discharge_fraction": "self_discharge_fraction_per_month",
    "least_charge_current": "least_charge_rate",
    "greatest_charge_current": "greatest_charge_rate",
}


def test_chemistries_are_those_of_the_files_and_name_a_source_for_each_field():
    kept = facts("chemistries", "chemistry")
    for row in table("chemistries").rows:
        told = {part.field: part.source for part in row.sources}
        assert told.keys() == set(ChemistryRow.__struct_fields__) - {"chemistry", "cold_capacity", "sources"}
        for field, source in told.items():
            fact = kept[row.chemistry][IN_THE_FILE.get(field, field)]
            value = getattr(row, field)
            assert source == fact["source"]
            assert written(value) == fact["value"] or float(fact["value"]) == pytest.approx(plain(value), rel=5e-6)


def plain(value):
    return value.value if isinstance(value, Quantity) else value


def written(value):
    return {True: "yes", False: "no"}.get(value) if isinstance(value, bool) else value


def test_cold_capacities_are_those_of_the_family():
    for row in table("chemistries").rows:
        kept = [each for each in rows("cold_capacity") if each["family"] == row.family]
        assert [point.temperature.value for point in row.cold_capacity] == [
            float(each["temperature_degC"]) for each in kept
        ]
        assert [point.source for point in row.cold_capacity] == [each["source"] for each in kept]


def test_cautions_are_those_of_the_file():
    sent = [(row.code, row.severity, row.text, row.source) for row in table("cautions").rows]
    assert sent == [(row["code"], row["severity"], row["text"], row["source"]) for row in rows("cautions")]


def test_units_lead_to_the_base_unit_by_scale_and_offset():
    sent = table("units").rows
    assert [(row.dimension, row.unit) for row in sent] == [
        (dimension, unit) for dimension in DIMENSIONS for unit in wire_units(dimension)
    ]
    for row in sent:
        assert 7.5 * row.scale + row.offset == to_base(7.5, row.unit)
    known = {row.unit: row for row in sent}
    assert (known["ft"].scale, known["ft"].base_unit) == (0.3048, "m")
    assert known["degC"].offset == 273.15
    assert {row.unit for row in sent if row.offset} == {"degC", "degF"}


@pytest.mark.parametrize(
    ("name", "key", "choices"),
    [
        ("pipes", "product", PipeProduct),
        ("fittings", "fitting", FittingKind),
        ("valves", "valve", ValveKind),
        ("chemistries", "chemistry", BatteryChemistry),
    ],
)
def test_what_a_request_may_name_is_in_its_table(name, key, choices):
    assert {getattr(row, key) for row in table(name).rows} == set(get_args(choices))


def test_sizes_and_gauges_that_a_request_may_name_are_in_their_tables():
    assert {size.nominal for row in table("pipes").rows for size in row.sizes} == set(get_args(NominalSize))
    gauges = {row.designation for row in table("wires").rows if row.system == "awg"}
    assert gauges == set(get_args(WireGauge))


@pytest.mark.parametrize("name", TABLES)
def test_a_table_holds_no_null_and_no_number_that_is_not_finite(name):
    assert not re.search(rb"[:\[,]null", msgspec.json.encode(table(name)))

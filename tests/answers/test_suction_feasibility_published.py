"""The public answer of `suction-feasibility` against published values of NPSH, lift and the rule of thumb."""

import csv
import json
from pathlib import Path

import msgspec
import pytest
from CoolProp.CoolProp import PropsSI

from footvalve.answers.endpoints import ENDPOINT
from footvalve.physics.head import pressure_head
from footvalve.physics.pipe_flow import velocity_head

REFERENCE = Path(__file__).parents[1] / "reference" / "suction.csv"
FOOT, GRAVITY = 0.3048, 9.80665
PSI = 4.4482216152605 / 0.0254**2

with REFERENCE.open(encoding="utf-8") as text:
    ROWS = list(csv.DictReader(text))


def rows(quantity):
    found = [row for row in ROWS if row["quantity"] == quantity]
    assert found, f"no row of {quantity!r}: the file was changed, follow it here"
    return [pytest.param(row, json.loads(row["inputs"]), id=row["id"]) for row in found]


def agrees(value, row):
    expected, tolerance = float(row["expected"]), float(row["tolerance"])
    assert abs(value - expected) <= tolerance, (
        f"{value:.6g} {row['unit']} is {value - expected:+.3g} from {expected} of {row['source']} "
        f"({row['locator']}); allowed {tolerance}: {row['note']}"
    )


def of(value, unit):
    return {"value": value, "unit": unit}


def length(inputs, name):
    """In m, from a key that carries its unit."""
    return inputs[f"{name}_ft"] * FOOT if f"{name}_ft" in inputs else inputs[f"{name}_m"]


def kelvins(inputs):
    return (inputs["T_F"] + 459.67) / 1.8 if "T_F" in inputs else inputs["T_C"] + 273.15


def ask(*, altitude, temperature, lift, losses, required=0.0):
    """A site in metres and kelvins, whose losses are those of one passage; its pipe is wide and costs nothing."""
    density = PropsSI("D", "T", temperature, "P|liquid", 101325, "Water")
    flow = of(10, "L/min")
    body = {
        "units": "metric",
        "site": {"altitude": of(altitude, "m"), "water_temperature": of(temperature, "K")},
        "depth_to_water": of(20, "m"),
        "drawdown": of(0, "m"),
        "flow": flow,
        "pump": {
            "style": "rotary",
            "inlet_elevation": of(lift - 20, "m"),
            "npsh_required": of(required, "m"),
        },
        "intake_elevation": of(-30, "m"),
        "line": [
            {"part": "idle-pump", "flow": flow, "drop": of(density * GRAVITY * losses, "Pa")},
            {
                "part": "pipe",
                "bore": {"diameter": of(0.9, "m"), "roughness": of(0, "mm")},
                "length": of(40, "m"),
            },
        ],
    }
    endpoint = ENDPOINT["suction-feasibility"]
    return endpoint(msgspec.json.decode(msgspec.json.encode(body), type=endpoint.request))


@pytest.mark.parametrize(("row", "inputs"), rows("NPSH available"))
def test_npsh_available_is_the_published_one(row, inputs):
    answer = ask(
        altitude=length(inputs, "z"),
        temperature=kelvins(inputs),
        lift=length(inputs, "lift"),
        losses=length(inputs, "losses"),
    )
    unit = {"ft": FOOT, "m": 1.0}[row["unit"]]
    agrees(answer.npsh_available.value / unit, row)


@pytest.mark.parametrize(("row", "inputs"), rows("greatest lift"))
def test_the_greatest_lift_is_the_published_one(row, inputs):
    """Where the margin is nothing: the margin at no lift."""
    answer = ask(
        altitude=length(inputs, "z"),
        temperature=kelvins(inputs),
        lift=0.0,
        losses=length(inputs, "losses"),
        required=length(inputs, "npshr"),
    )
    agrees(answer.margin.value / FOOT, row)


@pytest.mark.parametrize(("row", "inputs"), rows("NPSH from a gauge"))
def test_npsh_from_a_suction_gauge_is_the_published_one(row, inputs):
    """By the heads that the answer is made of: pressure over the vapour's, velocity, and the gauge's place."""
    pressure = (inputs["Pg_psi"] + inputs["Pa"] - inputs["Pvp"]) * PSI
    density = PropsSI("D", "T", 293.15, "P|liquid", 101325, "Water")
    head = pressure_head(pressure=pressure, density=density) + velocity_head(velocity=inputs["V_fps"] * FOOT)
    agrees(head / FOOT + inputs["Y_ft"], row)


def allowed_lift(altitude):
    answer = ask(altitude=altitude, temperature=285.15, lift=1.0, losses=0.1)
    return answer.rule_of_thumb.allowed_lift.value / FOOT


@pytest.mark.parametrize(("row", "inputs"), rows("rule of thumb"))
def test_the_rule_of_thumb_lies_in_the_published_band(row, inputs):
    """Practice, not physics: a band, no equality."""
    agrees(allowed_lift(length(inputs, "z")), row)


@pytest.mark.parametrize("row", [row.values[0] for row in rows("rule of thumb, fall per 1000 ft")])
def test_the_rule_of_thumb_falls_as_published(row):
    agrees((allowed_lift(0.0) - allowed_lift(6000 * FOOT)) / 6, row)


def test_every_published_row_is_compared():
    """A new quantity in the file needs a test here."""
    assert {row["quantity"] for row in ROWS} == {
        "NPSH available",
        "greatest lift",
        "NPSH from a gauge",
        "rule of thumb",
        "rule of thumb, fall per 1000 ft",
    }

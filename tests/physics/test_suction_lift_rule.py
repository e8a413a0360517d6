"""The rule of thumb for suction lift."""

import pytest

from footvalve.physics.suction_lift_rule import SUCTION_LIFT_RULE, rule_of_thumb_lift

FOOT = 0.3048


@pytest.mark.parametrize(("altitude", "lift"), [(0, 25), (1000, 24), (4500, 20.5), (9000, 16)])
def test_the_rule_is_25_feet_less_one_for_each_thousand(altitude, lift):
    """US Army FM 5-484 (1994), para 4-2: 22 to 25 ft, about 1 ft less for each 1000 ft."""
    assert rule_of_thumb_lift(altitude=altitude * FOOT) == pytest.approx(lift * FOOT, rel=1e-12)


def test_the_rule_is_kinder_than_the_air_is_high_up():
    """The air's head falls by 1.2 ft in the first 1000 ft (U.S. Standard Atmosphere 1976), the rule by 1."""
    pressure = 101325 * (1 - 0.0065 * 304.8 / 288.15) ** 5.25588
    fall = (101325 - pressure) / (1000 * 9.80665) / FOOT
    assert fall == pytest.approx(1.2, abs=0.03)
    assert rule_of_thumb_lift(altitude=0.0) - rule_of_thumb_lift(altitude=304.8) == pytest.approx(FOOT)
    assert SUCTION_LIFT_RULE.range_of("altitude").high == 3000.0

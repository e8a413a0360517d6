"""Every comparison, with how many cases it promises."""

from collections.abc import Callable
from dataclasses import dataclass

from engines import (
    air,
    battery,
    friction_factor,
    manifold,
    outage,
    stone_fall,
    suction,
    tank,
    water,
    water_line,
    well,
)
from engines.comparison import Comparison


@dataclass(frozen=True)
class Planned:
    """A comparison that is still to be run, and the cases that it must not fall short of."""

    run: Callable[[], Comparison]
    cases: int

    @property
    def name(self) -> str:
        """Where it stands: module and function."""
        return f"{self.run.__module__.removeprefix('engines.')}.{self.run.__name__}"


COMPARISONS = (
    Planned(water.density_by_coolprop, 191),
    Planned(water.viscosity_by_coolprop, 191),
    Planned(water.vapour_pressure_by_coolprop, 191),
    Planned(water.density_by_iapws, 191),
    Planned(water.viscosity_by_iapws, 191),
    Planned(water.vapour_pressure_by_iapws, 191),
    Planned(water.density_under_pressure, 1100),
    Planned(water.viscosity_under_pressure, 1100),
    Planned(air.pressure_by_integration, 105),
    Planned(air.density_by_coolprop, 92),
    Planned(air.sound_by_coolprop, 92),
    Planned(friction_factor.turbulent, 1860),
    Planned(friction_factor.laminar, 1240),
    Planned(water_line.by_colebrook, 200),
    Planned(water_line.by_epanet_darcy_weisbach, 160),
    Planned(water_line.by_epanet_hazen_williams, 210),
    Planned(stone_fall.integrated, 1440),
    Planned(suction.margin, 290),
    Planned(suction.pressures, 1500),
    Planned(suction.losses_with_cranes_fittings, 290),
    Planned(tank.drawdown, 120),
    Planned(tank.run_time, 120),
    Planned(tank.rest_time, 120),
    Planned(tank.starts, 120),
    Planned(tank.slow_air, 36),
    Planned(tank.quick_air, 36),
    Planned(battery.runtime, 150),
    Planned(battery.charge_after_days, 200),
    Planned(outage.state_of_charge, 7000),
    Planned(outage.state_of_charge_with_loads_cut_off, 2000),
    Planned(battery.recharge, 120),
    Planned(well.pumping_test, 120),
    Planned(well.recovery, 120),
    Planned(well.time_to_limit, 100),
    Planned(well.noisy_recovery, 120),
    Planned(well.stated_uncertainty, 120),
    Planned(manifold.reach, 1600),
    Planned(manifold.rounds, 1600),
)

"""Ask a running service the questions of a site in a JSON file, one after the other, and print what it answers.

The depth that the sounding finds, and the yield that the well's test shows, go on into the question about suction.
"""

import json
import signal
import sys
from collections.abc import Iterable, Iterator
from contextlib import suppress
from pathlib import Path
from textwrap import fill
from typing import Any

import httpx

from footvalve_client import (
    BatteryRuntimeAnswer,
    Footvalve,
    FootvalveError,
    FrictionAnswer,
    InputWarning,
    Quantity,
    SoundingAnswer,
    SuctionFeasibilityAnswer,
    TankCycleAnswer,
    WellRecoveryAnswer,
)

WIDTH = 100
SECTIONS = ("sounding", "well-recovery", "suction-feasibility", "friction", "tank-cycle", "battery-runtime")
SEVERITIES = ("danger", "warning", "note")


def main() -> int:
    """Print the answers; 0 where there were some, 1 where the service or the file refused."""
    url, file = sys.argv[1:]
    with suppress(AttributeError):
        signal.signal(signal.SIGPIPE, signal.SIG_DFL)
    try:
        print("\n".join(told(url, site_in(Path(file)))))
    except (FootvalveError, OSError, ValueError) as error:
        print(f"{file}: {error}", file=sys.stderr)
        return 1
    return 0


def site_in(file: Path) -> dict[str, Any]:
    """The site of a file. Raises ValueError for what is no JSON, or lacks a section."""
    site = json.loads(file.read_text(encoding="utf-8"))
    missing = [name for name in ("title", *SECTIONS) if not isinstance(site, dict) or name not in site]
    if missing:
        raise ValueError(f"a site has a title and a section for each of {', '.join(SECTIONS)}; missing: {missing[0]}")
    return dict(site)


def told(url: str, site: dict[str, Any]) -> Iterable[str]:
    """The site's title and every answer, line by line."""
    everywhere = {key: site[key] for key in ("units", "site") if key in site}
    asked = {name: {**everywhere, **site[name]} for name in SECTIONS}
    with httpx.Client(trust_env=False) as direct, Footvalve(url, http_client=direct) as service:
        water = service.sounding(**asked["sounding"])
        well = service.well_recovery(**asked["well-recovery"])
        found = {"depth_to_water": water.depth_below_ground, "specific_capacity": well.specific_capacity}
        suction = service.suction_feasibility(**{**found, **asked["suction-feasibility"]})
        delivery = service.friction(**asked["friction"])
        tank = service.tank_cycle(**asked["tank-cycle"])
        battery = service.battery_runtime(**asked["battery-runtime"])
    yield site["title"]
    for lines in (_water(water), _well(well), _suction(suction), _delivery(delivery), _tank(tank), _battery(battery)):
        yield from ("", *lines)
    yield from ("", "Watch out")
    cautions = {
        c.text: c.severity for answer in (water, well, suction, delivery, tank, battery) for c in answer.cautions
    }
    for severity in SEVERITIES:
        yield from (_item(f"{severity}: {text}") for text, level in cautions.items() if level == severity)


def _item(text: str) -> str:
    return fill(text, WIDTH, initial_indent="  - ", subsequent_indent="    ")


def _doubts(warnings: Iterable[InputWarning]) -> Iterator[str]:
    return (_item(f"doubt, {warning.pointer}: {warning.detail}") for warning in warnings)


def _short(quantity: Quantity[Any]) -> str:
    return f"{_digits(quantity.value)} {quantity.unit}"


def _unsure(quantity: Quantity[Any]) -> str:
    """A quantity with its standard uncertainty, where an input is uncertain."""
    sigma = quantity.uncertainty
    return f"{_digits(quantity.value)} ± {sigma:.2g} {quantity.unit}" if sigma else _short(quantity)


def _digits(value: float) -> str:
    return f"{value:.3g}" if abs(value) < 1000 else f"{value:.0f}"


def _water(answer: SoundingAnswer) -> Iterable[str]:
    yield f"The water stands {_short(answer.depth_below_ground)} below the ground"
    yield from _doubts(answer.warnings)


def _well(answer: WellRecoveryAnswer) -> Iterable[str]:
    yield f"The well: {answer.verdict or 'no verdict'}, {_short(answer.specific_capacity)}"
    yield from map(_item, answer.reasons)
    yield from _doubts(answer.warnings)


def _suction(answer: SuctionFeasibilityAnswer) -> Iterable[str]:
    yield f"Drawing on it by suction: {answer.verdict.upper()}, a margin of {_unsure(answer.margin)}"
    lift, depth = _short(answer.static_lift), _short(answer.pumping_depth)
    yield _item(f"While it is drawn in the dry season the water stands at {depth}, so that the lift is {lift}")
    yield from map(_item, answer.reasons)
    vacuum = ", ".join(part.name for part in answer.air_entry)
    yield _item(f"Under vacuum, so that any leak draws air: {vacuum or 'nothing'}")
    yield from _doubts(answer.warnings)


def _delivery(answer: FrictionAnswer) -> Iterable[str]:
    yield f"The line to the house takes {_short(answer.total_head_loss)} at {_short(answer.flow)}"
    yield from _doubts(answer.warnings)


def _tank(answer: TankCycleAnswer) -> Iterable[str]:
    yield f"The tank gives {_short(answer.drawdown)} between starts"
    yield _item(f"At {_short(answer.demand)} the pump starts {answer.starts_per_hour:.3g} times an hour")
    yield _item(answer.precharge_advice.text)
    yield from _doubts(answer.warnings)


def _battery(answer: BatteryRuntimeAnswer) -> Iterable[str]:
    yield f"The battery lasts {answer.days_of_autonomy:.2g} days"
    if answer.water_per_charge:
        yield _item(f"{_short(answer.water_per_charge)} of water on one charge")
    if answer.voltage_drop:
        yield _item(f"The wire takes {answer.voltage_drop.fraction:.1%} of the voltage")
    for charger in answer.recharge or ():
        how = f"full again in {charger.hours:.0f} h" if charger.holds and charger.hours else "does not keep up"
        yield _item(f"Charger of {_short(charger.current)}: {how}; {charger.rate_note}")
    yield from _doubts(answer.warnings)


if __name__ == "__main__":
    sys.exit(main())

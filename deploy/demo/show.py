"""Ask a running service the questions of a site in a JSON file, and print what it answers."""

import json
import sys
from collections.abc import Iterable
from pathlib import Path
from textwrap import fill
from typing import Any

from footvalve_client import (
    BatteryRuntimeAnswer,
    Footvalve,
    FootvalveError,
    FrictionAnswer,
    Quantity,
    SoundingAnswer,
    SuctionFeasibilityAnswer,
    TankCycleAnswer,
)

WIDTH = 100


def main() -> int:
    """Print the answers; 0 where there were some, 1 where the service or the file refused."""
    url, file = sys.argv[1:]
    try:
        site = json.loads(Path(file).read_text(encoding="utf-8"))
        print("\n".join(told(url, site)))
    except (FootvalveError, ValueError, KeyError, TypeError) as error:
        print(f"{file}: {error}", file=sys.stderr)
        return 1
    return 0


def told(url: str, site: dict[str, Any]) -> Iterable[str]:
    """The site's title and every answer, line by line."""
    with Footvalve(url) as service:
        well = service.sounding(**site["sounding"])
        suction = service.suction_feasibility(**site["suction-feasibility"])
        delivery = service.friction(**site["friction"])
        tank = service.tank_cycle(**site["tank-cycle"])
        battery = service.battery_runtime(**site["battery-runtime"])
    yield site["title"]
    yield from ("", *_water(well))
    yield from ("", *_suction(suction))
    yield from ("", *_delivery(delivery))
    yield from ("", *_tank(tank))
    yield from ("", *_battery(battery))
    yield from ("", "Watch out")
    texts = {c.text: c.severity for answer in (well, suction, delivery, tank, battery) for c in answer.cautions}
    yield from (_item(f"{severity}: {text}") for text, severity in texts.items())


def _item(text: str) -> str:
    return fill(text, WIDTH, initial_indent="  - ", subsequent_indent="    ")


def _short(quantity: Quantity) -> str:
    return f"{quantity.value:.3g} {quantity.unit}"


def _water(answer: SoundingAnswer) -> Iterable[str]:
    yield f"Water stands {_short(answer.depth_below_ground)} below the ground"
    yield _item(f"{len(answer.readings)} readings, {_short(answer.spread)} apart")
    yield from (_item(f"doubt: {doubt.detail}") for doubt in answer.warnings)


def _suction(answer: SuctionFeasibilityAnswer) -> Iterable[str]:
    yield f"Drawing on it from the cellar: {answer.verdict.upper()}, {_short(answer.margin)} of head to spare"
    yield from map(_item, answer.reasons)
    yield from (_item(f"doubt: {doubt.detail}") for doubt in answer.warnings)
    vacuum = ", ".join(part.name for part in answer.air_entry)
    yield _item(f"Under vacuum, so that any leak draws air: {vacuum or 'nothing'}")


def _delivery(answer: FrictionAnswer) -> Iterable[str]:
    yield f"The line to the house takes {_short(answer.total_head_loss)} at {_short(answer.flow)}"
    yield from (_item(f"doubt: {doubt.detail}") for doubt in answer.warnings)


def _tank(answer: TankCycleAnswer) -> Iterable[str]:
    yield f"The tank gives {_short(answer.drawdown)} between starts"
    yield _item(f"At {_short(answer.demand)} the pump starts {answer.starts_per_hour:.3g} times an hour")
    yield _item(answer.precharge_advice.text)
    yield from (_item(f"doubt: {doubt.detail}") for doubt in answer.warnings)


def _battery(answer: BatteryRuntimeAnswer) -> Iterable[str]:
    yield f"The battery lasts {answer.days_of_autonomy:.2g} days"
    if answer.water_per_charge:
        yield _item(f"{_short(answer.water_per_charge)} of water on one charge")
    if answer.voltage_drop:
        yield _item(f"The wire takes {answer.voltage_drop.fraction:.1%} of the voltage")
    for charger in answer.recharge or ():
        how = f"full again in {charger.hours:.0f} h" if charger.holds and charger.hours else "does not keep up"
        yield _item(f"Charger of {_short(charger.current)}: {how}; {charger.rate_note}")
    yield from (_item(f"doubt: {doubt.detail}") for doubt in answer.warnings)


if __name__ == "__main__":
    sys.exit(main())

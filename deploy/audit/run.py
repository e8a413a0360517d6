"""Looks through the source, through what is installed and under which licences, and writes the bill of materials.

    python deploy/audit/run.py [--bill FILE]

Ends with 1 where anything is found that accepted.toml does not accept with a reason. No network is used.
"""

import argparse
import json
import subprocess
import sys
import tomllib
from collections.abc import Iterable
from pathlib import Path

from bill import bill
from installed import licence_faults, pin_faults
from source import harmful, undeclared

ACCEPTED = Path(__file__).with_name("accepted.toml")
PINS = Path("deploy/requirements.txt")
MOST_TOLD = 40


def main() -> int:
    """Every part of the audit, each with what it has found; the exit code is 1 where there is anything."""
    parser = argparse.ArgumentParser(description="Audit the source and what is installed.")
    parser.add_argument("--bill", type=Path, default=Path("build/bill-of-materials.json"), help="where it is written")
    asked = parser.parse_args()
    accepted = tomllib.loads(ACCEPTED.read_text(encoding="utf-8"))
    imports = accepted["imports"]
    found = [
        _told("source that could do harm (bandit)", harmful(accepted["bandit"], _say)),
        _told("imports of the service (deptry)", undeclared(Path(), "service/footvalve", imports["service"], _say)),
        _told(
            "imports of the client (deptry)", undeclared(Path("client"), "footvalve_client", imports["client"], _say)
        ),
        _told("requirements that do not fit (pip check)", _broken()),
        _told("pins against what is installed", pin_faults(PINS)),
        _told("licences", licence_faults(accepted["licences"])),
    ]
    asked.bill.parent.mkdir(parents=True, exist_ok=True)
    written = bill()
    asked.bill.write_text(json.dumps(written, indent=2) + "\n", encoding="utf-8")
    print(f"audit: the bill of materials of {len(written['components'])} components is in {asked.bill}")
    print("audit: advisories were not looked up, which needs a network: pip-audit -r deploy/requirements.txt")
    return 1 if any(found) else 0


def _say(text: str) -> None:
    print(text, file=sys.stderr)


def _told(what: str, faults: Iterable[str]) -> int:
    """How many faults there are, once they have been told."""
    found = list(dict.fromkeys(faults))
    print(f"audit: {what}: {len(found) or 'nothing'} found")
    for fault in found[:MOST_TOLD]:
        _say(f"  {fault}")
    return len(found)


def _broken() -> list[str]:
    command = [sys.executable, "-m", "pip", "check", "--disable-pip-version-check"]
    ended = subprocess.run(command, check=False, capture_output=True, text=True, env={})
    return ended.stdout.splitlines() if ended.returncode else []


if __name__ == "__main__":
    sys.exit(main())

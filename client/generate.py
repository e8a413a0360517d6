"""Writes `footvalve_client/_generated` anew from the contract document; with `--check` it only says what differs."""

import argparse
import sys
from pathlib import Path

from generator.contract import read_contract
from generator.modules import modules
from generator.vocabulary import vocabulary

_CLIENT = Path(__file__).parent
_CONTRACT = _CLIENT.parent / "openapi" / "footvalve.json"
_GENERATED = _CLIENT / "footvalve_client" / "_generated"


def main() -> int:
    """Write the modules, or compare them. The exit code is 1 where a comparison finds a difference."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--check", action="store_true", help="write nothing; fail where a byte would change")
    parser.add_argument("--contract", type=Path, default=_CONTRACT, help="the contract document")
    options = parser.parse_args()
    wanted = modules(vocabulary(read_contract(options.contract)))
    stale = _stale(wanted)
    if options.check:
        for name in stale:
            print(f"{_GENERATED.relative_to(_CLIENT.parent) / name} is not what the contract makes it", file=sys.stderr)
        return 1 if stale else 0
    for name in stale:
        _write(name, wanted.get(name))
    return 0


def _stale(wanted: dict[str, str]) -> list[str]:
    """The files that are not as wanted, or should not be there."""
    present = {file.name: file.read_text(encoding="utf-8") for file in _GENERATED.glob("*.py")}
    return sorted(name for name in present.keys() | wanted.keys() if present.get(name) != wanted.get(name))


def _write(name: str, text: str | None) -> None:
    file = _GENERATED / name
    if text is None:
        file.unlink()
    else:
        file.parent.mkdir(exist_ok=True)
        file.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    raise SystemExit(main())

"""Writes what the client has of the contract document anew; with `--check` it only says what differs.

These are the modules of `footvalve_client/_generated`, and the recordings of `footvalve_client/_recorded`.
"""

import argparse
import sys
from pathlib import Path

from generator.contract import read_contract
from generator.modules import modules
from generator.recordings import recordings
from generator.vocabulary import vocabulary

_CLIENT = Path(__file__).parent
_CONTRACT = _CLIENT.parent / "openapi" / "footvalve.json"
_MODULES = _CLIENT / "footvalve_client" / "_generated"
_RECORDINGS = _CLIENT / "footvalve_client" / "_recorded"


def main() -> int:
    """Write the files, or compare them. The exit code is 1 where a comparison finds a difference."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--check", action="store_true", help="write nothing; fail where a byte would change")
    parser.add_argument("--contract", type=Path, default=_CONTRACT, help="the contract document")
    options = parser.parse_args()
    wanted = {_MODULES / name: text for name, text in modules(vocabulary(read_contract(options.contract))).items()}
    wanted |= {_RECORDINGS / name: text for name, text in recordings(options.contract).items()}
    stale = _stale(wanted)
    if options.check:
        for file in stale:
            print(f"{file.relative_to(_CLIENT.parent)} is not what the contract makes it", file=sys.stderr)
        return 1 if stale else 0
    for file in stale:
        _write(file, wanted.get(file))
    return 0


def _stale(wanted: dict[Path, str]) -> list[Path]:
    """The files that are not as wanted, or should not be there."""
    files = [*_MODULES.glob("*.py"), *_RECORDINGS.glob("*.json")]
    present = {file: file.read_text(encoding="utf-8") for file in files}
    return sorted(file for file in present.keys() | wanted.keys() if present.get(file) != wanted.get(file))


def _write(file: Path, text: str | None) -> None:
    if text is None:
        file.unlink()
    else:
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    raise SystemExit(main())

"""The command `footvalve`: serve the endpoints, make a key, or tell the settings, the contract or how right it is."""

import argparse
import sys
from collections.abc import Sequence
from difflib import unified_diff
from pathlib import Path
from typing import NoReturn

from footvalve import __version__
from footvalve.accuracy.rows import BadRow, published_rows
from footvalve.serving.listener import CannotListen
from footvalve.serving.running import run_service
from footvalve.serving.settings_listing import for_people, for_programs
from footvalve.serving.standard_streams import let_go
from footvalve.serving.start_checks import check_keys_file, doubts
from footvalve.web.key_file import is_key_name
from footvalve.web.key_making import entry_of, made_key
from footvalve.web.settings import BadSetting, Settings
from footvalve.web.whole_number import whole_number

CONTRACT = Path("openapi/footvalve.json")
"""Where the contract document stands, seen from the project's folder."""

PUBLISHED = Path(__file__).parents[2] / "tests/reference/answers"
"""Where the published values stand in a checkout of the source; an installed package has none."""


class CannotGoOn(Exception):
    """What was asked cannot be done; the message says why in one sentence."""


class CannotTell(Exception):
    """What was found cannot be written to the standard output; the message says why in one sentence."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Do what the command line asks; 0 where it was done, 1 where a check failed or what is in the way may go away by
    itself, as with a port that is taken, 2 where it could not be done."""
    asked = _parser().parse_args(arguments)
    try:
        return int(asked.action(asked))
    except (BadSetting, BadRow, CannotGoOn) as error:
        print(f"footvalve: {error}", file=sys.stderr)
        return 2
    except CannotListen as error:
        print(f"footvalve: {error}", file=sys.stderr)
        return 1
    except CannotTell as error:
        let_go()
        print(f"footvalve: {error}", file=sys.stderr)
        return 1
    except BrokenPipeError:  # who reads has read enough
        let_go()
        return 0


def _tell(text: str) -> None:
    """Write to the standard output, now. Raises CannotTell, and BrokenPipeError."""
    if sys.stdout is None:
        raise CannotTell("cannot write to standard output: it is closed.")
    try:
        sys.stdout.write(text)
        sys.stdout.flush()
    except BrokenPipeError:
        raise
    except OSError as error:
        raise CannotTell(f"cannot write to standard output: {error.strerror}.") from None


class _OneSentenceParser(argparse.ArgumentParser):
    """A parser that tells what is wrong without the whole usage before it."""

    def error(self, message: str) -> NoReturn:
        self.exit(2, f"{self.prog}: {message}. See {self.prog} --help.\n")


def _parser() -> argparse.ArgumentParser:
    parser = _OneSentenceParser(prog="footvalve", description="Wells drawn on by suction, and what must be sized.")
    parser.add_argument("--version", action="version", version=f"footvalve {__version__}")
    actions = parser.add_subparsers(required=True, metavar="serve|settings|key|contract|accuracy")
    serving = actions.add_parser("serve", help="answer over HTTP until stopped")
    serving.add_argument("--host", default="127.0.0.1", help="the address to listen on (default: %(default)s)")
    serving.add_argument("--port", type=_port, default=8000, help="0 for a free one (default: %(default)s)")
    serving.add_argument("--workers", type=_workers, default=1, help="processes (default: %(default)s)")
    serving.set_defaults(action=serve)
    telling = actions.add_parser("settings", help="print every setting, as the environment has it")
    telling.add_argument("--json", action="store_true", help="for programs")
    telling.set_defaults(action=tell_settings)
    making = actions.add_parser("key", help="make a key: it is told once, its entry for FOOTVALVE_KEYS_FILE printed")
    making.add_argument("name", type=_key_name, help="who shall have it")
    making.set_defaults(action=make_key)
    writing = actions.add_parser("contract", help="write the contract document")
    writing.add_argument("--file", type=Path, default=CONTRACT, help="where it stands (default: %(default)s)")
    writing.add_argument("--check", action="store_true", help="write nothing; show what differs, and exit with 1")
    writing.set_defaults(action=contract)
    checking = actions.add_parser("accuracy", help="hold the answers against published values")
    checking.add_argument("--folder", type=Path, default=PUBLISHED, help="of the published values, as CSV files")
    checking.add_argument("--rows", action="store_true", help="tell of every row")
    checking.set_defaults(action=accuracy)
    return parser


def _port(text: str) -> int:
    return _number_in(text, range(65_536))


def _workers(text: str) -> int:
    return _number_in(text, range(1, 129))


def _key_name(text: str) -> str:
    if not is_key_name(text):
        raise argparse.ArgumentTypeError(f"must be 1 to 64 letters, digits, dots, hyphens or underscores, not {text!r}")
    return text


def _number_in(text: str, allowed: range) -> int:
    number = whole_number(text, allowed)
    if number is None:
        raise argparse.ArgumentTypeError(f"must be a whole number from {allowed[0]} to {allowed[-1]}, not {text!r}")
    return number


def contract(asked: argparse.Namespace) -> int:
    """Write the contract document, or show where the file differs from it."""
    from footvalve.web.document import contract_text  # noqa: PLC0415  # as no other command needs it

    if asked.file == CONTRACT and not CONTRACT.parent.is_dir():
        raise CannotGoOn(
            f"there is no folder {CONTRACT.parent} here: `footvalve contract` is for who develops the service: "
            "it writes the contract document of its source. Run it in the project's folder, or name a file with --file."
        )
    try:
        return (_difference if asked.check else _write)(asked.file, contract_text())
    except OSError as error:
        raise CannotGoOn(f"cannot use {asked.file}: {error.strerror}.") from None


def _write(file: Path, text: str) -> int:
    file.write_text(text, encoding="utf-8")
    return 0


def _difference(file: Path, text: str) -> int:
    stands = file.read_text(encoding="utf-8").splitlines(keepends=True)
    difference = list(unified_diff(stands, text.splitlines(keepends=True), str(file), "the code"))
    _tell("".join(difference))
    return 1 if difference else 0


def accuracy(asked: argparse.Namespace) -> int:
    """Hold the answers against the published values; 1 where one is further away than its tolerance."""
    from footvalve.accuracy.layout import beyond, every_row, table  # noqa: PLC0415  # as no other command needs them
    from footvalve.accuracy.measuring import measured  # noqa: PLC0415

    found = [measured(row) for row in published_rows(asked.folder)]
    if not found:
        raise CannotGoOn(f"there are no published values in {asked.folder}: name their folder with --folder.")
    too_far = beyond(found)
    told = [every_row(found) if asked.rows else "", table(found), too_far]
    _tell("\n\n".join(filter(None, told)) + "\n")
    return 1 if too_far else 0


def tell_settings(asked: argparse.Namespace) -> int:
    """Print every setting with its value, its default, its meaning and what it may be."""
    settings = Settings.from_environment()
    check_keys_file(settings)
    doubtful = list(doubts(settings))
    if asked.json:
        _tell(f"{for_programs(settings)}\n")
        for doubt in doubtful:
            print(f"footvalve: {doubt}", file=sys.stderr)
    else:
        _tell(f"{for_people(settings, doubtful)}\n")
    return 0


def make_key(asked: argparse.Namespace) -> int:
    """Make a key. Its entry goes to standard output, to be put into the file; the key itself is only shown.

    It is not shown where its entry is lost.
    """
    key = made_key()
    try:
        _tell(entry_of(asked.name, key))
    except BrokenPipeError:
        raise CannotTell("nobody has read the entry from standard output, so that no key has been made.") from None
    print(f"The key of {asked.name}, which is shown only now and kept nowhere:\n{key}\n", file=sys.stderr)
    return 0


def serve(asked: argparse.Namespace) -> int:
    """Answer over HTTP until a signal ends the service."""
    settings = Settings.from_environment()
    return run_service(settings, asked.host, asked.port, asked.workers)

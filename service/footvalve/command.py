"""The command `footvalve`: serve the endpoints, write the contract document, or tell how right the answers are."""

import argparse
import socket
import sys
from collections.abc import Sequence
from contextlib import suppress
from difflib import unified_diff
from pathlib import Path
from typing import NoReturn

import uvicorn
from uvicorn.supervisors import Multiprocess

from footvalve import __version__
from footvalve.accuracy.layout import beyond, every_row, table
from footvalve.accuracy.measuring import measured
from footvalve.accuracy.rows import BadRow, published_rows
from footvalve.web.document import contract_text
from footvalve.web.settings import BadSetting, Settings
from footvalve.web.whole_number import whole_number

CONTRACT = Path("openapi/footvalve.json")
"""Where the contract document stands, seen from the project's folder."""

PUBLISHED = Path(__file__).parents[2] / "tests/reference/answers"
"""Where the published values stand in a checkout of the source; an installed package has none."""

_BACKLOG = 2048
"""Connections that may wait to be taken; as many as uvicorn itself lets wait."""


class CannotGoOn(Exception):
    """What was asked cannot be done; the message says why in one sentence."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Do what the command line asks; 0 where it was done, 1 where a check failed, 2 where it could not be done."""
    asked = _parser().parse_args(arguments)
    try:
        return int(asked.action(asked))
    except (BadSetting, BadRow, CannotGoOn) as error:
        print(f"footvalve: {error}", file=sys.stderr)
        return 2


class _OneSentenceParser(argparse.ArgumentParser):
    """A parser that tells what is wrong without the whole usage before it."""

    def error(self, message: str) -> NoReturn:
        self.exit(2, f"{self.prog}: {message}. See {self.prog} --help.\n")


def _parser() -> argparse.ArgumentParser:
    parser = _OneSentenceParser(prog="footvalve", description="Wells drawn on by suction, and what must be sized.")
    parser.add_argument("--version", action="version", version=f"footvalve {__version__}")
    actions = parser.add_subparsers(required=True, metavar="serve|contract|accuracy")
    serving = actions.add_parser("serve", help="answer over HTTP until stopped")
    serving.add_argument("--host", default="127.0.0.1", help="the address to listen on (default: %(default)s)")
    serving.add_argument("--port", type=_port, default=8000, help="0 for a free one (default: %(default)s)")
    serving.add_argument("--workers", type=_workers, default=1, help="processes (default: %(default)s)")
    serving.set_defaults(action=serve)
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


def _number_in(text: str, allowed: range) -> int:
    number = whole_number(text, allowed)
    if number is None:
        raise argparse.ArgumentTypeError(f"must be a whole number from {allowed[0]} to {allowed[-1]}, not {text!r}")
    return number


def contract(asked: argparse.Namespace) -> int:
    """Write the contract document, or show where the file differs from it."""
    try:
        return _difference(asked.file) if asked.check else _write(asked.file)
    except OSError as error:
        raise CannotGoOn(f"cannot use {asked.file}: {error.strerror}.") from None


def _write(file: Path) -> int:
    file.write_text(contract_text(), encoding="utf-8")
    return 0


def _difference(file: Path) -> int:
    stands = file.read_text(encoding="utf-8").splitlines(keepends=True)
    difference = list(unified_diff(stands, contract_text().splitlines(keepends=True), str(file), "the code"))
    sys.stdout.writelines(difference)
    return 1 if difference else 0


def accuracy(asked: argparse.Namespace) -> int:
    """Hold the answers against the published values; 1 where one is further away than its tolerance."""
    found = [measured(row) for row in published_rows(asked.folder)]
    if not found:
        raise CannotGoOn(f"there are no published values in {asked.folder}: name their folder with --folder.")
    too_far = beyond(found)
    told = [every_row(found) if asked.rows else "", table(found), too_far]
    print("\n\n".join(filter(None, told)))
    return 1 if too_far else 0


def serve(asked: argparse.Namespace) -> int:
    """Answer over HTTP until a signal stops the process."""
    Settings.from_environment()  # a bad one stops here, before any worker starts
    listening = _listen(asked.host, asked.port)
    print(f"footvalve {__version__} listens on http://{_spelled(listening)}", flush=True)
    config = uvicorn.Config(
        "footvalve.web.application:create_app",
        factory=True,
        workers=asked.workers,
        backlog=_BACKLOG,
        http="httptools",
        ws="none",
        lifespan="off",
        access_log=False,
        log_level="warning",
        proxy_headers=False,
        server_header=False,
    )
    with suppress(KeyboardInterrupt):
        _run(config, listening)
    return 0


def _run(config: uvicorn.Config, listening: socket.socket) -> None:
    if config.workers > 1:
        Multiprocess(config, sockets=[listening]).run()
    else:
        uvicorn.Server(config).run(sockets=[listening])


def _listen(host: str, port: int) -> socket.socket:
    try:
        family = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0][0]
        listening = socket.create_server((host, port), family=family, backlog=_BACKLOG)
    except OSError as error:
        raise CannotGoOn(f"cannot listen on {host} port {port}: {str(error.strerror).partition(' (')[0]}.") from None
    listening.set_inheritable(True)
    return listening


def _spelled(listening: socket.socket) -> str:
    host, port, *_ = listening.getsockname()
    return f"[{host}]:{port}" if ":" in host else f"{host}:{port}"

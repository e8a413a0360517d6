"""The command `footvalve-check`: reads a site from a file, asks a service about it, and prints the verdict."""

import argparse
import os
import signal
import sys
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any, Final, NoReturn, cast

import httpx
import msgspec

from footvalve_client._client import Footvalve
from footvalve_client._errors import BadRequest, BodyTooLarge, FootvalveError, KeyNeeded, KeyRefused, Refused
from footvalve_client._generated.endpoints import ENDPOINTS
from footvalve_client._key import Key
from footvalve_client._options import TIMEOUT_SECONDS
from footvalve_client._version import __version__
from footvalve_client.check.exit_codes import BY_VERDICT, TOLD, CheckFailed, ExitCode
from footvalve_client.check.printing import print_lines, width
from footvalve_client.check.question import PLAN, Question, question, refused
from footvalve_client.check.report import Answer, report
from footvalve_client.check.site_file import FORMS, read_site

URL: Final = "http://127.0.0.1:8000"
"""Of the service where nobody says: what `footvalve serve` listens on."""

_KEY_VARIABLE: Final = "FOOTVALVE_KEY"

_ABOUT: Final = """\
Tells whether the well of a site can be drawn on by suction, and why. The file holds what the endpoint
suction-feasibility takes, with the suction line as `line`, or what site-plan takes, with it as `suction_line`; and a
`title` if you like. A quantity may be a text, such as "14 ft", "5 gpm" or "14 ft +- 6 in".
"""


def run() -> NoReturn:
    """The command itself: a reader that goes away ends it, and no letter of an answer stops it."""
    with suppress(AttributeError):  # there is no such signal on Windows
        signal.signal(signal.SIGPIPE, signal.SIG_DFL)
    for stream in (sys.stdout, sys.stderr):
        if stream is not None:  # as it is where the shell closed it
            cast("Any", stream).reconfigure(errors="replace")
    try:
        code: object = main()
        _flush()
    except SystemExit as ended:
        code = ended.code
    except CheckFailed as failed:
        code = _told(str(failed), failed.code)
    raise SystemExit(code)


def main(arguments: Sequence[str] | None = None) -> int:
    """Do what the command line asks. The exit code is that of the verdict, or of what stands against one."""
    asked = _parser().parse_args(arguments)
    try:
        return _checked(asked)
    except CheckFailed as failed:
        return _told(str(failed), failed.code)
    except KeyboardInterrupt:
        return _told("interrupted", ExitCode.INTERRUPTED)
    except RecursionError:
        return _told(f"cannot read {asked.file}: it holds itself, or lies too deep", ExitCode.UNREADABLE)
    except Exception as error:  # Python's own code for it is 1, which is a verdict here
        why = " ".join(f"{type(error).__name__}: {error}".split())
        return _told(f"a fault of this command itself: {why}", ExitCode.FAULT)


def _told(message: str, code: ExitCode) -> ExitCode:
    """The code, after the message on the standard error, if that takes it."""
    if sys.stderr is not None:
        with suppress(OSError):
            print(f"footvalve-check: {message}", file=sys.stderr, flush=True)
    return code


def _print(options: argparse.Namespace, asked: Question, answer: Answer) -> None:
    if sys.stdout is None:
        raise CheckFailed(ExitCode.UNREADABLE, "cannot write the answer: the standard output is closed")
    try:
        if options.json:
            print(msgspec.json.format(msgspec.json.encode(answer), indent=2).decode())
        else:
            print_lines(report(asked, answer, width()))
    except OSError as error:
        raise _unwritten(error) from None
    _flush()


def _flush() -> None:
    """Write what is left. Raises CheckFailed, and then lets go of it, lest Python try again at the end."""
    try:
        if sys.stdout is not None:
            sys.stdout.flush()
    except OSError as error:
        raise _unwritten(error) from None


def _unwritten(error: OSError) -> CheckFailed:
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return CheckFailed(ExitCode.UNREADABLE, f"cannot write the answer: {error.strerror or error}")


class _OneSentenceParser(argparse.ArgumentParser):
    """A parser that tells what is wrong without the whole usage before it, with a code that is no verdict."""

    def error(self, message: str) -> NoReturn:
        self.exit(ExitCode.WRONG_USE, f"{self.prog}: {message}. See {self.prog} --help.\n")


def _parser() -> argparse.ArgumentParser:
    parser = _OneSentenceParser(
        prog="footvalve-check",
        description=_ABOUT,
        epilog=TOLD,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("file", help="the site, as .toml, .json or .yaml; - for the standard input")
    parser.add_argument("--format", choices=tuple(FORMS), help="what the file is, where its name does not tell")
    parser.add_argument("--units", choices=("us", "metric"), help="the units to answer in; else those of the file")
    parser.add_argument("--json", action="store_true", help="print the answer as JSON and nothing else")
    parser.add_argument("--html", type=Path, metavar="SHEET", help="write the site sheet for print; it takes a plan")
    service = parser.add_mutually_exclusive_group()
    service.add_argument("--url", help=f"the service; else that of FOOTVALVE_URL, else {URL}")
    service.add_argument("--local", action="store_true", help="reckon here, where the service is installed")
    parser.add_argument("--version", action="version", version=f"footvalve-check {__version__}")
    return parser


def _checked(options: argparse.Namespace) -> int:
    asked = question(read_site(options.file, options.format), options.units)
    if options.html and asked.endpoint != PLAN:
        raise CheckFailed(
            ExitCode.REFUSED,
            "--html needs a plan, and this file asks about suction alone: give `suction_line` in place of `line`, the "
            "pump's `points`, `switch` and `house_elevation`",
        )
    url = URL if options.local else options.url or os.environ.get("FOOTVALVE_URL") or URL
    with _http(None if options.local else _key(), options.local) as http:
        answer = _answer(asked, url, http)
        if options.html:
            _write(options.html, _sheet(asked, url, http))
    _print(options, asked, answer)
    return BY_VERDICT.get(answer.verdict, ExitCode.MARGINAL)


def _key() -> Key | None:
    """The key for services that ask for one. It is no option: what a command line holds, every user here may read."""
    try:
        return Key.of(os.environ.get(_KEY_VARIABLE) or None)
    except ValueError as error:
        raise CheckFailed(ExitCode.WRONG_USE, f"{_KEY_VARIABLE}: {error}") from None


def _http(key: Key | None, local: bool) -> httpx.Client:
    """What carries the questions: to a service, or to the one that is installed here."""
    if not local:
        return httpx.Client(timeout=TIMEOUT_SECONDS, headers={"authorization": key.header} if key else None)
    from footvalve_client._in_process import ServiceTransport  # noqa: PLC0415

    try:
        return httpx.Client(transport=ServiceTransport())
    except ModuleNotFoundError as missing:
        raise CheckFailed(ExitCode.NO_SERVICE, f"--local cannot reckon: {missing}") from None


def _answer(asked: Question, url: str, http: httpx.Client) -> Answer:
    kind = cast("type[Answer]", ENDPOINTS[asked.endpoint][1])
    try:
        service = Footvalve(url, http_client=http)
    except ValueError as error:
        raise CheckFailed(ExitCode.WRONG_USE, str(error)) from None
    try:
        body = cast("Any", asked.body)
        return service._ask("POST", asked.path, kind, body)  # pyright: ignore[reportPrivateUsage]
    except (BadRequest, BodyTooLarge, Refused) as error:
        raise refused(asked, error) from None
    except (KeyNeeded, KeyRefused) as error:
        hint = f"Set {_KEY_VARIABLE} to the key that its operator has given you."
        raise CheckFailed(ExitCode.NO_SERVICE, f"{error}\n  {hint}") from None
    except FootvalveError as error:
        hint = "Is it running? Name it by --url or FOOTVALVE_URL, or use --local."
        raise CheckFailed(ExitCode.NO_SERVICE, f"{error}\n  {hint}") from None
    except TypeError as error:
        raise CheckFailed(ExitCode.REFUSED, f"the file holds what no JSON can say: {error}") from None


def _sheet(asked: Question, url: str, http: httpx.Client) -> bytes:
    """The site sheet, of a service that has just answered the same question."""
    headers = {"accept": "text/html", "content-type": "application/json"}
    try:
        response = http.post(f"{url.rstrip('/')}{asked.path}", content=msgspec.json.encode(asked.body), headers=headers)
        response.raise_for_status()
    except httpx.HTTPError as error:
        raise CheckFailed(ExitCode.NO_SERVICE, f"the service gives no site sheet: {error}") from None
    if not response.headers.get("content-type", "").startswith("text/html"):
        raise CheckFailed(
            ExitCode.NO_SERVICE, "what the service gives is no site sheet; it may be older than this command"
        )
    return response.content


def _write(file: Path, sheet: bytes) -> None:
    try:
        file.write_bytes(sheet)
    except OSError as error:
        raise CheckFailed(ExitCode.UNREADABLE, f"cannot write {file}: {error.strerror or error}") from None


if __name__ == "__main__":
    run()

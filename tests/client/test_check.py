"""The command footvalve-check: a site's file in, a verdict out, by its text, its exit code, and its faults."""

import io
import json
import os
import pty
import subprocess
import sys
import threading
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import msgspec
import pytest

from footvalve_client import SitePlanAnswer, SuctionFeasibilityAnswer, _in_process, testing
from footvalve_client.check.command import main
from footvalve_client.check.exit_codes import TOLD, ExitCode
from footvalve_client.check.key_path import key_path, written

PROJECT = Path(__file__).parents[2]
DEMO = PROJECT / "deploy" / "demo" / "site.toml"

SUCTION = """
depth_to_water = "15 ft +- 6 in"
flow = "3 gpm"

[pump]
style = "rotary"
inlet_elevation = "-4 ft"
npsh_required = "7 ft"

[[line]]
part = "valve"
name = "foot valve"
valve = "foot-valve-hinged"

[[line]]
part = "pipe"
name = "drop pipe"
size = { product = "pe-sidr-15", nominal = "1" }
length = "60 ft"
end_elevation = "-4 ft"
"""


@pytest.fixture
def site(tmp_path: Path) -> Any:
    """Writes a site's file."""

    def write(text: str, name: str = "site.toml") -> str:
        file = tmp_path / name
        file.write_text(text, encoding="utf-8")
        return str(file)

    return write


def _example(endpoint: Any, name: str) -> dict[str, Any]:
    found = next(example for example in testing.examples(endpoint) if example.name == name)
    body: dict[str, Any] = msgspec.to_builtins(found.request)
    return body


@pytest.mark.parametrize(
    ("endpoint", "name", "code"),
    [
        ("suction-feasibility", "us", 0),
        ("suction-feasibility", "limits", 1),
        ("suction-feasibility", "too-deep", 2),
        ("site-plan", "us", 0),
        ("site-plan", "metric-marginal", 1),
        ("site-plan", "out-of-reach", 2),
    ],
)
def test_the_exit_code_is_that_of_the_verdict(
    site: Any, base_url: str, capsys: Any, endpoint: str, name: str, code: int
) -> None:
    file = site(json.dumps(_example(endpoint, name)), "site.json")
    assert main(["--url", base_url, file]) == code
    first = capsys.readouterr().out.splitlines()[0]
    assert first == ["FEASIBLE", "MARGINAL", "INFEASIBLE"][code]


def test_it_reckons_here_alike(base_url: str, capsys: Any) -> None:
    told = []
    for where in (["--url", base_url], ["--local"]):
        assert main([*where, str(DEMO)]) == 0
        told.append(capsys.readouterr().out)
    assert told[0] == told[1]


def test_the_demo_tells_its_title_its_margin_and_what_to_watch(capsys: Any) -> None:
    assert main(["--local", str(DEMO)]) == ExitCode.FEASIBLE
    lines = capsys.readouterr().out.splitlines()
    assert lines[:2] == ["A house on a ridge, its well 40 ft away, and a cellar to put a booster in", "FEASIBLE"]
    assert lines[2].startswith("  margin ")
    assert "\u00b1" in lines[2]
    assert lines[3].split()[0] == "chance"
    assert {"In short", "To do", "Doubts", "Watch out"} <= set(lines)
    assert all(len(line) <= 100 for line in lines)
    assert "  - danger: The well pump's mains circuit can kill: it is switched off, locked and tested dead" in lines


def test_a_no_tells_why_what_would_change_it_and_how_far_each_figure_may_go(site: Any, capsys: Any) -> None:
    body = _example("suction-feasibility", "limits")
    del body["limits"]
    assert main(["--local", site(json.dumps(body), "site.json")]) == ExitCode.MARGINAL
    out = capsys.readouterr().out
    why, change, far, doubts, watch = (
        out.index(f"\n{title}\n")
        for title in (
            "Why",
            "What would change it",
            "How far each may go, with all else as it is",
            "Doubts",
            "Watch out",
        )
    )
    assert why < change < far < doubts < watch
    assert "Margin then:" in out[change:far]
    assert "greatest depth to water" in out[far:doubts]
    assert 'line > no. 1 "foot valve":' in out[doubts:watch]


def test_json_prints_the_answer_and_nothing_else(site: Any, base_url: str, capsys: Any) -> None:
    assert main(["--url", base_url, "--json", site(SUCTION)]) in (0, 1)
    answer = msgspec.json.decode(capsys.readouterr().out, type=SuctionFeasibilityAnswer)
    assert answer.greatest_flow
    assert answer.margin.uncertainty
    assert main(["--url", base_url, "--json", str(DEMO)]) == 0
    assert msgspec.json.decode(capsys.readouterr().out, type=SitePlanAnswer).to_do


@pytest.mark.parametrize(("units", "unit"), [("us", "ft"), ("metric", "m")])
def test_units_are_those_that_are_asked_for(site: Any, capsys: Any, units: str, unit: str) -> None:
    main(["--local", "--json", "--units", units, site(f'units = "us"\n{SUCTION}')])
    assert json.loads(capsys.readouterr().out)["margin"]["unit"] == unit


def test_every_form_of_the_same_site_gives_the_same_answer(
    site: Any, capsys: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    import tomllib  # noqa: PLC0415

    import yaml  # type: ignore[import-untyped]  # noqa: PLC0415

    body = tomllib.loads(SUCTION)
    files = [
        [site(SUCTION)],
        [site(json.dumps(body), "site.json")],
        [site(yaml.safe_dump(body), "site.yaml")],
        [site(yaml.safe_dump(body), "site.yml")],
        [site("\ufeff" + SUCTION, "bom.toml")],
        [site(SUCTION, "site"), "--format", "toml"],
    ]
    told = set()
    for arguments in files:
        main(["--local", *arguments])
        told.add(capsys.readouterr().out)
    for form, text in (("toml", SUCTION), ("json", json.dumps(body)), ("yaml", yaml.safe_dump(body))):
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(text.encode())))
        main(["--local", "-", *(["--format", "yaml"] if form == "yaml" else [])])
        told.add(capsys.readouterr().out)
    assert len(told) == 1
    assert "margin" in told.pop()


def test_the_site_sheet_is_written(base_url: str, tmp_path: Path, capsys: Any) -> None:
    for where in (["--url", base_url + "/"], ["--local"]):
        sheet = tmp_path / "sheet.html"
        assert main([*where, "--html", str(sheet), str(DEMO)]) == 0
        text = sheet.read_text(encoding="utf-8")
        assert text.startswith("<!doctype html>")
        assert "copper to the booster" in text
        sheet.unlink()
    assert "FEASIBLE" in capsys.readouterr().out


def _failed(capsys: Any, *arguments: str) -> tuple[int, str]:
    """The exit code and what stands on the standard error; nothing stands on the standard output."""
    code = main(arguments)
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("footvalve-check: ")
    assert "Traceback" not in err
    return code, err


def test_a_sheet_of_a_site_without_a_plan_is_told_of(site: Any, capsys: Any, tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.html"
    code, err = _failed(capsys, "--local", "--html", str(sheet), site(SUCTION))
    assert code == ExitCode.REFUSED
    assert "--html needs a plan" in err
    assert not sheet.exists()


def test_a_sheet_that_cannot_be_written_is_told_of(capsys: Any, tmp_path: Path) -> None:
    code, err = _failed(capsys, "--local", "--html", str(tmp_path / "no" / "sheet.html"), str(DEMO))
    assert code == ExitCode.UNREADABLE
    assert "cannot write" in err


def test_every_text_that_is_no_quantity_is_told_at_its_place(site: Any, capsys: Any) -> None:
    text = SUCTION.replace('"60 ft"', '"60 fet"').replace('"3 gpm"', "3").replace('"7 ft"', '"7 psi"')
    code, err = _failed(capsys, "--local", site(text))
    assert code == ExitCode.REFUSED
    assert err.splitlines()[0] == "footvalve-check: the site was refused:"
    assert "  line > no. 2 \"drop pipe\" > length: '60 fet' is no Length: 'fet' is none of its units" in err
    assert "  flow: 3 is no Flow: expected a number with its unit" in err
    assert "  pump > npsh_required: '7 psi' is no Length" in err


def test_what_the_service_refuses_is_told_at_its_place_with_what_stands_there(
    site: Any, base_url: str, capsys: Any
) -> None:
    text = (
        SUCTION.replace('"3 gpm"', '"3000 gpm"').replace("foot-valve-hinged", "foot-valve").replace("drop pipe", "pipe")
    )
    code, err = _failed(capsys, "--url", base_url, site(f'flwo = "3 gpm"\n{text}'))
    assert code == ExitCode.REFUSED
    assert "flwo = '3 gpm': unknown field `flwo`; did you mean `flow`?" in err
    assert "line > no. 1 \"foot valve\" > valve = 'foot-valve': expected one of" in err
    code, err = _failed(capsys, "--url", base_url, site(SUCTION.replace('"3 gpm"', '"3000 gpm"')))
    assert "flow = '3000 gpm': " in err


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "neither `line`, which asks about suction, nor `suction_line`"),
        ("line = []\nsuction_line = []", "it has `line` and `suction_line`"),
        ("line = 3", "line = 3: expected"),
        ("line = [3]", "line > no. 1 = 3: expected"),
    ],
)
def test_a_file_that_is_no_site_is_refused(site: Any, capsys: Any, text: str, told: str) -> None:
    code, err = _failed(capsys, "--local", site(text))
    assert code == ExitCode.REFUSED
    assert told in err


def test_what_no_json_can_say_is_refused(site: Any, capsys: Any) -> None:
    code, err = _failed(capsys, "--local", site("line: []\nflow: !!binary aGVsbG8=\nsite: {1.5: !!set {a}}", "s.yaml"))
    assert code == ExitCode.REFUSED
    assert err.count("\n") >= 1


@pytest.mark.parametrize(
    ("name", "content", "told"),
    [
        ("site.toml", b"line = [", "it is no TOML: "),
        ("site.toml", b"flow = '3 gpm'\nflow = '4 gpm'", "it is no TOML: Cannot overwrite a value"),
        ("site.json", b"{", "it is no JSON: "),
        ("site.json", b"[" * 100_000, "it is no JSON: "),
        ("site.json", b"[]", "a site has names with values"),
        ("site.json", b'{"site": {"flow": 1, "flow": 2}}', "it is no JSON: 'flow' stands twice"),
        ("site.yaml", b"a: [", "it is no YAML: "),
        ("site.yaml", b"line: []\nsite:\n  flow: 1\n  flow: 2", "it is no YAML: 'flow' stands twice"),
        ("site.yaml", b"a: !!python/object:os.system {}", "it is no YAML: could not determine a constructor"),
        ("site.toml", b"\xff\xfe", "it is no text in UTF-8"),
        ("site.txt", b"", "its name does not end in .toml, .json, .yaml; tell its form with --format"),
    ],
    ids=str,
)
def test_a_file_that_cannot_be_read_is_told_of(
    tmp_path: Path, capsys: Any, name: str, content: bytes, told: str
) -> None:
    file = tmp_path / name
    file.write_bytes(content)
    code, err = _failed(capsys, "--local", str(file))
    assert code == ExitCode.UNREADABLE
    assert f"cannot read {file}: {told}" in err


def test_a_file_that_is_not_there_is_told_of(capsys: Any, tmp_path: Path) -> None:
    code, err = _failed(capsys, "--local", str(tmp_path / "none.toml"))
    assert code == ExitCode.UNREADABLE
    assert "No such file or directory" in err
    assert _failed(capsys, "--local", str(tmp_path), "--format", "toml")[0] == ExitCode.UNREADABLE


def test_yaml_without_its_reader_is_told_in_a_sentence(site: Any, capsys: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "yaml", None)
    code, err = _failed(capsys, "--local", site("line: []", "site.yaml"))
    assert code == ExitCode.UNREADABLE
    assert "pip install 'footvalve-client[terminal]'" in err


def test_no_service_is_told_with_what_to_do(site: Any, capsys: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FOOTVALVE_URL", "http://127.0.0.1:1")
    monkeypatch.setattr("footvalve_client._retry._FIRST_WAIT_SECONDS", 0.0)
    code, err = _failed(capsys, site(SUCTION))
    assert code == ExitCode.NO_SERVICE
    assert "no answer to POST http://127.0.0.1:1/v1/suction-feasibility" in err
    assert "--local" in err


def test_the_environment_names_the_service(
    site: Any, base_url: str, capsys: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("FOOTVALVE_URL", base_url)
    assert main([site(SUCTION)]) in (0, 1)
    assert "margin" in capsys.readouterr().out


def test_a_service_that_is_not_installed_is_told_of(site: Any, capsys: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    _in_process._service.cache_clear()
    for name in [name for name in sys.modules if name.partition(".")[0] == "footvalve"]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setitem(sys.modules, "footvalve", None)
    code, err = _failed(capsys, "--local", site(SUCTION))
    _in_process._service.cache_clear()
    assert code == ExitCode.NO_SERVICE
    assert "--local cannot reckon: the service is not installed here" in err


@pytest.fixture
def other_server() -> Iterator[Any]:
    """A server that answers every request alike."""
    servers: list[ThreadingHTTPServer] = []

    def started(status: int, media_type: str, content: bytes) -> str:
        class Handler(BaseHTTPRequestHandler):
            def do_POST(self) -> None:
                self.rfile.read(int(self.headers["content-length"]))
                self.send_response(status)
                self.send_header("content-type", media_type)
                self.send_header("content-length", str(len(content)))
                self.end_headers()
                self.wfile.write(content)

            def log_message(self, *_: object) -> None:
                pass

        servers.append(ThreadingHTTPServer(("127.0.0.1", 0), Handler))
        threading.Thread(target=servers[-1].serve_forever, daemon=True).start()
        return f"http://127.0.0.1:{servers[-1].server_port}"

    yield started
    for server in servers:
        server.shutdown()
        server.server_close()


def test_another_server_is_no_service(site: Any, capsys: Any, other_server: Any) -> None:
    url = other_server(200, "text/html", b"<html>A login page</html>")
    code, err = _failed(capsys, "--url", url, site(SUCTION))
    assert code == ExitCode.NO_SERVICE
    assert "is no Footvalve service" in err


def test_a_verdict_that_is_not_known_is_no_clear_yes(site: Any, capsys: Any, other_server: Any) -> None:
    answer = msgspec.structs.replace(testing.examples("suction-feasibility")[0].answer, verdict="seasonal")
    url = other_server(200, "application/json", msgspec.json.encode(answer))
    assert main(["--url", url, site(SUCTION)]) == ExitCode.MARGINAL
    assert capsys.readouterr().out.startswith("SEASONAL\n")


def test_a_service_without_a_sheet_is_told_of(capsys: Any, other_server: Any, tmp_path: Path) -> None:
    answer = testing.examples("site-plan")[0].answer
    url = other_server(200, "application/json", msgspec.json.encode(answer))
    code, err = _failed(capsys, "--url", url, "--html", str(tmp_path / "sheet.html"), str(DEMO))
    assert code == ExitCode.NO_SERVICE
    assert "no site sheet" in err


@pytest.mark.parametrize(
    "arguments",
    [[], ["a", "b"], ["--units", "si", "a"], ["--local", "--url", "x", "a"], ["--format", "xml", "a"], ["--loco", "a"]],
    ids=str,
)
def test_wrong_use_has_a_code_that_is_no_verdict(capsys: Any, arguments: list[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(arguments)
    assert ended.value.code == ExitCode.WRONG_USE
    assert "See footvalve-check --help." in capsys.readouterr().err


def test_a_url_that_cannot_be_is_wrong_use(site: Any, capsys: Any) -> None:
    assert _failed(capsys, "--url", "footvalve.test", site(SUCTION))[0] == ExitCode.WRONG_USE


def test_help_tells_every_exit_code(capsys: Any) -> None:
    with pytest.raises(SystemExit):
        main(["--help"])
    told = capsys.readouterr().out
    assert TOLD in told
    assert all(f"\n  {code.value}  " in told for code in ExitCode)
    assert max(map(len, told.splitlines())) <= 120


def _run(*arguments: str, **environment: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "footvalve_client.check.command", *arguments]
    plain = {key: value for key, value in os.environ.items() if key not in ("NO_COLOR", "FORCE_COLOR")}
    return subprocess.run(command, capture_output=True, text=True, check=False, env={**plain, **environment})


def test_in_a_pipe_there_are_no_colours() -> None:
    ran = _run("--local", str(DEMO))
    assert ran.returncode == 0, ran.stderr
    assert "\x1b" not in ran.stdout


def test_an_old_terminal_loses_a_sign_and_no_answer() -> None:
    ran = _run("--local", str(DEMO), PYTHONIOENCODING="ascii")
    assert ran.returncode == 0, ran.stderr
    assert "margin           " in ran.stdout


def _on_a_terminal(hide_rich: bool = False, **environment: str) -> str:
    """What a terminal gets of the demo."""
    master, slave = pty.openpty()
    script = (
        "import sys; sys.modules.update({'rich': None} if %r else {}); from footvalve_client.check.command import main"
    )
    script = f"{script % hide_rich}; raise SystemExit(main(['--local', {str(DEMO)!r}]))"
    plain = {key: value for key, value in os.environ.items() if key not in ("NO_COLOR", "FORCE_COLOR")}
    plain |= {"TERM": "xterm", "COLUMNS": "100", **environment}
    process = subprocess.Popen([sys.executable, "-c", script], stdout=slave, stderr=slave, env=plain)
    os.close(slave)
    got = b""
    while True:
        try:
            read = os.read(master, 65_536)
        except OSError:  # as Linux tells that the other end is closed
            break
        if not read:
            break
        got += read
    os.close(master)
    assert process.wait(60) == 0, got.decode()
    return got.decode().replace("\r\n", "\n")


def test_on_a_terminal_the_verdict_and_the_dangers_are_coloured() -> None:
    told = _on_a_terminal()
    assert "\x1b[1;32mFEASIBLE\x1b[0m" in told
    assert "\x1b[1;31m  - danger\x1b[0m: " in told


@pytest.mark.parametrize(
    "environment", [{"NO_COLOR": "1"}, {"TERM": "dumb"}, {"hide_rich": True}], ids=["NO_COLOR", "dumb", "without rich"]
)
def test_without_colours_the_text_is_the_same(environment: Any) -> None:
    assert _on_a_terminal(**environment) == _run("--local", str(DEMO)).stdout


@pytest.mark.parametrize(
    ("pointer", "path", "value"),
    [
        ("", "the site", ""),
        ("/flow", "flow", " = '3 gpm'"),
        ("/flow/value", "flow", " = '3 gpm'"),
        ("/line/0/length", 'line > no. 1 "drop pipe" > length', " = 60 ft"),
        ("/line/0/length/unit", 'line > no. 1 "drop pipe" > length > unit', " = 'ft'"),
        ("/line/1", 'line > no. 2 "pump"', ""),
        ("/line/7/length", "line > no. 8", ""),
        ("/count", "count", " = 2"),
        ("/missing", "missing", ""),
        ("/a~1b", "a/b", " = 1"),
    ],
)
def test_a_pointer_becomes_the_names_of_the_file(pointer: str, path: str, value: str) -> None:
    site = {
        "flow": "3 gpm",
        "line": [{"name": "drop pipe", "length": {"value": 60, "unit": "ft"}}, {"id": "pump"}],
        "count": 2,
        "a/b": 1,
    }
    assert key_path(pointer, site) == path
    assert written(pointer, site) == value


@pytest.mark.parametrize("ending", [">/dev/full", "--json >/dev/full", ">&-", "--json >&-"])
def test_an_answer_that_cannot_be_written_is_no_verdict(ending: str) -> None:
    command = f'"{sys.executable}" -m footvalve_client.check.command --local "{DEMO}" {ending}'
    ran = subprocess.run(["/bin/sh", "-c", command], capture_output=True, text=True, check=False)
    assert ran.returncode == ExitCode.UNREADABLE, ran.stderr
    assert ran.stderr.startswith("footvalve-check: cannot write the answer: ")
    assert ran.stderr.count("\n") == 1


def test_a_file_that_holds_itself_is_told_of(site: Any, capsys: Any) -> None:
    code, err = _failed(capsys, "--local", site("line: []\nsite: &a {b: *a}", "s.yaml"))
    assert code == ExitCode.UNREADABLE
    assert "it holds itself" in err


@pytest.mark.parametrize(
    ("raised", "code"), [(KeyError("x"), ExitCode.FAULT), (KeyboardInterrupt(), ExitCode.INTERRUPTED)], ids=repr
)
def test_what_nobody_foresaw_has_a_code_that_is_no_verdict(
    site: Any, capsys: Any, monkeypatch: pytest.MonkeyPatch, raised: BaseException, code: ExitCode
) -> None:
    def fail(*_: object) -> None:
        raise raised

    monkeypatch.setattr("footvalve_client.check.command.read_site", fail)
    assert _failed(capsys, site(SUCTION))[0] == code

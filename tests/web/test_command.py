"""The command: what it does, and the one sentence that it says when it cannot."""

import socket
import subprocess
import sys
from pathlib import Path

import pytest

from footvalve import __version__
from footvalve.command import main
from footvalve.web.document import contract_text


def test_it_tells_its_version(capsys):
    with pytest.raises(SystemExit) as ended:
        main(["--version"])
    assert ended.value.code == 0
    assert capsys.readouterr().out == f"footvalve {__version__}\n"


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        ([], "required: serve|contract"),
        (["bogus"], "invalid choice: 'bogus'"),
        (["serve", "--port", "http"], "--port: must be a whole number from 0 to 65535, not 'http'"),
        (["serve", "--port", "65536"], "--port: must be a whole number from 0 to 65535, not '65536'"),
        (["serve", "--workers", "0"], "--workers: must be a whole number from 1 to 128, not '0'"),
        (["serve", "--colour"], "unrecognized arguments: --colour"),
    ],
)
def test_a_bad_argument_ends_with_one_sentence(capsys, arguments, sentence):
    with pytest.raises(SystemExit) as ended:
        main(arguments)
    assert ended.value.code == 2
    told = capsys.readouterr().err
    assert sentence in told
    assert told.count("\n") == 1


def test_a_bad_setting_ends_with_a_sentence_that_names_the_variable(capsys, monkeypatch):
    monkeypatch.setenv("FOOTVALVE_BODY_LIMIT_BYTES", "much")
    assert main(["serve", "--port", "0"]) == 2
    assert capsys.readouterr().err.startswith("footvalve: FOOTVALVE_BODY_LIMIT_BYTES must be ")


def test_a_busy_port_ends_with_a_sentence(capsys):
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        assert main(["serve", "--port", str(port)]) == 2
    assert capsys.readouterr().err == f"footvalve: cannot listen on 127.0.0.1 port {port}: Address already in use.\n"


def test_the_contract_is_written_and_then_agrees(tmp_path, capsys):
    file = tmp_path / "contract.json"
    assert main(["contract", "--file", str(file)]) == 0
    assert file.read_text(encoding="utf-8") == contract_text()
    assert main(["contract", "--check", "--file", str(file)]) == 0
    assert capsys.readouterr().out == ""


def test_a_contract_that_differs_is_shown(tmp_path, capsys):
    file = tmp_path / "contract.json"
    other = contract_text().replace('"title": "Footvalve"', '"title": "Else"')
    file.write_text(other, encoding="utf-8")
    assert main(["contract", "--check", "--file", str(file)]) == 1
    assert '-    "title": "Else"' in capsys.readouterr().out
    assert file.read_text(encoding="utf-8") == other


@pytest.mark.parametrize("check", [[], ["--check"]])
def test_a_contract_file_that_cannot_be_used_ends_with_a_sentence(tmp_path, capsys, check):
    file = tmp_path / "missing" / "contract.json"
    assert main(["contract", *check, "--file", str(file)]) == 2
    assert capsys.readouterr().err == f"footvalve: cannot use {file}: No such file or directory.\n"


def test_the_installed_command_is_this_one():
    command = Path(sys.executable).with_name("footvalve")
    ended = subprocess.run([command, "--version"], capture_output=True, text=True, check=True)
    assert ended.stdout == f"footvalve {__version__}\n"

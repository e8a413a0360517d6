"""The programs of the benchmark run; what they measure is no matter for tests."""

import importlib.util
import json
import os
import subprocess
import sys
import urllib.request
from pathlib import Path

import pytest
from bench.in_short import PAGE, in_short
from bench.page import page
from bench.results import SHARES, Compared, Half, Results, Run, targets

from footvalve.contract.examples import examples

PROJECT = Path(__file__).parents[2]
BENCH = PROJECT / "deploy/bench"
PATIENCE_S = 120
BODY = json.dumps(examples("suction-feasibility")[0].request).encode()


def environment(*folders):
    return os.environ | {"PYTHONPATH": os.pathsep.join(map(str, folders))}


@pytest.fixture(scope="module", params=["service", "ready", "bare"])
def address(request):
    with subprocess.Popen(
        [sys.executable, "-m", "bench.serve_kind", request.param],
        stdout=subprocess.PIPE,
        text=True,
        env=environment(PROJECT / "deploy") | {"FOOTVALVE_DRAIN_SECONDS": "0"},
    ) as process:
        try:
            yield process.stdout.readline().rpartition(" ")[2].strip()
        finally:
            process.terminate()
            process.wait(PATIENCE_S)


def test_every_kind_gives_the_same_answer(address):
    """Else it would be no fair comparison."""
    asked = urllib.request.Request(
        f"{address}/v1/suction-feasibility", BODY, {"content-type": "application/json"}, method="POST"
    )
    with urllib.request.urlopen(asked, timeout=PATIENCE_S) as response:
        answer = json.load(response)
    assert answer["verdict"] == "feasible"
    assert answer["basis"]


def results(nothing_us, **changed):
    """What three rounds could have found, the service taking 200 us."""
    runs = {
        "service": [Run(4000.0, 200.0, 2.0)] * 3,
        "ready": [Run(8000.0, us, 1.0) for us in (nothing_us, nothing_us / 10, nothing_us * 10)],
        "bare": [Run(16000.0, 50.0, 0.5)] * 3,
    }
    compared = {name: Compared(runs, {kind: [Half(0.5, 1.0, 2.9)] * 3 for kind in runs}) for name in SHARES}
    had = {"two_workers": 1.8, "memory_mb": 89.0, "start_s": 0.9, "batch": Run(25_000.0, 40.0, 40.0)} | changed
    return Results(0.1, 1, 2, 3, 8, compared, **had)


def test_a_share_is_of_the_processors_time_and_the_median_of_the_rounds():
    compared = results(nothing_us=100.0).compared["friction"]
    assert compared.cpu_ratio("ready") == 0.5
    assert compared.cpu_ratio("bare") == 0.25
    assert compared.throughput_ratio("ready") == 0.5


def test_every_target_is_reached_or_said_not_to_be():
    assert all(target.is_reached for target in targets(results(nothing_us=170.0)))
    slow = results(nothing_us=1.0, two_workers=1.7, memory_mb=91.0, start_s=1.0, batch=Run(24_999.0, 40.0, 40.0))
    missed = [target.what for target in targets(slow) if not target.is_reached]
    assert len(missed) == len(SHARES) + 4
    assert page(slow).count("**not reached**") == len(missed)


def test_the_short_table_of_the_page_has_every_body_of_which_a_share_is_wanted():
    rows = in_short(page(results(nothing_us=100.0))).splitlines()
    assert [row[:36].strip() for row in rows[1 : 1 + len(SHARES)]] == list(SHARES)
    assert rows[1].split()[1:] == ["4000", "200", "0.50", "0.25", "1.0", "2.9"]


def test_the_page_that_stands_has_a_short_table():
    """Else: sh deploy/bench.sh --write"""
    assert in_short(PAGE.read_text(encoding="utf-8")).startswith("body ")


def test_what_is_asked_again_is_found_by_the_process_that_has_answered_it():
    ran = subprocess.run(
        [sys.executable, BENCH / "repeated_bodies.py", "--asked", "2000", "--kept", "300", "--rounds", "1"],
        capture_output=True,
        text=True,
        check=True,
        timeout=PATIENCE_S,
    )
    rows = [line.strip("| ").split(" | ") for line in ran.stdout.splitlines() if "% |" in line]
    found = {(asked, workers): float(share.rstrip("%")) for asked, workers, share, *_ in rows}
    assert found["0%", "1"] < 1
    assert found["20%", "1"] == pytest.approx(20, abs=4)
    assert found["20%", "4"] < 12


def side(*questions):
    said = subprocess.run(
        [sys.executable, BENCH / "guard_side.py", PROJECT / "service"],
        input="".join(json.dumps(question) + "\n" for question in questions),
        capture_output=True,
        text=True,
        check=True,
        timeout=PATIENCE_S,
        env=environment(PROJECT / "service"),
    ).stdout
    return [json.loads(line) for line in said.splitlines()]


def test_a_side_of_the_guard_times_what_it_answers_and_leaves_out_what_it_refuses():
    bodies = {"suction-feasibility": json.loads(BODY), "friction": {}, "unknown": {}}
    taken, took = side(["take", bodies], ["time", "suction-feasibility"])
    assert taken == ["suction-feasibility"]
    assert took > 0


def test_a_guard_without_history_compares_nothing_and_fails_nothing():
    ran = subprocess.run(
        [sys.executable, BENCH / "guard.py", "no-such-commit", "--strict"],
        capture_output=True,
        text=True,
        check=False,
        timeout=PATIENCE_S,
    )
    assert (ran.returncode, ran.stderr) == (0, "")
    assert ran.stdout.startswith("guard: nothing is compared: no-such-commit cannot be had")


def test_a_guard_of_equal_services_says_so_at_once(guard, monkeypatch, capsys):
    monkeypatch.setattr(guard, "_git", lambda *_: "the same tree\n")
    monkeypatch.setattr(sys, "argv", ["guard.py", "--strict"])
    assert guard.main() == 0
    assert capsys.readouterr().out == "guard: nothing is compared: the service of HEAD~1 is that of HEAD\n"


@pytest.fixture(scope="module")
def guard():
    spec = importlib.util.spec_from_file_location("guard", BENCH / "guard.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize(
    ("seconds", "strict", "warned", "code"),
    [((1.2, 1.2), True, True, 1), ((1.2, 1.2), False, True, 0), ((1.2, 1.05), True, False, 0)],
)
def test_the_guard_warns_of_what_is_slower_twice(guard, monkeypatch, capsys, seconds, strict, warned, code):
    heads = iter(seconds)
    monkeypatch.setattr(guard, "compared", lambda *_: {"friction": guard.Took(100.0, 100.0 * next(heads))})
    monkeypatch.setattr(guard, "_make_sure_they_differ", lambda *_: None)
    monkeypatch.setattr(guard, "_laid_out", lambda _, folder: folder)
    monkeypatch.setattr(sys, "argv", ["guard.py", *(["--strict"] if strict else [])])
    assert guard.main() == code
    assert ("warning: friction takes 20 % more than at HEAD~1" in capsys.readouterr().out) == warned

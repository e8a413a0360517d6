"""Fuzzes the contract against a server of its own, then the inside of the service, and tells how many cases failed.

    python deploy/fuzz/run.py [--seed SEED] [--examples N] [--seconds N] [--only contract|TARGET]... [--keep FOLDER]

The contract is fuzzed with the seed of openapi/schemathesis.toml and then with another one. Each target of the inside
is a module beside this one. Ends with 1 where anything failed.
"""

import argparse
import json
import os
import re
import secrets
import subprocess
import sys
import tempfile
import tomllib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from running_service import running_service

HERE = Path(__file__).parent
CONFIGURATION = HERE.parents[1] / "openapi" / "schemathesis.toml"
TARGETS = ("bodies", "exchanges", "units", "answers", "manifolds")
CONTRACT = "contract"

SECONDS_OF_ONE_ANSWER = 1.0
"""On a machine that has nothing else to do. The short run among the tests allows what a busy one may need."""
LONGEST_INPUT = 4_096
SECONDS_OF_ONE_INPUT = 20
GREATEST_MEMORY_MB = 2_048
_DONE = re.compile(r"^Done (\d+) runs", re.MULTILINE)
_SEEN = re.compile(r"^#(\d+)", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of one run."""

    what: str
    seed: int
    cases: int
    failures: int


def main() -> int:
    """Run all that is asked for; the exit code is 1 where anything failed."""
    asked = _parser().parse_args()
    chosen = asked.only or [CONTRACT, *TARGETS]
    asked.keep.mkdir(parents=True, exist_ok=True)
    outcomes: list[Outcome] = []
    if CONTRACT in chosen:
        seeds = [tomllib.loads(CONFIGURATION.read_text(encoding="utf-8"))["seed"], asked.seed]
        outcomes += _of_contract(seeds, asked.examples)
    outcomes += [_of_target(target, asked.seed, asked.seconds, asked.keep) for target in TARGETS if target in chosen]
    print(_table(outcomes))
    return 1 if any(outcome.failures for outcome in outcomes) else 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(description="Fuzz the contract and the inside of the service.")
    fresh = secrets.randbelow(2**31 - 1) + 1
    parser.add_argument("--seed", type=int, default=fresh, help="in place of a fresh one, to do a run again")
    parser.add_argument("--examples", type=int, default=400, help="most of each operation and kind of data (400)")
    parser.add_argument("--seconds", type=int, default=60, help="for each target of the inside (60)")
    parser.add_argument("--only", action="append", choices=[CONTRACT, *TARGETS], help="this, and no other")
    parser.add_argument(
        "--keep", type=Path, default=Path("build/fuzz"), help="where failing inputs are put (build/fuzz)"
    )
    return parser


def _of_contract(seeds: Sequence[int], examples: int) -> Iterator[Outcome]:
    """Every check of schemathesis with sound and broken data, against one real server, once for each seed."""
    with running_service() as url, tempfile.TemporaryDirectory() as folder:
        report = Path(folder) / "report.json"
        for seed in seeds:
            print(f"fuzz: the contract with the seed {seed}", file=sys.stderr, flush=True)
            command = ["schemathesis", "--config-file", CONFIGURATION, "run", f"{url}/openapi.json", "--no-color"]
            options = ["--seed", str(seed), "--max-examples", str(examples), "--report-json-path", report]
            limits = ["--max-response-time", str(SECONDS_OF_ONE_ANSWER)]
            ended = subprocess.run([*command, *options, *limits], check=False).returncode
            cases = json.loads(report.read_text(encoding="utf-8"))["test_cases"]
            failures = cases["with_failures"] + cases["errored"]
            yield Outcome(CONTRACT, seed, cases["generated"], failures or ended)


def _of_target(target: str, seed: int, seconds: int, keep: Path) -> Outcome:
    """One target for some seconds. It stops at the first input that fails, which is kept."""
    print(f"fuzz: {target} for {seconds} s with the seed {seed}", file=sys.stderr, flush=True)
    with tempfile.TemporaryDirectory() as corpus:
        options = [
            f"-seed={seed}",
            f"-max_total_time={seconds}",
            f"-timeout={SECONDS_OF_ONE_INPUT}",
            f"-rss_limit_mb={GREATEST_MEMORY_MB}",
            f"-max_len={LONGEST_INPUT}",
            "-len_control=0",
            f"-artifact_prefix={keep}/{target}-",
        ]
        program = [sys.executable, HERE / f"{target}.py", *options, corpus]
        ended = subprocess.run(program, check=False, capture_output=True, text=True, errors="replace")
    if ended.returncode:
        print(ended.stdout, ended.stderr[-8_000:], sep="\n", file=sys.stderr)
        again = f"PYTHONPATH={os.environ['PYTHONPATH']} .venv/bin/python deploy/fuzz/{target}.py {keep}/{target}-..."
        print(f"fuzz: to see it again: {again}", file=sys.stderr)
    counted = _DONE.findall(ended.stderr) or _SEEN.findall(ended.stderr) or ["0"]
    return Outcome(target, seed, int(counted[-1]), 1 if ended.returncode else 0)


def _table(outcomes: Sequence[Outcome]) -> str:
    rows = [(o.what, o.seed, o.cases, o.failures) for o in outcomes]
    rows.append(("all", "", sum(o.cases for o in outcomes), sum(o.failures for o in outcomes)))
    lines = [f"{what:<10} {seed:>11} {cases:>10,} {failures:>9}" for what, seed, cases, failures in rows]
    return "\n".join((f"{'':<10} {'seed':>11} {'cases':>10} {'failures':>9}", *lines))


if __name__ == "__main__":
    sys.exit(main())

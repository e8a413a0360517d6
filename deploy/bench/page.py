"""The page that the benchmark over HTTP writes."""

import os
import platform
from collections.abc import Iterator
from string import Template
from typing import Final

from bench.results import SHARES, Results, Run, targets

_PAGE: Final = Template("""# What an answer costs over HTTP

Written by `sh deploy/bench.sh --write`. wrk asked on $connections connections, $seconds s a run, $rounds rounds, in
turns; Python $python, $processors processors that the servers shared with wrk, on a machine whose load was $load
before. Ratios are the figures to read: what else the machine does slows all alike. What the time goes into, and why
targets are out of reach, stands in [FINDINGS.md](FINDINGS.md).

## In short
`nothing` is the same application with the same layers, types and decoding, whose answers are there before they are
asked; `bare` is a function of ASGI that decodes and encodes the same types with msgspec. All three run on the
service's own server, one process each. `of nothing` and `of bare` are their processor time over that of the service:
0.3 means that the service takes 3.3 times as much. p50 and p99 are those at half of the greatest load.
```text
$short
```

## Against what is wanted
Shares are of the processor's time. $reached of $all are reached.

| | wanted | found | |
|---|--:|--:|---|
$targets

## Every body
As fast as it is answered. A ratio of 0.5 means that the service does half of what the other does: in a second, or
for the same time of the processor.

| body | answers a second | µs of CPU | nothing: throughput | nothing: CPU | bare: throughput | bare: CPU | p50, ms |
|---|--:|--:|--:|--:|--:|--:|--:|
$bodies

`nothing` itself answers $nothing suction-feasibility requests a second ($nothing_cpu µs of CPU each), `bare` $bare
($bare_cpu µs). One process answers batches of 1,000 such questions at $batch answers a second
($batch_cpu µs of CPU each).

## At half of the greatest load
Callers who come by chance, without regard to each other, for $seconds_at_half s a run.

| body | share of the greatest load | p50, ms | p99, ms |
|---|--:|--:|--:|
$halves
""")


_NAMES: Final = {"ready": "nothing", "bare": "bare"}


def page(results: Results) -> str:
    """The whole page."""
    wanted = list(targets(results))
    plain = results.compared["suction-feasibility"]
    nothing, bare = plain.of("ready"), plain.of("bare")
    return _PAGE.substitute(
        connections=results.connections,
        seconds=results.seconds,
        seconds_at_half=results.seconds_at_half,
        rounds=results.rounds,
        python=platform.python_version(),
        processors=os.cpu_count(),
        load=f"{results.load_before:.1f}",
        reached=sum(target.is_reached for target in wanted),
        all=len(wanted),
        short="\n".join(_short(results)),
        targets="\n".join(f"| {t.what} | {t.wanted} | {t.found} | {_word(t.is_reached)} |" for t in wanted),
        bodies="\n".join(_bodies(results)),
        halves="\n".join(_halves(results)),
        nothing=f"{nothing.per_second:.0f}",
        nothing_cpu=f"{nothing.cpu_us:.0f}",
        bare=f"{bare.per_second:.0f}",
        bare_cpu=f"{bare.cpu_us:.0f}",
        batch=f"{results.batch.per_second:.0f}",
        batch_cpu=f"{results.batch.cpu_us:.0f}",
    )


def _word(is_reached: bool) -> str:
    return "reached" if is_reached else "**not reached**"


def _short(results: Results) -> Iterator[str]:
    """A table for readers of the README, with each body of which a share is wanted."""
    yield f"{'body':<36}{'a second':>9}{'µs of CPU':>11}{'of nothing':>12}{'of bare':>9}{'p50, ms':>9}{'p99, ms':>9}"
    for name in SHARES:
        compared = results.compared[name]
        run, half = compared.of("service"), compared.half()
        ratios = f"{compared.cpu_ratio('ready'):>12.2f}{compared.cpu_ratio('bare'):>9.2f}"
        yield f"{name:<36}{_rate(run)}{ratios}{half.p50_ms:>9.1f}{half.p99_ms:>9.1f}"
    plain = results.compared["suction-feasibility"]
    for kind, name in _NAMES.items():
        half = plain.half(kind)
        yield f"{f'{name}, suction-feasibility':<36}{_rate(plain.of(kind))}{half.p50_ms:>30.1f}{half.p99_ms:>9.1f}"
    yield f"{'suction-feasibility, in a batch':<36}{_rate(results.batch)}"
    yield (
        f"A worker takes {results.memory_mb:.0f} MB after load and is ready {results.start_s:.1f} s after its start; "
        f"two do {results.two_workers:.2f} times what one does."
    )


def _rate(run: Run) -> str:
    return f"{run.per_second:>9.0f}{run.cpu_us:>11.0f}"


def _bodies(results: Results) -> Iterator[str]:
    for name, compared in results.compared.items():
        run = compared.of("service")
        ratios = [
            ratio(kind) for kind in ("ready", "bare") for ratio in (compared.throughput_ratio, compared.cpu_ratio)
        ]
        shown = " | ".join(f"{ratio:.2f}" for ratio in ratios)
        yield f"| {name} | {run.per_second:.0f} | {run.cpu_us:.0f} | {shown} | {run.p50_ms:.1f} |"


def _halves(results: Results) -> Iterator[str]:
    for name, compared in results.compared.items():
        for kind in compared.halves:
            half, of = compared.half(kind), "" if kind == "service" else f", {_NAMES[kind]}"
            yield f"| {name}{of} | {half.share:.2f} | {half.p50_ms:.1f} | {half.p99_ms:.1f} |"

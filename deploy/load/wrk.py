"""wrk from Debian, which asks as fast as it is answered and takes little of the machine itself."""

import json
import re
import subprocess
import tempfile
from collections.abc import Sequence
from typing import Final, NamedTuple

from load.demo_mix import Question

_SCRIPT: Final = """
local asked, threads = {}, 0
setup = function(thread)
  threads = threads + 1
  thread:set("seed", threads)
end
init = function(arguments)
  math.randomseed(seed)
  wrk.headers["Content-Type"] = "application/json"
  for number, one in ipairs(questions) do asked[number] = wrk.format("POST", one[1], nil, one[2]) end
end
local turn = 0
request = function()
  turn = turn % #asked + 1
  return asked[turn]
end
done = function(summary, latency, requests)
  local e = summary.errors
  io.write(string.format("\\nfigures %d %d %d %d %d %d\\n", summary.requests, summary.duration, latency:percentile(50),
    latency:percentile(99), e.status, e.connect + e.read + e.write + e.timeout))
end
"""

_PAUSES: Final = """
delay = function() return -{mean_ms} * math.log(1 - math.random()) end
"""
"""Callers who come by chance; the pause is not counted to the time that an answer takes."""


class Throughput(NamedTuple):
    """What came of a run: answers, its seconds, within what time half of them and 99 of 100 came, refusals, and what
    broke."""

    requests: int
    seconds: float
    p50_s: float
    p99_s: float
    refused: int
    broken: int

    @property
    def per_second(self) -> float:
        """Answers in a second that are none of a refusal."""
        return (self.requests - self.refused) / self.seconds


def throughput(
    address: str, asked: Sequence[Question], connections: int, seconds: int, mean_pause_s: float = 0.0
) -> Throughput:
    """Ask for so long on so many connections, each with pauses of that mean. Raises CalledProcessError, and
    FileNotFoundError without wrk."""
    listed = ",\n".join(f"{{{_lua(one.path)}, {_lua(one.body.decode())}}}" for one in asked)
    with tempfile.NamedTemporaryFile("w", suffix=".lua") as script:
        pauses = _PAUSES.format(mean_ms=1e3 * mean_pause_s) if mean_pause_s else ""
        script.write(f"questions = {{\n{listed}\n}}\n{_SCRIPT}{pauses}")
        script.flush()
        command = ["wrk", f"-t{min(2, connections)}", f"-c{connections}", f"-d{seconds}s", "--timeout", "30s"]
        said = subprocess.run(
            [*command, "-s", script.name, f"http://{address}/"], capture_output=True, text=True, check=True
        ).stdout
    figures = re.search(r"^figures (\d+) (\d+) (\d+) (\d+) (\d+) (\d+)$", said, re.MULTILINE)
    if figures is None:
        raise RuntimeError(f"wrk told no figures: {said}")
    requests, microseconds, p50, p99, refused, broken = map(int, figures.groups())
    return Throughput(requests, microseconds / 1e6, p50 / 1e6, p99 / 1e6, refused, broken)


def _lua(text: str) -> str:
    """A string as Lua reads it: JSON's escapes of ASCII are Lua's too, but for those of code points."""
    return json.dumps(text, ensure_ascii=False)

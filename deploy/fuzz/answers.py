"""Target: bodies that are sound or nearly so, through their endpoints to the bytes of the answers."""

import atheris
import msgspec
from hostile_json import HostileJson
from target import fuzz

with atheris.instrument_imports(include=["footvalve"]):
    from rules import told_well

    from footvalve.answers.endpoints import ENDPOINTS
    from footvalve.contract.examples import examples
    from footvalve.web.answering import answering

ANSWERING = {endpoint.name: answering(endpoint) for endpoint in ENDPOINTS}
DECODED = {endpoint.name: msgspec.json.Decoder(endpoint.answer).decode for endpoint in ENDPOINTS}
HOSTILE = {name: HostileJson([example.request for example in examples(name)]) for name in ANSWERING}
NAMES = list(ANSWERING)


def check(raw: bytes) -> None:
    """An answer fits its own type and tells no yes against its own numbers; whatever else comes of it is told well."""
    data = atheris.FuzzedDataProvider(raw)
    name = NAMES[data.ConsumeIntInRange(0, len(NAMES) - 1)]
    body = HOSTILE[name].body(data)
    try:
        answered = ANSWERING[name](body)
    except Exception as error:
        told_well(error, body)
    else:
        answer = DECODED[name](answered)
        if name == "suction-feasibility" and answer.verdict == "feasible":
            assert answer.margin.value >= 0, f"feasible with a margin of {answer.margin}"
            assert all(node.absolute_pressure.value > 0 for node in answer.profile), "feasible with no pressure left"


if __name__ == "__main__":
    fuzz(check, (bytes([place]) * 64 for place in range(64)))

"""Target: the bytes of bodies, through the decoder of each request and of the batch."""

import json

import atheris
from hostile_json import HostileJson
from target import fuzz

with atheris.instrument_imports(include=["footvalve"]):
    from rules import decoded_well, told_well

    from footvalve.answers.endpoints import ENDPOINTS
    from footvalve.contract.examples import examples
    from footvalve.web.batch_decoding import decoded_batch
    from footvalve.web.strict_decoding import strict_decoder

DECODERS = {**{e.name: strict_decoder(e.request) for e in ENDPOINTS}, "batch": decoded_batch}
SAMPLES = {name: [example.request for example in examples(name)] for name in DECODERS}
HOSTILE = {name: HostileJson(samples) for name, samples in SAMPLES.items()}
NAMES = list(DECODERS)


def check(raw: bytes) -> None:
    """The first byte chooses the decoder, and whether the others are a body or make one."""
    (choice,), others = raw[:1] or b"\0", raw[1:]
    name = NAMES[choice // 2 % len(NAMES)]
    body = HOSTILE[name].body(atheris.FuzzedDataProvider(others)) if choice % 2 else others
    try:
        decoded = DECODERS[name](body)
    except Exception as error:
        told_well(error, body)
    else:
        if name != "batch":  # whose items keep their bodies as bytes
            decoded_well(decoded, body)


if __name__ == "__main__":
    plain = (bytes([2 * place]) + json.dumps(s).encode() for place, name in enumerate(NAMES) for s in SAMPLES[name])
    made = (bytes([2 * place + 1]) + bytes([place]) * 64 for place in range(64))
    fuzz(check, (*plain, *made))

"""Target: what people write for a unit, through the guess of what they mean and through the decoders of quantities."""

import json

import atheris
from target import fuzz

with atheris.instrument_imports(include=["footvalve"]):
    from rules import decoded_well, told_well

    from footvalve.contract import quantities
    from footvalve.contract.unit_spelling import SPELLINGS, meant
    from footvalve.quantity import DIMENSIONS, wire_units
    from footvalve.web.strict_decoding import strict_decoder

DECODERS = {dimension: strict_decoder(getattr(quantities, dimension)) for dimension in DIMENSIONS}
NAMES = list(DIMENSIONS)


def check(raw: bytes) -> None:
    """A unit is taken where it is one of its dimension's, and nowhere else; a guess is always one of those."""
    data = atheris.FuzzedDataProvider(raw)
    dimension = NAMES[data.ConsumeIntInRange(0, len(NAMES) - 1)]
    unit = data.ConsumeUnicode(200) * data.ConsumeIntInRange(1, 20)
    guess = meant(unit, dimension)
    assert guess is None or guess in wire_units(dimension), guess
    body = json.dumps({"value": 1.5, "unit": unit}).encode()
    decoded = None
    try:
        decoded = DECODERS[dimension](body)
    except Exception as error:
        told_well(error, body)
    assert (decoded is not None) == (unit in wire_units(dimension)), f"{unit!r} came to {decoded}"
    if decoded is not None:
        decoded_well(decoded, body)


if __name__ == "__main__":
    fuzz(check, (s.encode() for spellings in SPELLINGS.values() for s in (*spellings, "m**9**9**9")))

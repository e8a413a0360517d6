"""From the bytes of a batch to its items. Their bodies stay bytes: what is wrong inside one is that item's own."""

from itertools import islice
from typing import Any

import msgspec
from msgspec import Raw

from footvalve.contract.batch import BatchRequest
from footvalve.contract.faults import MOST_FAULTS, Misfit, faults_in
from footvalve.web import problem_types as kinds
from footvalve.web.body_shape import NESTING, refuse_deep
from footvalve.web.problems import Declined
from footvalve.web.strict_decoding import UNDECODABLE, bare_quotes, parsed, repeated_keys, why_malformed

_decode = msgspec.json.Decoder(BatchRequest).decode
_decode_members = msgspec.json.Decoder(dict[str, list[dict[str, Raw]]]).decode
_encode = msgspec.json.Encoder().encode


_AROUND_A_BODY = 3
"""How deep the body of an item lies in the batch."""


def decoded_batch(raw: bytes, nesting_limit: int = NESTING) -> BatchRequest:
    """The batch. Raises Declined for what is no JSON or nests too deep, and Misfit with every fault outside the bodies
    of its items."""
    try:
        batch = _decode(raw)
        suspect = _may_repeat_keys(raw)
    except UNDECODABLE:
        suspect = True
    if suspect:
        refuse_deep(raw, nesting_limit + _AROUND_A_BODY)
        raise _refusal(raw)
    return batch


def _may_repeat_keys(raw: bytes) -> bool:
    """Whether a key stands twice outside the bodies: decoded and encoded again, the batch then has lost quotes."""
    return bare_quotes(raw) != bare_quotes(_encode(_decode_members(raw)))


def _refusal(raw: bytes) -> Exception:
    """What is wrong with a batch that did not decode."""
    batch = _without_bodies(parsed(raw))
    faults = [*islice(repeated_keys(batch), MOST_FAULTS + 1), *faults_in(batch, BatchRequest)]
    return Misfit(*faults) if faults else Declined(kinds.NOT_JSON, why_malformed(raw))


def _without_bodies(batch: Any) -> Any:
    """A parsed batch with nothing in the bodies of its items."""
    items = batch.get("items") if isinstance(batch, dict) else None
    for item in items if isinstance(items, list) else ():
        if isinstance(item, dict) and "body" in item:
            item["body"] = None
    return batch

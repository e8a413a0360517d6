"""The tag by which a representation is known again, and whether a caller has it already (RFC 9110, section 13.1.2)."""

import re
from hashlib import sha256

_TAG = re.compile(rb'(?:W/)?("[\x21\x23-\x7e\x80-\xff]*")')


def entity_tag(representation: bytes) -> bytes:
    """A strong tag: other bytes have another."""
    return b'"%b"' % sha256(representation).hexdigest()[:32].encode()


def is_held(tag: bytes, if_none_match: bytes) -> bool:
    """Whether the header If-None-Match names the tag, weak or strong, in its list, or whatever there is by `*`."""
    return if_none_match.strip() == b"*" or tag in _TAG.findall(if_none_match)

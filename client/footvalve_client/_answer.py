"""What all Structs of an answer have in common."""

from msgspec import Struct


class AnswerPart(Struct, frozen=True, omit_defaults=True, repr_omit_defaults=True):
    """A part of an answer. What the service left out is None; what it added since is left aside."""

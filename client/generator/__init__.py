"""Writes `footvalve_client/_generated` from the contract document."""

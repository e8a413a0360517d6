# Generated from openapi/footvalve.json by client/generate.py, and not to be edited by hand.
"""What the contract document makes of the client."""

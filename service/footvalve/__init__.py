"""Footvalve answers whether a well can be drawn on by suction from a dry place, and how to size what follows."""

from importlib.metadata import version

__version__ = version("footvalve")

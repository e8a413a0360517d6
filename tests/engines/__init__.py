"""The service held against engines of others over wide grids of inputs; one module a phenomenon.

Each comparison runs every case and keeps the worst deviation, with its inputs. Its bound stands beside it, with why
it is no tighter. `comparisons.py` lists them all, `test_engines.py` holds them to their bounds, and
`python tests/engines/report.py` prints them.
"""

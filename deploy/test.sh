#!/bin/sh
# Set-up, then every check: format, lint, types, layers, the contract, and the tests; last, whether the last commit made
# answers slower, which only warns.
set -eu
cd "$(dirname "$0")/.."
sh deploy/setup.sh
PATH="$PWD/.venv/bin:$PATH"
export PATH

ruff format --check .
ruff check .
mypy service client
lint-imports
footvalve contract --check
python -m pytest "$@"
python deploy/bench/guard.py --rounds 6 --seconds 30 || echo "guard: it did not run to its end"

#!/bin/sh
# Set-up, then what answers cost over HTTP: every endpoint against a handler that reckons nothing and against a bare
# function. See deploy/bench/over_http.py.
#   sh deploy/bench.sh [--seconds 1] [--rounds 5] [--write]
set -eu
cd "$(dirname "$0")/.."
sh deploy/setup.sh
command -v wrk >/dev/null || { echo "bench: install the package wrk" >&2 && exit 2; }
PYTHONPATH="$PWD/deploy" exec .venv/bin/python -m bench.over_http "$@"

#!/bin/sh
# Set-up, then what answers cost over HTTP: every endpoint against a handler that reckons nothing and against a bare
# function. See deploy/bench/over_http.py.
#   sh deploy/bench.sh [--seconds 1] [--rounds 5] [--write]
set -eu
cd "$(dirname "$0")/.."
sh deploy/setup.sh
command -v wrk >/dev/null || { echo "bench: install the package wrk" >&2 && exit 2; }

# As it is deployed: beside the tools of the tests a server loads far more, as litestar takes up whatever it finds.
deployed=.venv/tools/as-deployed
requirements=$(cat pyproject.toml deploy/requirements.txt | cksum)
if [ "$(cat "$deployed/requirements" 2>/dev/null)" != "$requirements" ]; then
    .venv/bin/python -m venv --clear "$deployed"
    "$deployed/bin/python" -m pip install --quiet --disable-pip-version-check --constraint deploy/requirements.txt .
    echo "$requirements" >"$deployed/requirements"
fi
rm -rf build/lib
"$deployed/bin/python" -m pip install --quiet --disable-pip-version-check --no-deps --force-reinstall .
PYTHONPATH="$PWD/deploy" exec "$deployed/bin/python" -m bench.over_http "$@"

#!/bin/sh
# Set-up, then the service fuzzed at depth: by its contract against a real server, and inside, by what code is reached.
#   sh deploy/fuzz.sh [--seed SEED] [--examples N] [--seconds N] [--only contract|bodies|exchanges|units|answers|manifolds]
# About fifteen minutes on two cores. The fresh seed is printed; with --seed a run is done again. Ends with a table of
# cases and failures, and with 1 where anything failed. Failing inputs are kept in build/fuzz.
set -eu
cd "$(dirname "$0")/.."
sh deploy/setup.sh
PATH="$PWD/.venv/bin:$PATH"
export PATH

tools=.venv/tools/fuzz
if ! cmp -s deploy/fuzz/requirements.txt "$tools/requirements.txt"; then
    rm -rf "$tools"
    python -m pip install --quiet --disable-pip-version-check --no-deps --target "$tools" \
        --requirement deploy/fuzz/requirements.txt
    cp deploy/fuzz/requirements.txt "$tools"
fi
PYTHONPATH="deploy:$tools" python deploy/fuzz/run.py "$@"

#!/bin/sh
# Set-up, then an audit: the source (bandit, deptry), what is installed against its pins, licences, and a bill of
# materials in CycloneDX of what runs in the service.
#   sh deploy/audit.sh [--bill FILE]
# Ends with 1 at any finding that deploy/audit/accepted.toml does not accept with a reason. The bill goes to build/ unless
# a file is named. Only the first run uses the network, to install the tools into .venv. Known advisories cannot be had
# without one: where there is one, run pip-audit over deploy/requirements.txt.
set -eu
cd "$(dirname "$0")/.."
sh deploy/setup.sh
PATH="$PWD/.venv/bin:$PATH"
export PATH

tools=.venv/tools/audit
if ! cmp -s deploy/audit/requirements.txt "$tools/requirements.txt"; then
    rm -rf "$tools"
    python -m pip install --quiet --disable-pip-version-check --no-deps --target "$tools" \
        --requirement deploy/audit/requirements.txt
    cp deploy/audit/requirements.txt "$tools"
fi
python deploy/audit/run.py "$@"

#!/bin/sh
# Makes .venv with the service, the client and the tools that test them. A second run finds it done.
set -eu
cd "$(dirname "$0")/.."

python=${PYTHON:-python3}
if ! "$python" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
    echo "set-up: Footvalve needs Python 3.11 or newer; set PYTHON to one (tried: $python)" >&2
    exit 1
fi

wanted=$(cat pyproject.toml client/pyproject.toml deploy/requirements.txt deploy/setup.sh | cksum)
stamp=.venv/footvalve-set-up
if [ -f "$stamp" ] && [ "$(cat "$stamp")" = "$wanted" ]; then
    exit 0
fi

echo "set-up: making .venv, about a minute the first time" >&2
rm -rf .venv
if ! "$python" -m venv .venv; then
    echo "set-up: this Python cannot make virtual environments; on Debian install the package python3-venv" >&2
    exit 1
fi
.venv/bin/python -m pip install --quiet --disable-pip-version-check --requirement deploy/requirements.txt
.venv/bin/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation \
    --editable . --editable client
echo "$wanted" >"$stamp"
echo "set-up: done" >&2

#!/bin/sh
# Makes .venv with the service, the client and the tools that test them. A second run finds it done.
set -eu
cd "$(dirname "$0")/.."

stamp=.venv/footvalve-set-up
lock=.venv.lock

wanted() {
    { pwd && cat pyproject.toml client/pyproject.toml deploy/requirements.txt deploy/setup.sh; } | cksum
}

is_done() {
    [ -f "$stamp" ] && [ "$(cat "$stamp")" = "$(wanted)" ] && .venv/bin/python - 2>/dev/null <<'EOF'
import sys
from importlib.util import find_spec

needed = ["footvalve", "footvalve_client", "litestar", "msgspec", "pint", "fluids", "chemicals", "uvicorn", "httpx", "pytest"]
sys.exit(any(find_spec(name) is None for name in needed))
EOF
}

is_done && exit 0

# One set-up at a time: a second one waits, and takes over from one that died.
until mkdir "$lock" 2>/dev/null; do
    holder=$(cat "$lock/pid" 2>/dev/null || true)
    if [ -n "$holder" ] && ! kill -0 "$holder" 2>/dev/null; then
        rm -rf "$lock"
    else
        sleep 1
    fi
done
echo $$ >"$lock/pid"
trap 'rm -rf "$lock"' EXIT
trap 'exit 130' HUP INT TERM
is_done && exit 0

python=${PYTHON:-python3}
if ! "$python" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
    echo "set-up: Footvalve needs Python 3.11 or newer; set PYTHON to one (tried: $python)" >&2
    exit 1
fi

echo "set-up: making .venv, about a minute the first time" >&2
rm -rf .venv
if ! "$python" -m venv .venv; then
    echo "set-up: this Python cannot make virtual environments; on Debian install the package python3-venv" >&2
    exit 1
fi
.venv/bin/python -m pip install --quiet --disable-pip-version-check --requirement deploy/requirements.txt
# As plain paths: type checkers and editors do not follow the other kind.
.venv/bin/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation \
    --config-settings editable_mode=compat --editable . --editable client
wanted >"$stamp"
echo "set-up: done" >&2

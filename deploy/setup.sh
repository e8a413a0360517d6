#!/bin/sh
# Makes .venv with the service, the client and the tools that test them, and installs the programs that tests drive.
# A second run finds it done. FOOTVALVE_NO_BROWSER=1 does without the browser, and tests that want it are left out.
# --venv-alone installs no programs: the service and the client run without.
set -eu
cd "$(dirname "$0")/.."

venv_alone=no
[ "${1:-}" != --venv-alone ] || venv_alone=yes

stamp=.venv/footvalve-set-up
lock=.venv.lock

# Any of the commands will do : the Debian packages that have one : those to take where Debian has no such package
programs() {
    [ "$venv_alone" = no ] || return 0
    [ "${FOOTVALVE_NO_BROWSER:-}" = 1 ] || echo "chromium chromium-browser google-chrome : chromium fonts-dejavu-core"
    echo "haproxy : haproxy"
    echo "valkey-server redis-server : valkey-server : redis-server"
    echo "wrk : wrk"
}

wanted() {
    { pwd && cat pyproject.toml client/pyproject.toml deploy/requirements.txt deploy/setup.sh; } | cksum
}

venv_is_done() {
    [ -f "$stamp" ] && [ "$(cat "$stamp")" = "$(wanted)" ] && .venv/bin/python - 2>/dev/null <<'EOF'
import sys
from importlib.util import find_spec

needed = ["footvalve", "footvalve_client", "litestar", "msgspec", "pint", "fluids", "chemicals", "uvicorn", "httpx", "pytest"]
sys.exit(any(find_spec(name) is None for name in needed))
EOF
}

there_is_one_of() {
    for command in "$@"; do
        PATH="$PATH:/usr/sbin" command -v "$command" >/dev/null && return 0
    done
    return 1
}

# The lines of the programs that are not there.
missing() {
    programs | while IFS=: read -r commands packages; do
        # shellcheck disable=SC2086 # a list of words
        there_is_one_of $commands || echo "$commands:$packages"
    done
}

is_done() {
    venv_is_done && [ -z "$(missing)" ]
}

make_venv() {
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
}

apt() {
    $as_root env DEBIAN_FRONTEND=noninteractive apt-get -qq -o DPkg::Lock::Timeout=300 "$@" >/dev/null
}

# What is missing, by apt-get. Without it the service runs all the same: only tests want these programs.
install_programs() {
    [ "$venv_alone" = no ] || return 0
    lines=$(missing)
    [ -n "$lines" ] || return 0
    names=$(echo "$lines" | sed 's/ .*//' | tr '\n' ' ')
    as_root=
    if ! command -v apt-get >/dev/null; then
        echo "set-up: there is no apt-get to install ${names% }: install them by hand, or their tests fail" >&2
        return 0
    elif [ "$(id -u)" != 0 ] && ! sudo -n true 2>/dev/null; then
        echo "set-up: only root may install ${names% }: run this as root once, or their tests fail" >&2
        return 0
    fi
    [ "$(id -u)" = 0 ] || as_root="sudo -n"
    echo "set-up: installing ${names% } with apt-get" >&2
    apt update || echo "set-up: apt-get cannot bring its lists up to date; trying those that are there" >&2
    echo "$lines" | while IFS=: read -r commands packages otherwise; do
        # shellcheck disable=SC2086 # a list of words
        apt-cache show $packages >/dev/null 2>&1 || packages=${otherwise:-$packages}
        # shellcheck disable=SC2086
        apt install --yes --no-install-recommends $packages </dev/null ||
            echo "set-up: apt-get cannot install${packages}: tests that want ${commands%% *} will fail" >&2
    done
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

venv_is_done || make_venv
install_programs
echo "set-up: done" >&2

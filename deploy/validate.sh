#!/bin/sh
# Set-up, then every check of the files by which the service is run, each by the tool that reads it; about a minute.
#   sh deploy/validate.sh [--build]
# --build also takes the steps of the image's build, in a folder that is thrown away, and starts what they made: that
# fetches packages.
set -eu
cd "$(dirname "$0")/.."
case "${1:-}" in "" | --build) ;; *) echo "usage: sh deploy/validate.sh [--build]" >&2 && exit 2 ;; esac
sh deploy/setup.sh

.venv/bin/python -m pytest tests/deploy -rs
[ "${1:-}" = --build ] || exit 0

scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
trap 'exit 130' HUP INT TERM
echo "validate: building what the image holds" >&2
mkdir "$scratch/source"
cp -R deploy/requirements.txt pyproject.toml service "$scratch/source"

# The build stage as it stands in the Containerfile, with folders of its own.
awk '/^RUN/ { taking = 1; sub(/^RUN /, "") } taking { print } taking && !/\\$/ { exit }' deploy/container/Containerfile |
    sed "s|/wheels|$scratch/wheels|g; s|/opt/footvalve|$scratch/footvalve|g" >"$scratch/build.sh"
(cd "$scratch/source" && PATH="$OLDPWD/.venv/bin:$PATH" EXTRAS= sh -eu "$scratch/build.sh")

taken=$("$scratch/footvalve/bin/python" -c 'import footvalve; print(footvalve.__file__)')
case "$taken" in "$scratch"/footvalve/*) ;; *) echo "validate: it takes $taken" >&2 && exit 1 ;; esac

: >"$scratch/log"  # it is read before the service has opened it
"$scratch/footvalve/bin/footvalve" serve --port 0 >"$scratch/log" 2>&1 &
service=$!
trap 'kill "$service" 2>/dev/null || true; wait "$service" 2>/dev/null || true; rm -rf "$scratch"' EXIT
url=
tries=0
while [ -z "$url" ]; do
    url=$(sed -n 's/.* listens on //p' "$scratch/log")
    tries=$((tries + 1))
    if [ "$tries" -gt 600 ] || ! kill -0 "$service" 2>/dev/null; then
        cat "$scratch/log" >&2
        exit 1
    fi
    [ -n "$url" ] || sleep 0.1
done
.venv/bin/python deploy/demo/show.py "$url" deploy/demo/site-us.json >"$scratch/shown"
echo "validate: what was built answers the demo site"

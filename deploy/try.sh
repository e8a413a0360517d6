#!/bin/sh
# Set-up, then the service on a free port of this machine with the demo site asked of it, then stop.
#   sh deploy/try.sh [--metric] [--serve [PORT]] [SITE.json]
# --metric takes the same site in metric units; --serve keeps the service up until Ctrl-C.
set -eu
from=$PWD
cd "$(dirname "$0")/.."

site=deploy/demo/site-us.json
serve=no
port=0
while [ $# -gt 0 ]; do
    case "$1" in
    --metric) site=deploy/demo/site-metric.json ;;
    --serve)
        serve=yes
        case "${2:-}" in [0-9]*) port=$2 && shift ;; esac
        ;;
    -*)
        echo "usage: sh deploy/try.sh [--metric] [--serve [PORT]] [SITE.json]" >&2
        exit 2
        ;;
    /*) site=$1 ;;
    *) site=$from/$1 ;;
    esac
    shift
done
[ -f "$site" ] || { echo "try: there is no file $site" >&2 && exit 2; }

sh deploy/setup.sh --venv-alone

# The demo runs with the defaults, whatever is set for a service of one's own; with --serve what is set counts.
if [ "$serve" = no ]; then
    for name in $(env | sed -n 's/^\(FOOTVALVE_[A-Z_]*\)=.*/\1/p'); do unset "$name"; done
fi

log=$(mktemp)
FOOTVALVE_DRAIN_SECONDS=0 .venv/bin/footvalve serve --port "$port" >"$log" 2>&1 &
service=$!
trap 'kill "$service" 2>/dev/null || true; wait "$service" 2>/dev/null || true; rm -f "$log"' EXIT
trap 'exit 130' HUP INT TERM

url=
tries=0
while [ -z "$url" ]; do
    url=$(sed -n 's/.* listens on //p' "$log")
    tries=$((tries + 1))
    if [ "$tries" -gt 600 ] || ! kill -0 "$service" 2>/dev/null; then
        cat "$log" >&2
        exit 1
    fi
    [ -n "$url" ] || sleep 0.1
done

.venv/bin/python deploy/demo/show.py "$url" "$site"
if [ "$serve" = yes ]; then
    echo
    echo "The service stays up at $url until Ctrl-C."
    wait "$service"
fi

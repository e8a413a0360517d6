#!/bin/sh
# Set-up, then processes of the service behind HAProxy: one is killed and one drained under load, and nothing may be lost;
# then what all of them do against one. See deploy/scale.py.
#   sh deploy/scale.sh [--processes 2] [--seconds 10] [--rounds 3] [--faults]
set -eu
cd "$(dirname "$0")/.."
for program in haproxy wrk; do
    command -v "$program" >/dev/null || { echo "scale: install the package $program" >&2 && exit 2; }
done
sh deploy/setup.sh
exec .venv/bin/python deploy/scale.py "$@"

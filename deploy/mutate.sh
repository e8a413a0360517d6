#!/bin/sh
# Set-up, then small faults (mutants) put into physics one at a time, to see how many of them its tests find.
#   sh deploy/mutate.sh [MODULE...]
# All modules take about ten minutes on two free cores. Of modules that are named, such as `head pump_cycle`, each
# mutant that survived is shown. Ends with 1 where fewer than 90 % are killed, by a test or by never coming to an end.
# tests/physics/MUTANTS.md says why the others survive.
set -eu
cd "$(dirname "$0")/.."
for module in "$@"; do
    [ -f "service/footvalve/physics/$module.py" ] || { echo "mutate: physics has no module $module" >&2 && exit 2; }
done
sh deploy/setup.sh
PATH="$PWD/.venv/bin:$PATH"
export PATH

scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
trap 'exit 130' HUP INT TERM
mkdir "$scratch/src"
cp -R service/footvalve "$scratch/src"
cp -R tests pyproject.toml "$scratch"
cd "$scratch"

# mutmut leaves every decorated function alone; those that only remember what they found do the same without it.
sed -i.bak '/^@lru_cache/d' src/footvalve/physics/*.py
rm src/footvalve/physics/*.bak

for module in "$@"; do
    shift
    set -- "$@" "footvalve.physics.$module.*"
done
echo "mutate: putting faults into physics" >&2
nice mutmut run "$@" >log 2>&1 || { tail -n 50 log >&2 && exit 1; }
mutmut results --all true >results

if [ $# -gt 0 ]; then
    sed -n 's/^ *\(.*\): survived$/\1/p' results | while read -r mutant; do mutmut show "$mutant"; done
fi
LC_ALL=C sort results | awk -F ': ' '
    function row(name, mutants, killed) {
        printf "| %s | %d | %d | %d | %.1f %% |\n", name, mutants, killed, mutants - killed, 100 * killed / mutants
    }
    BEGIN { print "| module | mutants | killed | survived | share |\n|---|---|---|---|---|" }
    $2 == "not checked" { next }
    { split($1, part, ".") }
    part[3] != module {
        if (module) row(module, mutants, killed)
        module = part[3]
        mutants = killed = 0
    }
    { mutants++; all_mutants++ }
    $2 == "killed" || $2 == "timeout" { killed++; all_killed++ }
    END {
        if (!module) exit 1
        row(module, mutants, killed)
        row("all", all_mutants, all_killed)
        exit (all_killed < 0.9 * all_mutants)
    }
'

#!/usr/bin/env bash
# Installs in fresh virtual environments, away from the checkout, and plays the demo in each: the pinned helpers of
# experta; newer frozendict and schema forced; the wheel and the source distribution; every Python found.
#
# Run: tests/bench/install.sh      (needs the package registry; five to ten minutes)
set -uo pipefail
root=$(cd "$(dirname "$0")/../.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export XDG_CACHE_HOME="$work/cache" XDG_DATA_HOME="$work/data"
unset PYTHONPATH
failed=0

check() { # name, venv
    if (cd "$work" && "$2/bin/triage" book check >"$work/out" 2>&1 && "$2/bin/triage" demo >>"$work/out" 2>&1); then
        echo "$1: works ($("$2/bin/python" -V 2>&1))"
    else
        echo "$1: FAILED"
        tail -3 "$work/out"
        failed=1
    fi
}

fresh() { # python, venv
    "$1" -m venv "$2" && "$2/bin/pip" install --quiet --disable-pip-version-check --upgrade pip
}

python=$(command -v python3.11 || command -v python3)
fresh "$python" "$work/build"
"$work/build/bin/pip" install --quiet build
cp -r "$root" "$work/source"
"$work/build/bin/python" -m build --outdir "$work/dist" "$work/source" >"$work/out" 2>&1 || tail -3 "$work/out"
wheel=$(ls "$work"/dist/*.whl)
sdist=$(ls "$work"/dist/*.tar.gz)

fresh "$python" "$work/wheel" && "$work/wheel/bin/pip" install --quiet "$wheel" && check "wheel, pinned helpers" "$work/wheel"
fresh "$python" "$work/sdist" && "$work/sdist/bin/pip" install --quiet "$sdist" && check "source distribution" "$work/sdist"
fresh "$python" "$work/newer" && "$work/newer/bin/pip" install --quiet "$wheel" &&
    "$work/newer/bin/pip" install --quiet --no-deps --upgrade "frozendict>=2" "schema>=0.7.7" &&
    check "newer frozendict and schema forced" "$work/newer"
for version in 3.12 3.13 3.14; do
    other=$(command -v "python$version") || continue
    fresh "$other" "$work/$version" && "$work/$version/bin/pip" install --quiet "$wheel" && check "wheel" "$work/$version"
done
exit $failed

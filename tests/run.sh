#!/usr/bin/env bash
# Runs every test. Chromium, which the browser journeys drive, ngspice, which judges the supply network, sox, which judges the test
# signals, admesh, which judges surfaces from scans, and python3-scipy, which judges filters (all Debian's packages), are installed when they are missing.
# Usage: tests/run.sh [fast]    'fast' leaves the browser out.
# The last line is 'N passed, N failed'; the exit code is 0 only when nothing failed and every suite ran tests.
set -uo pipefail
cd "$(dirname "$0")/.."

what="${1:-all}"
case "$what" in
  all | fast) ;;
  *) echo "usage: tests/run.sh [fast]" >&2; exit 2 ;;
esac

give_up() {
  echo "$1" >&2
  echo "0 passed, 1 failed"
  exit 1
}

browser="${SHOPFLOOR_TEST_BROWSER:-/usr/bin/chromium}"
if [ "$what" = all ] && [ ! -x "$browser" ]; then
  [ -z "${SHOPFLOOR_TEST_BROWSER:-}" ] || give_up "SHOPFLOOR_TEST_BROWSER names $browser, which cannot be run."
  echo "Installing chromium ..."
  as_root=()
  [ "$(id -u)" = 0 ] || as_root=(sudo)
  { "${as_root[@]}" apt-get update -q && "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends chromium; } >/dev/null \
    || give_up "Chromium could not be installed; tests/run.sh fast does without it."
fi

# need COMMAND WHY [PACKAGE]: installs Debian's package, of the same name unless told, when the command cannot be found; a PACKAGE of Python
# is asked for by importing it.
need() {
  if [ -n "${3:-}" ]; then
    "$1" -c "import ${3#python3-}" 2>/dev/null && return
    set -- "$3" "$2"
  else
    command -v "$1" >/dev/null && return
  fi
  echo "Installing $1 ..."
  as_root=()
  [ "$(id -u)" = 0 ] || as_root=(sudo)
  { "${as_root[@]}" apt-get update -q && "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends "$1"; } >/dev/null \
    || give_up "$1, which $2, could not be installed."
}

need ngspice "judges the supply network's voltages"
need sox "judges the test signals"
need admesh "judges surfaces from scans"
need /usr/bin/python3 "judges measurements" python3-scipy

results=$(mktemp -d)
trap 'rm -rf "$results"' EXIT

dotnet build ShopFloor.sln -v quiet -nologo -m || give_up "The solution does not build."

# The fast ones first: they tell most of what is broken within a minute.
suites=(Engineering Architecture Documents Shop Web)
[ "$what" = fast ] || suites+=(Browser)

# Reads one attribute of the counters a finished suite wrote; nothing when it did not come that far.
count() { sed -n "s/.*<Counters [^>]*\b$2=\"\([0-9]*\)\".*/\1/p" "$results/$1.trx" 2>/dev/null | head -n 1; }

passed=0
failed=0
for suite in "${suites[@]}"; do
  echo "== $suite"
  broke=0
  dotnet test "tests/ShopFloor.$suite.Tests" --no-build -nologo --results-directory "$results" \
    --logger "trx;LogFileName=$suite.trx" --logger "console;verbosity=minimal" || broke=1
  ran=$(count "$suite" executed)
  good=$(count "$suite" passed)
  bad=$(count "$suite" failed)
  passed=$((passed + ${good:-0}))
  failed=$((failed + ${bad:-0}))
  if [ "${ran:-0}" -eq 0 ]; then
    echo "$suite ran no tests."
    failed=$((failed + 1))
  elif [ "$broke" = 1 ] && [ "${bad:-0}" -eq 0 ]; then
    echo "$suite broke off outside a test."
    failed=$((failed + 1))
  fi
done

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]

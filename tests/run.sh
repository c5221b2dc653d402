#!/usr/bin/env bash
# Runs every test. Installs what they need when it is missing: Chromium (Debian's package) for the journeys,
# poppler-utils to look at PDF pages. Usage: tests/run.sh [fast]   ('fast' leaves the browser journeys out)
set -uo pipefail
cd "$(dirname "$0")/.."

need_install=()
command -v chromium >/dev/null 2>&1 || need_install+=(chromium)
if [ "${1:-all}" = all ] && [ ${#need_install[@]} -gt 0 ]; then
  as_root=(); [ "$(id -u)" = 0 ] || as_root=(sudo)
  echo "Installing ${need_install[*]} ..."
  "${as_root[@]}" apt-get update -q >/dev/null && "${as_root[@]}" apt-get install -y -q "${need_install[@]}" >/dev/null || exit 1
fi

dotnet build ShopFloor.sln -v quiet -nologo || { echo "0 passed, 1 failed"; exit 1; }

results=$(mktemp -d)
trap 'rm -rf "$results"' EXIT
suites=(Engineering Architecture Documents Shop Web)
[ "${1:-all}" = fast ] || suites+=(Browser)
status=0
for suite in "${suites[@]}"; do
  echo "== $suite"
  dotnet test "tests/ShopFloor.$suite.Tests" --no-build -nologo --logger "trx;LogFileName=$results/$suite.trx" --logger "console;verbosity=minimal" || status=1
done

sum() { local n; n=$(grep -ho "<Counters [^>]*" "$results"/*.trx 2>/dev/null | sed -n "s/.* $1=\"\([0-9]*\)\".*/\1/p" | awk '{s+=$1} END {print s+0}'); echo "$n"; }
passed=$(sum passed); failed=$(sum failed)
[ "$status" = 0 ] || [ "$failed" != 0 ] || failed=1
echo "$passed passed, $failed failed"
exit $status

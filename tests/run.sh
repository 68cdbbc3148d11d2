#!/usr/bin/env bash
# Installs what is missing, builds everything, and runs all tests; the window ones in a real window under Xvfb.
#   tests/run.sh              Release
#   tests/run.sh --sanitize   the same under the address and undefined-behaviour sanitizers
#   tests/run.sh [--sanitize] -R REGEX ...   only some (arguments are handed to ctest)
set -uo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
source app/build.sh
type=Release
if [ "${1:-}" = --sanitize ]; then
    type=Sanitize
    shift
fi
install_packages "${BUILD_PACKAGES[@]}" qt6-base-dev-tools libgeographiclib-dev geographiclib-tools \
    libxml2-utils gdal-bin xvfb xauth clang-format postgresql-15 postgresql-client-15 postgresql-15-postgis-3 || exit 1
command -v npm >/dev/null || install_packages nodejs npm || exit 1

# The linters that read our GeoJSON; versions are pinned in tests/lint/package.json.
if [ -f tests/lint/package.json ] && [ ! -d tests/lint/node_modules ]; then
    npm install --prefix tests/lint --no-audit --no-fund --no-package-lock --loglevel=error || exit 1
fi
export FENCEWRIGHT_REQUIRE_LINT=1

echo "Checking the format"
git ls-files '*.h' '*.cpp' | xargs clang-format --dry-run --Werror || { echo "Run clang-format -i on these."; exit 1; }

build "$type" all || exit 1
[ "$type" = Release ] && { cmake --build "$BUILD_FOLDER" --target all_verify_interface_header_sets || exit 1; }

# A screen of our own, on the first free number.
exec 8>"$BUILD_FOLDER/display"
Xvfb -displayfd 8 -screen 0 1920x1080x24 -nolisten tcp >/dev/null 2>&1 &
screen=$!
# And a database server of our own; its tests fail without it.
server=$(mktemp -u /tmp/fencewright-server-XXXXXX)
trap 'kill $screen 2>/dev/null; bash tests/postgis_server.sh stop "$server" >/dev/null 2>&1' EXIT
{ read -r FENCEWRIGHT_TEST_DATABASE && read -r FENCEWRIGHT_TEST_DATABASE_PASSWORD; } \
    < <(bash tests/postgis_server.sh start "$server")
export FENCEWRIGHT_TEST_DATABASE FENCEWRIGHT_TEST_DATABASE_PASSWORD FENCEWRIGHT_REQUIRE_DATABASE=1

for _ in $(seq 100); do
    [ -s "$BUILD_FOLDER/display" ] && break
    sleep 0.1
done
export DISPLAY=:$(tr -d '[:space:]' <"$BUILD_FOLDER/display")
export QT_QPA_PLATFORM=xcb
unset WAYLAND_DISPLAY

export ASAN_OPTIONS=detect_leaks=1:allocator_may_return_null=1
export LSAN_OPTIONS=suppressions=$PWD/tests/leaks.txt:print_suppressions=0
export UBSAN_OPTIONS=print_stacktrace=1
# Qt's own watch over a test function ends it after five minutes; ctest watches, too, and is told how long it may take.
export QTEST_FUNCTION_TIMEOUT=3600000

log=$BUILD_FOLDER/Testing/Temporary/LastTest.log
rm -f "$log"
ctest --test-dir "$BUILD_FOLDER" --output-on-failure -j2 "$@"
result=$?

# Each test program closes with "Totals: n passed, n failed, ..."; one that died or timed out counts as a failure.
read -r passed failed < <(awk '/^Totals: / { gsub(",", ""); p += $2; f += $4 } END { print p + 0, f + 0 }' "$log")
[ $result -ne 0 ] && [ "$failed" -eq 0 ] && failed=1
echo "$passed passed, $failed failed"
[ $result -eq 0 ] && [ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]

#!/usr/bin/env bash
# Installs what is missing, builds, makes the data once (build/bench, some 6 GB), and measures every bar against its raw
# baseline in the same process. Exit code 0 when all programs ran, however the bars came out.
#   tests/bench.sh                     all of it: about half an hour, on a machine that does nothing else
#   tests/bench.sh --quick             fewer rounds and short walks: shows that all runs; its figures are not to be quoted
#   tests/bench.sh [--quick] NAME ...  only these programs: raster, painting, ...
set -uo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
source app/build.sh
options=()
if [ "${1:-}" = --quick ]; then
    options=(--quick)
    shift
    echo "A quick run: fewer rounds and short walks; its figures are not to be quoted."
fi
install_packages "${BUILD_PACKAGES[@]}" libtiff-dev libxcb-xtest0-dev gdal-bin xvfb xauth || exit 1
cmake -S . -B build/release -G Ninja -DCMAKE_BUILD_TYPE=Release >/dev/null || exit 1
build Release bench || exit 1

data=$PWD/build/bench
"$BUILD_FOLDER/tests/bench/bench-data" "$data" || exit 1

results=$(mktemp -d)
exec 8>"$results/display"
Xvfb -displayfd 8 -screen 0 1920x1080x24 -nolisten tcp >/dev/null 2>&1 &
screen=$!
trap 'kill $screen 2>/dev/null; rm -rf "$results"' EXIT
for _ in $(seq 100); do
    [ -s "$results/display" ] && break
    sleep 0.1
done
export DISPLAY=:$(tr -d '[:space:]' <"$results/display")
export QT_QPA_PLATFORM=xcb
unset WAYLAND_DISPLAY

failed=0
programs=("$@")
[ ${#programs[@]} -gt 0 ] || mapfile -t programs < <(for file in tests/bench/*_bench.cpp; do basename "$file" _bench.cpp; done)
for program in "${programs[@]}"; do
    echo "== $program"
    "$BUILD_FOLDER/tests/bench/bench.$program" "${options[@]}" --data "$data" --results "$results/$program.tsv" ||
        { echo "bench.$program ended with an error."; failed=1; }
done

echo
cat "$results"/*.tsv | awk -F'\t' '
    BEGIN { print "| what | ours | baseline | ratio | bar | |"; print "| --- | --- | --- | --- | --- | --- |" }
    { print "| " $1 " | " $2 " | " $3 " | " $4 " | " $5 " | " $6 " |"
      if ($7 != "") notes = notes "- " $1 ": " $7 "\n"
      if ($6 == "met") met++; else if ($6 == "missed") missed++ }
    END { printf "\nNotes\n%s\n%d bars met, %d missed\n", notes, met, missed }'
exit $failed

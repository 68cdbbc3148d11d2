#!/usr/bin/env bash
# Installs what is missing, builds, and opens the window on the demo scenario. Without a display it does the same job by
# the command line: import, audit, deliver.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
source app/build.sh
install_packages "${BUILD_PACKAGES[@]}"
build Release fencewright fencewright-cli samples
demo=$BUILD_FOLDER/samples/alder-reach

if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
    exec "$BUILD_FOLDER/bin/fencewright" "${@:-$demo/alder-reach.gpkg}"
fi

echo "There is no display here (neither DISPLAY nor WAYLAND_DISPLAY is set): the demo runs by the command line instead."
cli=$BUILD_FOLDER/bin/fencewright-cli
out=$PWD/build/demo-delivery
mkdir -p "$out"
"$cli" create "$out/alder-reach.gpkg" --force --title "Alder Reach" \
    --imagery "$demo/alder-reach-ortho.tif" \
    --parcels "$demo/alder-reach-parcels.gpkg" --where "consent = 'yes'" --number parcel --closing "0.25 m" --name "Utility land" \
    --sites "$demo/alder-reach-sites.csv" --where "category = 'osprey nest'" --name-field name --distance "1/4 mi"
echo
"$cli" audit "$out/alder-reach.gpkg" || [ $? -eq 1 ] # the made-up set has no home yet, and the audit says so
echo
for format in geojson kml; do
    "$cli" deliver "$out/alder-reach.gpkg" "$out/alder-reach.$format"
done
echo
echo "The delivered files are in $out"

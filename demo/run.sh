#!/bin/sh
# Installs what is missing, builds, takes off a demo I/O list, estimates what it feeds and writes
# the quote workbook. The last line says where it is.
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
. "$root/tests/tools/install.sh"
# The window program has its own needs; the main job does not wait for them.
need_packages g++ cmake ninja-build pkg-config ccache libsqlitecpp-dev libxlsxwriter-dev \
    nlohmann-json3-dev libcli11-dev libfmt-dev

build=${BACKPLATE_BUILD:-$root/build/demo}
echo "Building into $build"
cmake -S "$root" -B "$build" -G Ninja -DBACKPLATE_DESK=OFF -DBACKPLATE_STRICT=OFF \
    -DCMAKE_CXX_COMPILER_LAUNCHER=ccache >"$build.log" 2>&1 ||
    { mkdir -p "$build"; cmake -S "$root" -B "$build" -G Ninja -DBACKPLATE_DESK=OFF \
        -DBACKPLATE_STRICT=OFF; }
cmake --build "$build" --target backplate

out=${BACKPLATE_OUT:-$root/build/demo-out}
mkdir -p "$out"
cp "$root/demo/requests/pickle_works.json" "$out/request.json"
backplate() { "$build/backplate" "$@" --library :starter:; }

echo
echo "Take-off of demo/lists/pickle_works.csv"
backplate takeoff "$root/demo/lists/pickle_works.csv" --into "$out/request.json"
echo
backplate estimate "$out/request.json"
backplate quote "$out/request.json" --workbook "$out/quote.xlsx" >/dev/null
echo
echo "The quote workbook: $out/quote.xlsx"

#!/bin/sh
# Installs what is missing, builds, takes off a demo I/O list, estimates what it feeds and writes
# the quote workbook; then plays a second bid (demo/story.sh). The last line says where the workbook
# is.
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
. "$root/tests/tools/install.sh"
# The window program has its own needs; the main job does not wait for them.
need_packages g++ cmake ninja-build pkg-config ccache libsqlitecpp-dev libxlsxwriter-dev \
    nlohmann-json3-dev libcli11-dev libfmt-dev libzip-dev libexpat1-dev libcairo2-dev \
    libpango1.0-dev fonts-dejavu-core

build=${BACKPLATE_BUILD:-$root/build/demo}
mkdir -p "$build"
echo "Building into $build (a few minutes the first time)"
cmake -S "$root" -B "$build" -G Ninja -DBACKPLATE_DESK=OFF -DBACKPLATE_STRICT=OFF \
    -DCMAKE_CXX_COMPILER_LAUNCHER=ccache >"$build/configure.log" 2>&1 ||
    { cat "$build/configure.log"; exit 3; }
cmake --build "$build" --target backplate >"$build/build.log" 2>&1 ||
    { tail -30 "$build/build.log"; exit 3; }

out=${BACKPLATE_OUT:-$root/build/demo-out}
mkdir -p "$out"
cp "$root/demo/requests/kelp_barn.json" "$out/request.json"
backplate() { "$build/backplate" "$@" --library :starter:; }

echo
echo "Take-off of demo/lists/kelp_barn.csv"
backplate takeoff "$root/demo/lists/kelp_barn.csv" --into "$out/request.json"
echo
backplate estimate "$out/request.json"
backplate quote "$out/request.json" --workbook "$out/quote.xlsx" >/dev/null
echo
sh "$root/demo/story.sh" "$build/backplate" "$out/story"
echo
echo "The quote workbook: $out/quote.xlsx"

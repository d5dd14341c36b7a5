#!/bin/sh
# Builds with address and undefined-behaviour checks: FOLDER DESK, DESK: ON with the window, else OFF.
set -eu
root=$(cd "$(dirname "$0")/../.." && pwd)
cmake -S "$root" -B "$1" -G Ninja -DCMAKE_CXX_COMPILER_LAUNCHER=ccache \
    -DCMAKE_BUILD_TYPE=RelWithDebInfo -DCMAKE_CXX_FLAGS_RELWITHDEBINFO='-O1 -g1' \
    -DBACKPLATE_SANITIZE=ON -DBACKPLATE_DESK="$2"
cmake --build "$1"

#!/bin/sh
# Builds with address and undefined-behaviour checks: FOLDER DESK, DESK: ON with the window, else OFF.
# In groups of files; where names of two files meet in a group, once more with each file alone.
set -eu
root=$(cd "$(dirname "$0")/../.." && pwd)
build() {
    cmake -S "$root" -B "$1" -G Ninja -DCMAKE_CXX_COMPILER_LAUNCHER=ccache \
        -DCMAKE_BUILD_TYPE=RelWithDebInfo -DCMAKE_CXX_FLAGS_RELWITHDEBINFO='-O1 -g1' \
        -DBACKPLATE_SANITIZE=ON -DBACKPLATE_DESK="$2" -DCMAKE_UNITY_BUILD="$3" &&
        cmake --build "$1"
}
build "$1" "$2" ON && exit 0
echo "Not in groups: add what meets to tests/tools/compiled_alone.cmake. Each file alone:"
build "$1" "$2" OFF

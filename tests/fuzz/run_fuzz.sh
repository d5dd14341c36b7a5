#!/bin/sh
# Bounded fuzzing of the list readers and the classifier under the address and undefined sanitizers.
#   run_fuzz.sh BUILD_DIR [SECONDS]     seconds for each of the two programs (30)
# Every input that once failed stands in tests/fuzz/kept and is tried first. A new failure is left in
# BUILD_DIR/found; what makes it small again: PROGRAM -minimize_crash=1 FILE.
set -eu
root=$(cd "$(dirname "$0")/../.." && pwd)
build=$1
seconds=${2:-30}
cmake -S "$root" -B "$build" -G Ninja -DCMAKE_CXX_COMPILER=clang++-14 -DCMAKE_C_COMPILER=clang-14 \
    -DCMAKE_CXX_COMPILER_LAUNCHER=ccache -DCMAKE_BUILD_TYPE=RelWithDebInfo \
    -DCMAKE_CXX_FLAGS_RELWITHDEBINFO='-O1 -g1' -DBACKPLATE_FUZZ=ON -DBACKPLATE_STRICT=OFF \
    -DBACKPLATE_DESK=OFF >/dev/null
cmake --build "$build" --target list_fuzz classify_fuzz >"$build/build.log" 2>&1 ||
    { tail -30 "$build/build.log"; exit 1; }
rm -rf "$build/corpus" "$build/found"
mkdir -p "$build/corpus" "$build/found"
python3 "$root/tests/fuzz/make_corpus.py" "$build/corpus"
judged=0
for part in list classify; do
    "$build/${part}_fuzz" -seed=1 -max_total_time="$seconds" -timeout=10 -rss_limit_mb=1500 \
        -max_len=20000 -print_final_stats=1 -artifact_prefix="$build/found/${part}-" \
        "$build/corpus/$part" "$root/tests/fuzz/kept/$part" >"$build/$part.log" 2>&1 || {
        tail -40 "$build/$part.log"
        echo "$part: an input failed, see $build/found"
        exit 1
    }
    runs=$(sed -n 's/^stat::number_of_executed_units: *//p' "$build/$part.log")
    echo "$part: $runs inputs"
    judged=$((judged + runs))
done
[ "$judged" -gt 1000 ] || { echo "only $judged inputs were tried"; exit 1; }
echo "$judged inputs judged, no failure"

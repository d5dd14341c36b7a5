#!/bin/sh
# Installs what is missing, builds, and runs every gating test.
#   tests/run.sh           everything that gates a change
#   tests/run.sh --quick   build and unit tests
#   tests/run.sh --long    everything, and the slow rest
set -u
root=$(cd "$(dirname "$0")/.." && pwd)
mode=${1:-}
case "$mode" in ""|--quick|--long) ;; *) echo "usage: tests/run.sh [--quick|--long]"; exit 2 ;; esac
. "$root/tests/tools/install.sh"
# shellcheck disable=SC2086
need_packages $build_packages $test_packages

build=${BACKPLATE_TEST_BUILD:-$root/build/tests}
mkdir -p "$build"
passed=0
failed=0

# stage NAME SECONDS COMMAND...: runs one stage, keeps its log, says how it ended.
stage() {
    name=$1; limit=$2; shift 2
    started=$(date +%s)
    if timeout "$limit" "$@" >"$build/$name.log" 2>&1; then
        passed=$((passed + 1))
        echo "passed  $name ($(($(date +%s) - started)) s): $(grep -E 'judged|passed|tests|faults|lines' "$build/$name.log" | tail -1)"
    else
        status=$?
        failed=$((failed + 1))
        echo "FAILED  $name (status $status, log $build/$name.log)"
        tail -40 "$build/$name.log"
    fi
}

# Locales that a comma, another script or a dotless i would betray; a missing one fails its tests.
export LOCPATH="$build/locales"
mkdir -p "$LOCPATH"
for locale in de_DE tr_TR ar_EG; do
    [ -d "$LOCPATH/$locale.UTF-8" ] ||
        localedef -i "$locale" -f UTF-8 "$LOCPATH/$locale.UTF-8" >/dev/null 2>&1 || true
done


stage configure 300 cmake -S "$root" -B "$build" -G Ninja -DCMAKE_CXX_COMPILER_LAUNCHER=ccache
stage build 1800 cmake --build "$build"
[ "$failed" = 0 ] || { echo "$passed passed, $failed failed"; exit 1; }
stage unit 600 ctest --test-dir "$build" -L unit -j2 --no-tests=error --output-on-failure
if [ "$mode" != --quick ]; then
    jobs="$build/backplate"
    stage style 120 python3 "$root/tests/tools/check_style.py"
    stage layers 300 python3 "$root/tests/tools/check_layers.py" "$build"
    stage worked_jobs 600 sh "$root/tests/tools/run_worked_jobs.sh" "$jobs"
    scenarios="$root/tests/bid_scenarios/check_bid_scenarios.py"
    twins="$root/tests/bid_scenarios/check_twins.py"
    stage bid_scenarios 300 python3 "$scenarios" "$jobs"
    stage bid_scenarios_planted 60 python3 "$scenarios" "$jobs" --self-test
    stage twins 400 python3 "$twins" "$jobs"
    stage twins_planted 100 python3 "$twins" "$jobs" --self-test
    sweep="$root/tests/rule_sweep/check_rule_sweep.py"
    stage rule_sweep_planted 120 python3 "$sweep" "$build/tests/rule_sweep" --self-test
    stage rule_sweep 600 python3 "$sweep" "$build/tests/rule_sweep"
    stage wrong_requests 300 python3 "$root/tests/tools/check_wrong_requests.py" "$jobs"
    mixes="$root/tests/mix_cases/check_mix.py"
    stage mixes 120 python3 "$mixes" "$jobs"
    stage mixes_planted 60 python3 "$mixes" "$jobs" --self-test
    oracle="$root/tests/mix_cases/check_mix_oracle.py"
    stage mix_oracle 600 python3 "$oracle" "$jobs"
    stage mix_oracle_planted 120 python3 "$oracle" "$jobs" --self-test
    arranged="$root/tests/mix_cases/check_arranged_mix.py"
    stage arranged_mix 300 python3 "$arranged" "$build/tests/arranged_mix"
    stage arranged_mix_planted 60 python3 "$arranged" "$build/tests/arranged_mix" --self-test
    stage panel_bound 300 python3 "$root/tests/mix_cases/check_panel_bound.py" "$jobs"
    properties="$root/tests/mix_cases/check_mix_properties.py"
    stage mix_properties 300 python3 "$properties" "$jobs"
    stage mix_properties_planted 60 python3 "$properties" "$jobs" --self-test
    wrong_jobs="$root/tests/tools/check_wrong_jobs.py"
    stage wrong_jobs 300 python3 "$wrong_jobs" "$jobs"
    stage saved_jobs 300 python3 "$root/tests/tools/check_saved_jobs.py" "$jobs"
    story="$root/tests/tools/check_story.py"
    stage story 120 python3 "$story" "$jobs"
    stage story_planted 120 python3 "$story" "$jobs" --self-test
    stage wrong_jobs_planted 60 python3 "$wrong_jobs" "$jobs" --self-test
    stage wrong_tables 300 python3 "$root/tests/tools/check_wrong_tables.py" "$jobs"
    stage wrong_price_lists 300 python3 "$root/tests/tools/check_wrong_price_lists.py" "$jobs"
    takeoff="$root/tests/tools/check_takeoff.py"
    stage takeoff 300 python3 "$takeoff" "$jobs"
    stage takeoff_planted 300 python3 "$takeoff" "$jobs" --self-test
    stage takeoff_cost 400 /usr/bin/python3 "$root/tests/bench/takeoff_bench.py" "$jobs"
    stage fuzz 240 sh "$root/tests/fuzz/run_fuzz.sh" "$build/sanitized/fuzz"
    stage own_platform 120 python3 "$root/tests/tools/check_own_platform.py" "$jobs"
    stage units_planted 60 /usr/bin/python3 "$root/tests/tools/check_units.py" "$jobs" --self-test
    stage units 300 /usr/bin/python3 "$root/tests/tools/check_units.py" "$jobs"
    stage demo_workbook 300 sh "$root/tests/tools/check_demo_workbook.sh" "$jobs" "$build/demo_workbook"
    drawing="$root/tests/tools/check_drawing.py"
    stage drawing_planted 60 python3 "$drawing" "$jobs" --self-test
    stage drawing 300 python3 "$drawing" "$jobs"
    stage client_edition 120 python3 "$root/tests/tools/check_client_edition.py" "$jobs"
    stage policy_workbook 300 sh "$root/tests/tools/check_policy_workbook.sh" "$jobs" \
        "$build/policy_workbook"
    stage workbook 600 ctest --test-dir "$build" -L workbook --no-tests=error --output-on-failure
    stage desk 600 ctest --test-dir "$build" -L desk --no-tests=error --output-on-failure
    labels="$root/tests/desk/check_labels.py"
    stage labels 60 python3 "$labels"
    stage labels_planted 60 python3 "$labels" --self-test
    stage sanitizer_build 1800 sh "$root/tests/tools/build_sanitized.sh" "$build/sanitized" OFF
    LSAN_OPTIONS="suppressions=$root/tests/tools/leaks_of_libraries.txt:print_suppressions=0"
    export LSAN_OPTIONS
    stage sanitizer_unit 1500 ctest --test-dir "$build/sanitized" -L unit -j2 --no-tests=error \
        --output-on-failure
fi
if [ "$mode" = --long ]; then
    # the window with the checks inside: its build alone outlasts the gate
    stage sanitizer_desk_build 3600 sh "$root/tests/tools/build_sanitized.sh" "$build/sanitized" ON
    stage sanitizer_desk 6000 ctest --test-dir "$build/sanitized" -L desk --no-tests=error \
        --output-on-failure
    stage estimate_instructions 1200 python3 "$root/tests/bench/estimate_instructions.py" "$jobs" \
        "$build/tests/estimate_bench"
    stage planted_layers 900 python3 "$root/tests/tools/check_layers.py" --planted "$build"
    stage planted_style 300 python3 "$root/tests/tools/check_style.py" --planted
    stage mix_oracle_long 3000 python3 "$oracle" "$jobs" --seed 100001 --count 10000
    stage headers_alone 900 python3 "$root/tests/tools/check_style.py" --headers
fi
echo "$passed passed, $failed failed"
[ "$failed" = 0 ]

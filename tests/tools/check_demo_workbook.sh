#!/bin/sh
# The demo request as a workbook, recalculated, perturbed and compared with its estimate.
set -eu
program=$1
work=$2
root=$(cd "$(dirname "$0")/../.." && pwd)
rm -rf "$work"
mkdir -p "$work"
"$program" estimate "$root/demo/requests/kelp_barn.json" --library :starter: --json >"$work/estimate.json"
"$program" quote "$root/demo/requests/kelp_barn.json" --library :starter: --workbook "$work/quote.xlsx"
/usr/bin/python3 "$root/tests/tools/check_workbook.py" "$work/quote.xlsx" \
    --estimate "$work/estimate.json" --perturb \
    --engine "$(dirname "$program")/tests/frozen_price $root/demo/requests/kelp_barn.json"

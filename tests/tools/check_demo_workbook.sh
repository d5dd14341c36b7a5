#!/bin/sh
# Demo requests (one box; several boxes) as workbooks, recalculated, perturbed and compared with
# their estimates.
set -eu
program=$1
work=$2
root=$(cd "$(dirname "$0")/../.." && pwd)
rm -rf "$work"
mkdir -p "$work"
for name in kelp_barn tide_gates; do
    request=$root/demo/requests/$name.json
    "$program" estimate "$request" --library :starter: --json >"$work/$name.json"
    "$program" quote "$request" --library :starter: --workbook "$work/$name.xlsx"
    /usr/bin/python3 "$root/tests/tools/check_workbook.py" "$work/$name.xlsx" \
        --estimate "$work/$name.json" --perturb \
        --engine "$(dirname "$program")/tests/frozen_price $request"
done

#!/bin/sh
# Whole jobs against the work by hand, and the checkers against planted faults.
#   run_worked_jobs.sh PROGRAM        exit 0: all as worked
set -eu
program=${1:?path of the backplate program}
here=$(cd "$(dirname "$0")" && pwd)
tree=$here/../..
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
failed=0

python3 "$here/check_worked_job.py" "$program" || failed=1
python3 "$here/check_worked_job.py" "$program" --self-test || failed=1
"$program" --library :starter: estimate "$tree/tests/worked_jobs/wall_box/request.json" --json \
  > "$work/wall_box.json" || failed=1
python3 "$here/check_estimate.py" "$work/wall_box.json" --self-test \
  --parts "$tree/demo/prices" --rules "$tree/catalog/starter/rules" || failed=1
exit $failed

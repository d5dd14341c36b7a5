#!/bin/sh
# The second bid: a job of last year, a supplier's new price list, two parts gone, 30 % more points.
#   sh demo/story.sh PROGRAM FOLDER
# plays it with the program in the folder, which is made new; all that was written stays there.
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
program=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
rm -rf "$2/story.bpl" "$2/prices_2025" "$2/sent_2025" "$2/sent_2026" "$2/as_sent"
mkdir -p "$2/prices_2025"
cp "$root"/demo/story/* "$2"
# Last year's price book: the demo prices, every day a year earlier.
for file in "$root"/demo/prices/*.csv; do
    sed 's/,2026-\(..-..\),2027-/,2025-\1,2026-/' "$file" >"$2/prices_2025/$(basename "$file")"
done
cd "$2"

say() { printf '\n%s\n' "$*"; }
backplate() { "$program" --library story.bpl "$@"; }
# shown FILTER WORDS...: the command and what a sed filter leaves of its output.
shown() {
    filter=$1; shift
    printf '$ backplate %s\n' "$*"
    backplate "$@" >shown.txt
    sed -n "$filter" shown.txt
}
run() { shown p "$@"; }
# refused WORDS...: the command must end with status 1.
refused() {
    printf '$ backplate %s\n' "$*"
    backplate "$@" >shown.txt 2>&1 && return 1
    [ $? = 1 ] || return 1
    cat shown.txt
}
# keep FILE WORDS...: the result for scripts, into a file beside the story.
keep() { file=$1; shift; backplate "$@" --json >"$file"; }

echo "THE SECOND BID (demo data: client, makers, parts and prices are invented)"
echo "Every command below is given with --library story.bpl."

say "Last year: the prices of 2025, an enquiry of 72 points; estimated, sent, won."
run parts import prices_2025
run jobs save last_year.json --date 2025-11-12
run jobs send 1 --date 2025-11-19 --into sent_2025
run jobs outcome 1 won --date 2025-12-08
keep part_before.json parts show QS-300 QS-437 QS-422 QS-441

say "This year Quillmarsh sends a new list: most articles dearer, one withdrawn, one not listed any
more, one with a slipped decimal mark. What is left out shall not be chosen any more."
shown '/^discontinued/,$p' parts import quillmarsh_2027.csv --map quillmarsh_map.json \
    --discontinue-gone
keep part_after.json parts show QS-300 QS-437 QS-422 QS-441

say "The client of last year asks for a second hall. The job that is most alike serves as template."
run jobs similar second_bid.json
run jobs copy 1 --title "Oyster purification hall, tanks 7 to 14"
keep values.json jobs confirm 2
refused jobs send 2

say "With 30 % more points it is another request; what was changed counts as confirmed."
run jobs save second_bid.json --number 2
keep estimate.json estimate job:2
shown '/^Findings/,/^$/p' estimate job:2

say "Where does the other price come from? Line by line beside the job as it was sent:"
run jobs reprice 2 --against job:1
keep difference.json jobs reprice 2 --against job:1

say "And in short:"
shown '/^hours .*all:/p;/^hours/!p' jobs show 2 --difference job:1 1

say "Suppliers are asked for what has no valid price; the rest of the template is looked through."
run quote job:2 --workbook second_bid.xlsx --enquiry ask.xlsx
run jobs confirm 2 /spare /commercial /boxes/0/site
run jobs confirm 2 --all
run jobs send 2 --into sent_2026

say "Quillmarsh calls the list back: the import is undone, the old prices hold again."
run library changes
number=$(backplate library changes | sed -n 's/^ *\([0-9]*\) .*price list.*/\1/p')
run library undo "$number"
keep part_undone.json parts show QS-300 QS-437 QS-422 QS-441
shown '1p;$p' jobs reprice 2

say "What was sent stays what was sent."
run jobs show 1 --as-sent as_sent
run jobs list

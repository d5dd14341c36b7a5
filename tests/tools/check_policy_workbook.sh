#!/bin/sh
# Three price policies as imported rule tables: a batch of boxes priced, every formula of its
# estimate evaluated, its workbook recalculated and compared.
#   check_policy_workbook.sh PROGRAM WORKDIR
set -eu
program=$1
work=$2
root=$(cd "$(dirname "$0")/../.." && pwd)
starter=$root/catalog/starter/rules
rm -rf "$work"
mkdir -p "$work"

# policy NAME REQUEST POLICY_EDITS CHARGE_EDITS: edits are sed scripts on the starter's rows.
policy() {
    name=$1; request=$2
    mkdir "$work/$name"
    sed -e "$3" "$starter/price_policy.csv" >"$work/$name/price_policy.csv"
    sed -e "$4" "$starter/charges.csv" >"$work/$name/charges.csv"
    ! cmp -s "$starter/price_policy.csv" "$work/$name/price_policy.csv"
    library=$work/$name.bpl
    for table in price_policy charges; do
        "$program" rules import "$work/$name/$table.csv" --library "$library" >/dev/null
    done
    "$program" estimate "$request" --library "$library" --json >"$work/$name.json"
    "$program" quote "$request" --library "$library" --workbook "$work/$name.xlsx"
    "$program" rules export "$work/$name.rules" --library "$library" >/dev/null
    "$program" parts export "$work/$name.parts" --library "$library" >/dev/null
    python3 "$root/tests/tools/check_estimate.py" "$work/$name.json" \
        --rules "$work/$name.rules" --parts "$work/$name.parts"
    /usr/bin/python3 "$root/tests/tools/check_workbook.py" "$work/$name.xlsx" \
        --estimate "$work/$name.json"
}

cat >"$work/batch.json" <<'REQUEST'
{ "format": "backplate-request/1",
  "job": { "title": "Three brine pumps", "date": "2026-11-24", "valid_days": 120 },
  "scope": { "transport": "included", "packing": "included", "site_days": 1.5, "languages": 2 },
  "boxes": [ { "name": "BP1", "quantity": 3,
      "points": [ { "signal": "DI", "count": 18 }, { "signal": "DO", "count": 9, "via": "relay" },
                  { "signal": "AI_MA", "count": 5 } ] } ],
  "circumstances": ["unit_prices"],
  "commercial": { "delivery_term": "DDP", "concession_percent": 2.5, "tax_percent": 19 } }
REQUEST
sed -e 's/"valid_days"/"currency": "USD", "valid_days"/' "$work/batch.json" >"$work/dollars.json"

charges='s/^packing_material,0.00/packing_material,45.00/;s/^carriage,0/carriage,1.7/
s/^insurance,0/insurance,0.3/;s/^import_duty,0/import_duty,3.7/;s/^warranty,0/warranty,1/'
policy by_class "$work/batch.json" \
    's/^overhead_style,percent/overhead_style,by_class/;s/^margin_style,one/margin_style,by_class/
s/^overhead_material,12/overhead_material,7/;s/^overhead_labour,12/overhead_labour,31/
s/^margin_material,20/margin_material,12.5/;s/^margin_labour,20/margin_labour,27/
s/^pack_charge,need/pack_charge,pack/;s/^small_order_surcharge,0.00/small_order_surcharge,12.50/
s/^escalation_percent_per_month,0/escalation_percent_per_month,0.5/' "$charges"
policy additive "$work/dollars.json" 's/^percent_order,compound/percent_order,additive/' "$charges"
policy per_hour "$work/batch.json" \
    's/^overhead_style,percent/overhead_style,per_hour/;s/^overhead_per_hour,0/overhead_per_hour,21.35/' \
    's/^financing,0/financing,0.8/'
echo "judged 3 policies"

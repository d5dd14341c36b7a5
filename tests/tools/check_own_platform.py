#!/usr/bin/env python3
"""A shop's own platform from its data sheet to an estimate, in a fresh library, by the built program.

    check_own_platform.py PROGRAM

demo/own_platform: data sheet, the template filled in from it, a request of 30 points. The expected
counts are computed here by hand from request and data sheet: spare 20 % of the points used, upward
(common practice, no source), one module after the other.
"""
import csv
import json
import subprocess
import sys
import tempfile
from pathlib import Path

FOLDER = Path(__file__).resolve().parents[2] / "demo/own_platform"

# ceil(14 x 1.2) = 17 channels on modules of 16: 2; ceil(8 x 1.2) = 10 on 16: 1;
# ceil(4 x 1.2) = 5 on 4: 2; ceil(2 x 1.2) = 3 on 4: 1 each of RTD and AO.
MODULES = {"TW-C1": 1, "TW-DI16": 2, "TW-DO16": 1, "TW-AI4": 2, "TW-RT4": 1, "TW-AO4": 1}
# A front connector per module, an end cover for the one station.
ACCESSORIES = {"TW-CON20": 7, "TW-END": 1}
# List less 20 %: 88.00 x 0.8, and for two of them.
DI16_NET, DI16_LINE = "70.40", "140.80"


class Shop:
    def __init__(self, program, folder):
        self.program, self.library, self.faults = program, folder / "shop.bpl", []

    def run(self, *words):
        return subprocess.run([self.program, *words, "--library", str(self.library)],
                              capture_output=True, text=True, timeout=60)

    def expect(self, right, text):
        if not right:
            self.faults.append(text)

    def estimate(self, request):
        run = self.run("estimate", str(request), "--json")
        self.expect(run.returncode == 0, f"estimate: status {run.returncode}: {run.stderr}")
        return json.loads(run.stdout)


def modules_of(estimate):
    counts = {}
    for module in estimate["boxes"][0]["modules"]:
        counts[module["part"]] = counts.get(module["part"], 0) + module["quantity"]
    return counts


def check_template_kept(shop):
    """The filled file has the columns of the template, which may have grown since."""
    template = shop.run("parts", "template", "--platform", "rill").stdout.splitlines()
    heading = next(line for line in template if line.startswith("part,"))
    filled = (FOLDER / "rill.csv").read_text(encoding="utf-8").splitlines()
    mine = next(line for line in filled if line.startswith("part,"))
    shop.expect(mine == heading + ",demo", "rill.csv has other columns than the template")


def check_data_sheet(shop):
    """What the program shows of a part is what the data sheet states."""
    shown = json.loads(shop.run("parts", "show", "TW-AI4", "--json").stdout)["parts"][0]
    fields = {field["field"]: field["value"] for field in shown["fields"]}
    for field, value in {"width_mm": "18", "own_a": "0.045", "bus_ma": "80", "places": "1",
                         "groups": "AI_MA|AI_V*4@0.023", "list": "196.00"}.items():
        shop.expect(fields[field] == value, f"TW-AI4 {field}: {fields[field]}, expected {value}")
    shop.expect(shown["net"] == "156.80", f"TW-AI4 net {shown['net']}, expected 156.80")


def check_estimate(shop, estimate):
    shop.expect(estimate["buildable"], "not buildable")
    found = modules_of(estimate)
    shop.expect(found == MODULES, f"modules {found}, expected {MODULES}")
    bill = {line["part"]: line for line in estimate["bill"] if line["part"]}
    for part, quantity in ACCESSORIES.items():
        shop.expect(part in bill and bill[part]["quantity"] == quantity,
                    f"{part}: expected {quantity} on the bill")
    line = bill["TW-DI16"]
    shop.expect((line["unit_net"], line["line_net"]) == (DI16_NET, DI16_LINE),
                f"TW-DI16 {line['unit_net']}, {line['line_net']}")


def check_allowance(shop, folder):
    """The analogue output module as an allowance: kind, channels, price, width and heat by hand."""
    path = folder / "allowance.csv"
    path.write_text("part,kind,description,platform,list,width_mm,own_w,groups,bus_ma,accessory,"
                    "allowance\nTW-AO4,module,4 outputs,rill,250.00,20,1.5,AO_MA*4@0.023,85,"
                    "TW-CON20,yes\n", encoding="utf-8")
    shop.expect(shop.run("parts", "import", str(path)).returncode == 0, "allowance not imported")
    checked = shop.run("parts", "check")
    shop.expect(checked.returncode == 0, f"parts check: {checked.stdout}")
    shop.expect("TW-AO4 is an allowance" in checked.stdout, "the allowance is not remarked")
    estimate = shop.estimate(FOLDER / "request.json")
    shop.expect(modules_of(estimate) == MODULES, "an estimate with an allowance differs in modules")
    shown = json.loads(shop.run("parts", "show", "TW-AO4", "--json").stdout)["parts"][0]
    own_a = next(f["value"] for f in shown["fields"] if f["field"] == "own_a")
    # 1.5 W / 24 V = 0.0625 A
    shop.expect(own_a == "0.0625", f"own_a {own_a}, expected 0.0625")


def check_gaps(shop, folder):
    """A width taken out is told in words."""
    rows = list(csv.reader((FOLDER / "rill.csv").open(encoding="utf-8", newline="")))
    heading = next(row for row in rows if row[0] == "part")
    for row in rows:
        if row[0] == "TW-DI16":
            row[heading.index("width_mm")] = ""
    path = folder / "gap.csv"
    with path.open("w", encoding="utf-8", newline="") as out:
        csv.writer(out).writerows(rows)
    shop.run("parts", "import", str(path))
    checked = shop.run("parts", "check")
    shop.expect(checked.returncode == 1, f"parts check: status {checked.returncode}, expected 1")
    shop.expect("TW-DI16 has no width: no room can be found for it" in checked.stdout,
                f"the gap is not told: {checked.stdout}")


def main():
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        shop = Shop(sys.argv[1], folder)
        check_template_kept(shop)
        imported = shop.run("parts", "import", str(FOLDER / "rill.csv"))
        shop.expect(imported.returncode == 0 and imported.stdout.startswith("14 new"),
                    f"import: {imported.stdout}{imported.stderr}")
        checked = shop.run("parts", "check")
        shop.expect(checked.returncode == 0, f"parts check: {checked.stdout}")
        check_data_sheet(shop)
        check_estimate(shop, shop.estimate(FOLDER / "request.json"))
        check_allowance(shop, folder)
        check_gaps(shop, folder)
    for fault in shop.faults:
        print(fault)
    print(f"own platform judged, {len(shop.faults)} faults")
    return 1 if shop.faults else 0


if __name__ == "__main__":
    sys.exit(main())

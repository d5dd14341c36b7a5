#!/usr/bin/env python3
"""Plays demo/story.sh, the second bid, and adds up what it tells in exact decimals, from the two
estimates, the supplier's list and the printed lines, by code of its own.

    check_story.py PROGRAM [--self-test]

--self-test plants a fault in every part of what was told and must find each.
Exit 0: sound, 1: faults, 3: the story could not be played."""
import copy
import csv
import json
import re
import subprocess
import sys
import tempfile
from collections import Counter
from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
OLD_AFTER_DAYS = 180  # limit of the finding PRICE_OLD
FLOOR = 200
GONE = {"QS-422": "QS-421", "QS-441": "not named"}  # with their successors, as the story says


def cents(amount):
    return amount.quantize(Decimal("0.01"), ROUND_HALF_UP)


def read_json(path):
    return json.loads(path.read_text(encoding="utf-8"), parse_float=Decimal)


def price_list(path):
    """Article: its row, of the supplier's file below its heading."""
    with open(path, newline="", encoding="utf-8") as file:
        rows = list(csv.reader(file, delimiter=";"))
    head = next(i for i, row in enumerate(rows) if "Article" in row)
    return {row[0]: dict(zip(rows[head], row)) for row in rows[head + 1:]}


def fields(parts):
    return {part["part"]: {each["field"]: each["value"] for each in part["fields"]}
            | {"net": part["net"]} for part in parts["parts"]}


def played(program, folder):
    """What the story told and left behind."""
    done = subprocess.run(["sh", str(ROOT / "demo/story.sh"), program, str(folder)],
                          capture_output=True, text=True, check=False, timeout=240)
    if done.returncode:
        print(f"the story cannot be played: status {done.returncode}\n{done.stdout[-2000:]}"
              f"{done.stderr[-2000:]}", file=sys.stderr)
        sys.exit(3)
    sent = folder / "sent_2025"
    return {"text": done.stdout,
            "before": read_json(sent / "job-1-revision-1-estimate.json"),
            "after": read_json(folder / "sent_2026/job-2-revision-1-estimate.json"),
            "open": read_json(folder / "estimate.json"),
            "values": read_json(folder / "values.json"),
            "difference": read_json(folder / "difference.json"),
            "list": price_list(folder / "quillmarsh_2027.csv"),
            "parts": [fields(read_json(folder / f"part_{when}.json"))
                      for when in ("before", "after", "undone")],
            "sent": {path.name: path.read_bytes() for path in sorted(sent.iterdir())},
            "as_sent": {path.name: path.read_bytes()
                        for path in sorted((folder / "as_sent").iterdir())}}


class Judge:
    def __init__(self, told):
        self.told, self.judged, self.faults = told, 0, []

    def check(self, holds, what):
        self.judged += 1
        if not holds:
            self.faults.append(what)

    def equal(self, found, expected, what):
        self.check(found == expected, f"{what}: {found!r}, expected {expected!r}")

    def all(self):
        for part in (self.points, self.lines, self.chain, self.table, self.gone, self.prices,
                     self.inherited, self.undone, self.sent):
            part()
        return self

    def finding(self, code, estimate="after"):
        found = [each for each in self.told[estimate]["findings"] if each["code"] == code]
        self.check(len(found) <= 1, f"{code} stands more than once")
        return found[0] if found else None

    def points(self):
        """30 % more points, rounded up by signal, one or two more than the plain share."""
        used = [sum(point["used"] for point in self.told[side]["points"])
                for side in ("before", "after")]
        more = -(-used[0] * 13 // 10)
        self.check(more <= used[1] <= more + 2, f"points {used}, expected 30 % more")
        self.check(f"all: {used[0]} used → {used[1]} used" in self.told["text"],
                   "the sum of points is not told")

    def lines_of(self, side, table):
        """Amount, quantity and unit price by item, of an estimate."""
        lines = {}
        for line in self.told[side][table]:
            if table == "bill":
                item = f"{line['part'] or line['description']}, {line['role']}"
                row = (Decimal(line["line_all"]), Decimal(line["quantity"]), line["unit_net"])
            else:
                item = line["activity"]
                row = (Decimal(line["cost"]), Decimal(line["hours"]), line["rate"])
            lines.setdefault(item, []).append(row)
        return lines

    def lines(self):
        """The changed lines are those that differ between the estimates, with their amounts."""
        for table in ("bill", "labour"):
            sides = [self.lines_of(side, table) for side in ("before", "after")]
            expected = Counter()
            for item in sides[0] | sides[1]:
                old, new = (list(side.get(item, [])) for side in sides)
                for i in range(max(len(old), len(new))):
                    pair = tuple(rows[i] if i < len(rows) else (Decimal(0), Decimal(0), None)
                                 for rows in (old, new))
                    if pair[0] != pair[1]:
                        expected[(item, pair[0][0], pair[1][0])] += 1
            told = Counter((line["item"], Decimal(line["before"]), Decimal(line["after"]))
                           for line in self.told["difference"][table])
            self.equal(told - expected, Counter(), f"{table}: lines that did not change so")
            self.equal(expected - told, Counter(), f"{table}: lines not told")
            for line in self.told["difference"][table]:
                self.line(line)

    def line(self, line):
        before, after = Decimal(line["before"]), Decimal(line["after"])
        self.equal(Decimal(line["difference"]), after - before, f"{line['item']}: difference")
        self.equal(Decimal(line["by_quantity"]) + Decimal(line["by_price"]), after - before,
                   f"{line['item']}: by quantity and by price")
        for side, amount in (("before", before), ("after", after)):
            if line[f"unit_{side}"]:
                self.equal(cents(Decimal(line[f"quantity_{side}"]) * Decimal(line[f"unit_{side}"])),
                           amount, f"{line['item']}: quantity × unit {side}")

    def chain(self):
        told = self.told["difference"]
        total = sum((Decimal(line["difference"])
                     for line in told["bill"] + told["labour"] + told["chain"]), Decimal(0))
        prices = [Decimal(self.told[side]["price"]["price"]) for side in ("before", "after")]
        self.equal(Decimal(told["difference"]), total, "the sum of all lines")
        self.equal(prices[1] - prices[0], total, "the difference of the prices")
        for step in told["chain"]:
            sign = -1 if step["name"] == "concession" else 1
            for side in ("before", "after"):
                self.equal(Decimal(step[side]),
                           sign * Decimal(self.told[side]["price"][step["name"]]),
                           f"{step['name']} {side}")

    def table(self):
        """The printed lines: three amounts each, sums below bill and labour, the price last."""
        text = self.told["text"].split("reprice 2 --against job:1\n")[1].split("\nAnd in short")[0]
        amount = r"([+-]?\d+\.\d\d)"
        row = re.compile(rf"^ +{amount} +{amount} +{amount}  (.+)$")
        sums, whole = [Decimal(0)] * 3, [Decimal(0)] * 3
        rows = [match.groups() for match in map(row.match, text.splitlines()) if match]
        told = self.told["difference"]
        quiet = sum(step["before"] == step["after"] == "0.00" for step in told["chain"])
        self.equal(len(rows), len(told["bill"]) + len(told["labour"]) + len(told["chain"]) - quiet
                   + 3, "printed lines")
        for before, after, difference, words in rows:
            amounts = [Decimal(each) for each in (before, after, difference)]
            self.equal(amounts[1] - amounts[0], amounts[2], f"printed: {words}")
            if words.startswith("sum of"):
                self.equal(amounts, sums, f"printed: {words}")
                sums = [Decimal(0)] * 3
            elif words.startswith("price: the differences"):
                self.equal(amounts[2], whole[2], f"printed: {words}")
            else:
                sums = [one + other for one, other in zip(sums, amounts)]
                whole = [one + other for one, other in zip(whole, amounts)]

    def gone(self):
        """Parts of the old bill that the list withdraws or leaves out are named, and not built."""
        built = [{line["part"] for line in self.told[side]["bill"]} for side in ("before", "after")]
        offers = self.told["list"]
        maker = {part for part in built[0] if part and part.startswith("QS-")}
        gone = {part for part in maker
                if part not in offers or offers[part]["Status"] == "withdrawn"}
        self.equal(gone, set(GONE), "parts gone by the list")
        self.equal(gone & built[1], set(), "gone parts in the new bill")
        finding = self.finding("PART_GONE")
        self.check(finding is not None, "no finding names the gone parts")
        for part in gone if finding else ():
            said = finding["params"]
            named = [f"{said['part']} (discontinued, successor {said['successor']})"]
            named += said.get("further", "").split("; ")
            self.check(f"{part} (discontinued, successor {GONE[part]})" in named,
                       f"{part} is not named as gone: {named}")
            self.check(part in finding["text"], f"{part} is not in the text of the finding")
        for line in self.told["difference"]["bill"]:
            part = line["item"].split(",")[0]
            if part in gone:
                self.equal(line["change"], "gone", f"{part}: change")
                self.check(line["reason"] and line["reason"].startswith("discontinued"),
                           f"{part}: no reason")

    def prices(self):
        """The list's prices and days are those of the bill; old prices are named, new ones not."""
        today = self.told["after"]["request"]["job"]["date"]
        old = set()
        for line in self.told["after"]["bill"]:
            offer = self.told["list"].get(line["part"])
            if offer:
                self.equal((Decimal(line["list"]), line["price_date"]),
                           (Decimal(offer["List price EUR"]), offer["Valid from"]),
                           f"{line['part']}: price and day")
            if line["price_date"] and days(line["price_date"], today) > OLD_AFTER_DAYS:
                old.add(f"{line['part']}, {days(line['price_date'], today)} days")
        finding = self.finding("PRICE_OLD")
        named = set()
        if finding:
            named = set(finding["params"].get("further", "").split("; ")) - {""}
            named.add(f"{finding['params']['part']}, {finding['params']['age']} days")
        self.equal(named, old, "old prices named")
        self.check(old and not any(each.startswith("QS-") for each in old), f"old prices: {old}")
        slipped = [parts["QS-437"]["list"] for parts in self.told["parts"]]
        self.equal(len(set(slipped)), 1, "a slipped decimal mark was taken")

    def inherited(self):
        count = len(self.told["values"]["values"])
        self.check(f"{count} values to be confirmed" in self.told["text"], "values of the copy")
        for field in ("/spare", "/commercial", "/boxes/0/site"):
            self.check(any(value["field"] == field and value["asked_again"]
                           for value in self.told["values"]["values"]), f"{field} is not asked")
        stop = self.finding("INHERITED_UNCONFIRMED", "open")
        self.check(stop is not None and stop["severity"] == "stop", "no stop for copied values")
        counts = re.findall(r"\((\d+)\)", stop["params"]["places"]) if stop else []
        self.equal(sum(map(int, counts)), int(stop["params"]["count"]) if stop else None,
                   "copied values by place")
        self.check(self.finding("INHERITED_UNCONFIRMED") is None, "the stop stays")
        self.check("a stop forbids it" in self.told["text"], "sending was not refused")

    def undone(self):
        before, after, undone = self.told["parts"]
        self.equal(undone, before, "parts after the undo")
        self.check(after["QS-300"]["net"] != before["QS-300"]["net"], "the import changed nothing")
        for part in GONE:
            self.equal((before[part]["state"], after[part]["state"]), ("current", "discontinued"),
                       f"{part}: state")

    def sent(self):
        self.equal(len(self.told["sent"]), 6, "files sent")
        self.check(self.told["as_sent"] == self.told["sent"], "what was sent has changed")


def days(first, last):
    return (date.fromisoformat(last) - date.fromisoformat(first)).days


def plant_line(told):
    told["difference"]["bill"][1]["after"] = "461.49"


def plant_missing_line(told):
    del told["difference"]["labour"][3]


def plant_split(told):
    told["difference"]["labour"][0]["by_price"] = "0.01"


def plant_total(told):
    told["difference"]["difference"] = "5660.01"


def plant_chain(told):
    told["difference"]["chain"][0]["after"] = "70.48"


def plant_printed(told):
    """Another last digit in the first difference of a sum."""
    told["text"] = re.sub(r"(\+[\d,]+\.\d)(\d)(  sum)",
                          lambda found: found[1] + str((int(found[2]) + 1) % 10) + found[3],
                          told["text"], count=1)


def plant_points(told):
    told["after"]["points"][0]["used"] += 9


def plant_built_gone(told):
    told["after"]["bill"][3]["part"] = "QS-441"


def plant_unnamed_gone(told):
    for finding in told["after"]["findings"]:
        finding["params"].pop("further", None)


def plant_other_price(told):
    told["list"]["QS-300"]["List price EUR"] = "615.31"


def plant_young_price(told):
    for line in told["after"]["bill"]:
        if line["part"] == "KT-025":
            line["price_date"] = "2026-11-01"


def plant_slipped(told):
    told["parts"][1]["QS-437"]["list"] = "4260.00"


def plant_no_stop(told):
    told["open"]["findings"] = []


def plant_not_undone(told):
    told["parts"][2]["QS-300"]["list"] = "615.30"


def plant_sent(told):
    name = "job-1-revision-1-client.xlsx"
    told["as_sent"][name] = told["as_sent"][name][:-1] + b"x"


PLANTS = [each for name, each in sorted(globals().items()) if name.startswith("plant_")]


def self_test(told):
    missed = ["sound"] if Judge(told).all().faults else []
    for plant in PLANTS:
        changed = copy.deepcopy(told)
        plant(changed)
        if changed == told or not Judge(changed).all().faults:
            missed.append(plant.__name__)
    print(f"{len(PLANTS)} planted faults judged, missed: {', '.join(missed) or 'none'}")
    return 1 if missed else 0


def main():
    if len(sys.argv) not in (2, 3) or sys.argv[2:] not in ([], ["--self-test"]):
        print(__doc__, file=sys.stderr)
        return 2
    with tempfile.TemporaryDirectory() as folder:
        told = played(str(Path(sys.argv[1]).resolve()), Path(folder))
    if sys.argv[2:]:
        return self_test(told)
    judge = Judge(told).all()
    for fault in judge.faults:
        print(f"fault: {fault}")
    print(f"{judge.judged} statements of the story judged, {len(judge.faults)} faults")
    return 1 if judge.faults or judge.judged < FLOOR else 0


if __name__ == "__main__":
    sys.exit(main())

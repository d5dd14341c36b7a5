#!/usr/bin/env python3
"""No rule row is dead: a small change of every number of the starter rules moves an estimate.

check_rule_sweep.py SWEEP [--every N] [--list] [--self-test]

SWEEP is the program rule_sweep. It changes each numeric cell of the starter rules by a tenth, then
by one step of its last digit, within what the table accepts, and asks whether the JSON of any of
the requests of requests.json differs. Rows that nothing moves are dead, unless excused.csv names
them with a reason; at most 5 % of the rows may be excused. --every N takes every Nth cell, the
same ones each time. Exit 0: no dead row, 1: dead rows or refused requests, 2: usage."""
import argparse
import collections
import concurrent.futures
import csv
import json
import os
import subprocess
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
TREE = os.path.join(HERE, "..", "..")
sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(TREE, "tests", "bid_scenarios"))
from check_twins import patched  # noqa: E402

PARTS = 2
MOST_EXCUSED = 0.05
LEAST_CELLS = 500


def write_requests(folder):
    with open(os.path.join(TREE, "tests", "bid_scenarios", "cases", "twin_base.json"),
              encoding="utf-8") as file:
        base = json.load(file)
    with open(os.path.join(HERE, "requests.json"), encoding="utf-8") as file:
        requests = json.load(file)["requests"]
    for name, patch in requests.items():
        request = patch["alone"] if "alone" in patch else patched(base, patch)
        with open(os.path.join(folder, name + ".json"), "w", encoding="utf-8") as file:
            json.dump(request, file)


def excused():
    """(table, row or *) -> reason"""
    with open(os.path.join(HERE, "excused.csv"), newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    for row in rows:
        if not row["reason"]:
            raise ValueError("excused.csv: %(table)s/%(row)s lacks a reason" % row)
    return {(row["table"], row["row"]): row["reason"] for row in rows}


def run(program, tree, requests, every):
    """Lines of all parts, side by side."""
    def part(number):
        return subprocess.run([program, tree, requests, str(number), str(PARTS), str(every)],
                              capture_output=True, text=True, check=False)
    with concurrent.futures.ThreadPoolExecutor(PARTS) as pool:
        done = list(pool.map(part, range(PARTS)))
    for each in done:
        if each.returncode:
            raise RuntimeError(each.stderr)
    return [line.split("\t") for each in done for line in each.stdout.splitlines()]


class Rows:
    """A row is alive where one of its cells moves an estimate."""

    def __init__(self, lines):
        self.refused = sorted({(line[1], line[2]) for line in lines if line[0] == "refused"})
        self.cells = [line for line in lines if line[0] != "refused"]
        self.dead_cells = [line for line in self.cells if line[0] != "moves"]
        rows = collections.defaultdict(list)
        for line in self.cells:
            rows[(line[1], line[2])].append(line[0])
        self.count = len(rows)
        self.dead = sorted(row for row, kinds in rows.items() if set(kinds) & {"dead", "fixed"})


def report(rows, reasons, all_cells, listing):
    faults = ["request %s is refused: %s" % row for row in rows.refused]
    unexcused = collections.defaultdict(list)
    used = set()
    for table, row in rows.dead:
        if (table, row) in reasons:
            used.add((table, row))
        else:
            cells = [cell[3] for cell in rows.dead_cells if (cell[1], cell[2]) == (table, row)]
            unexcused[table].append("%s (%s)" % (row, ", ".join(cells)))
    for table, names in sorted(unexcused.items()):
        faults.append("table %s, %d dead rows: %s" % (table, len(names), "; ".join(names)))
    if all_cells:
        faults += ["excused.csv: %s/%s is not dead" % row for row in sorted(set(reasons) - used)]
        if len(rows.cells) < LEAST_CELLS:
            faults.append("only %d cells" % len(rows.cells))
    if len(used) > MOST_EXCUSED * rows.count:
        faults.append("%d of %d rows are excused, at most 5 %%" % (len(used), rows.count))
    if listing:
        for cell in rows.cells:
            print("\t".join(cell))
    for text in faults:
        print("fault: " + text)
    print("%d cells of %d rows judged, %d rows dead, %d excused, %d requests refused" % (
        len(rows.cells), rows.count, len(rows.dead), len(used), len(rows.refused)))
    return 1 if faults else 0


def self_test(program):
    """One request that only counts inputs: rows of outputs must come out dead, those of inputs
    must not."""
    with tempfile.TemporaryDirectory() as folder:
        with open(os.path.join(folder, "inputs.json"), "w", encoding="utf-8") as file:
            json.dump({"format": "backplate-request/1", "job": {"date": "2026-11-24"},
                       "boxes": [{"points": [{"signal": "DI", "count": 9}]}]}, file)
        rows = Rows(run(program, TREE, folder, 7))
    judged = {(cell[1], cell[2]): cell[0] for cell in rows.cells}
    outputs = [row for row in judged if row[0] in ("terminals", "wires") and
               row[1].startswith(("DO", "AO"))]
    missed = ["%s/%s" % row for row in outputs if judged[row] != "dead"]
    if not outputs or not any(kind == "moves" for kind in judged.values()):
        missed.append("no row to judge by")
    for row in missed:
        print("fault: not found dead: " + row)
    print("%d planted faults not found" % len(missed))
    return 1 if missed else 0


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("--every", type=int, default=1)
    parser.add_argument("--list", action="store_true")
    parser.add_argument("--self-test", action="store_true")
    given = parser.parse_args()
    if given.self_test:
        return self_test(given.program)
    with tempfile.TemporaryDirectory() as folder:
        write_requests(folder)
        rows = Rows(run(given.program, TREE, folder, given.every))
    return report(rows, excused(), given.every == 1, given.list)


if __name__ == "__main__":
    sys.exit(main())

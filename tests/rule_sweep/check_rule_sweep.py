#!/usr/bin/env python3
"""No rule row is dead: a small change of every number of the starter rules moves an estimate.

check_rule_sweep.py SWEEP [--every N] [--tables TABLE,TABLE] [--list] [--self-test]

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


def rows_of(table, where):
    """Active rows of a starter table whose cells are among those of `where`."""
    path = os.path.join(TREE, "catalog", "starter", "rules", table + ".csv")
    with open(path, newline="", encoding="utf-8") as file:
        return [row for row in csv.DictReader(file) if row["active"] == "yes" and
                all(row[column] in cells for column, cells in where.items())]


def filled(entry, row):
    """The entry with {column} replaced by the cells of a row; a text "={column}" is a number."""
    if isinstance(entry, dict):
        return {filled(key, row): filled(value, row) for key, value in entry.items()}
    if isinstance(entry, list):
        return [filled(value, row) for value in entry]
    if not isinstance(entry, str):
        return entry
    number = entry.startswith("={")
    for column, cell in row.items():
        entry = entry.replace("{%s}" % column, cell)
    return json.loads(entry[1:]) if number else entry


def each_row(name, entry):
    """A template with "each" stands for one request per row, or per new value of the column "by"."""
    if "each" not in entry:
        return {name: entry}
    result = {}
    own = {key: value for key, value in entry.items() if key not in ("each", "where", "by")}
    for row in rows_of(entry["each"], entry.get("where", {})):
        result.setdefault("%s %s" % (name, row[entry.get("by", "row")]), filled(own, row))
    return result


def whole_request(entry, entries, base):
    if "alone" in entry:
        return entry["alone"]
    if "like" in entry:
        base = whole_request(entries[entry["like"]], entries, base)
    return patched(base, {key: value for key, value in entry.items() if key.startswith("/")})


def settings_of(entry):
    """Lines of NAME.tsv: what the question is asked about, and cells of rules that it sets."""
    lines = [("only",) + tuple((place + "/").split("/", 1)) for place in entry.get("only", [])]
    lines = [(word, table, row.rstrip("/")) for word, table, row in lines]
    for table, rows in entry.get("rules", {}).items():
        for row, cells in rows.items():
            lines += [("set", table, row, column, text) for column, text in cells.items()]
    if "rules" in entry and "only" not in entry:
        raise ValueError("a request with rules of its own lacks \"only\"")
    return lines


def write_requests(folder):
    with open(os.path.join(TREE, "tests", "bid_scenarios", "cases", "twin_base.json"),
              encoding="utf-8") as file:
        base = json.load(file)
    with open(os.path.join(HERE, "requests.json"), encoding="utf-8") as file:
        document = json.load(file)
    base = patched(base, document["base"])
    entries = {}
    for name, entry in document["requests"].items():
        entries.update(each_row(name, entry))
    for number, (name, entry) in enumerate(entries.items()):
        stem = os.path.join(folder, "%03d %s" % (number, name.replace("/", "-")))
        with open(stem + ".json", "w", encoding="utf-8") as file:
            json.dump(whole_request(entry, entries, base), file)
        lines = settings_of(entry)
        if lines:
            with open(stem + ".tsv", "w", encoding="utf-8") as file:
                file.writelines("\t".join(line) + "\n" for line in lines)
    write_prices(os.path.join(folder, "prices"), document)


def write_prices(folder, document):
    """Demo prices with few enclosures, what parts/ adds, and parts for each row of a table."""
    os.mkdir(folder)
    for place in (os.path.join(TREE, "demo", "prices"), os.path.join(HERE, "parts")):
        for name in sorted(os.listdir(place)):
            with open(os.path.join(place, name), newline="", encoding="utf-8") as file:
                rows = list(csv.DictReader(file))
            if place.endswith("prices") and name == "enclosures.csv":
                rows = [row for row in rows if row["part"] in document["enclosures"]]
            write_parts(os.path.join(folder, os.path.basename(place) + "_" + name), rows)
    for name, templates in document["parts"].items():
        parts = {}
        for template in templates:
            for row in rows_of(template["each"], template.get("where", {})):
                part = filled(template["part"], row)
                parts[part["part"]] = part
        write_parts(os.path.join(folder, "each_" + name + ".csv"), list(parts.values()))


def write_parts(path, rows):
    with open(path, "w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, list(dict.fromkeys(key for row in rows for key in row)))
        writer.writeheader()
        writer.writerows(rows)


def excused():
    """(table, row or *) -> reason"""
    with open(os.path.join(HERE, "excused.csv"), newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    for row in rows:
        if not row["reason"]:
            raise ValueError("excused.csv: %(table)s/%(row)s lacks a reason" % row)
    return {(row["table"], row["row"]): row["reason"] for row in rows}


def run(program, tree, requests, every, tables=""):
    """Lines of all parts, side by side."""
    def part(number):
        return subprocess.run([program, tree, requests, str(number), str(PARTS), str(every), tables],
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
        write_prices(os.path.join(folder, "prices"), {"enclosures": ["BE-0608"], "parts": {}})
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
    parser.add_argument("--tables", default="")
    parser.add_argument("--list", action="store_true")
    parser.add_argument("--self-test", action="store_true")
    given = parser.parse_args()
    if given.self_test:
        return self_test(given.program)
    with tempfile.TemporaryDirectory() as folder:
        write_requests(folder)
        rows = Rows(run(given.program, TREE, folder, given.every, given.tables))
    return report(rows, excused(), given.every == 1 and not given.tables, given.list)


if __name__ == "__main__":
    sys.exit(main())

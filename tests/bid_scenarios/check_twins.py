#!/usr/bin/env python3
"""Every code of the findings table: raised where its trigger is, absent in the twin without it.

check_twins.py PROGRAM [--only CODE,CODE] [--self-test]

twins.json says how both requests are made out of cases/twin_base.json. Also: every code of the
starter's findings table has a twin, and no request under demo/requests raises more than twelve
warnings. Exit 0: no fault, 1: faults, 2: usage."""
import argparse
import collections
import concurrent.futures
import copy
import csv
import json
import os
import shutil
import subprocess
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
TREE = os.path.join(HERE, "..", "..")
ABSENT = "(absent)"
MOST_WARNINGS = 12  # of an ordinary request
LEAST_TWINS = 100


def set_at(document, pointer, value):
    """Puts a value at a JSON pointer; a list grows by one at its end."""
    *path, last = pointer.split("/")[1:]
    for step in path:
        document = document[int(step)] if isinstance(document, list) else \
            document.setdefault(step, {})
    if isinstance(document, list):
        at = int(last)
        document[at:at + 1] = [] if value == ABSENT else [value]
    elif value == ABSENT:
        document.pop(last, None)
    else:
        document[last] = value


def patched(request, *patches):
    request = copy.deepcopy(request)
    for patch in patches:
        for pointer, value in patch.items():
            set_at(request, pointer, copy.deepcopy(value))
    return request


def read_table(path):
    with open(path, newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    return rows


def write_table(path, rows):
    with open(path, "w", newline="", encoding="utf-8") as file:
        columns = list(dict.fromkeys(column for row in rows for column in row))
        writer = csv.DictWriter(file, columns, restval="", lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


def matches(row, selector, column):
    """A part, `@kind`, or `*`: every part that has something in the column."""
    if selector == "*":
        return row.get(column, "") != ""
    return row["kind"] == selector[1:] if selector[0] == "@" else row["part"] == selector


class Libraries:
    """Library files by what was changed in them, made through export and import."""

    def __init__(self, program, work):
        self.program, self.work, self.known = program, work, {}
        self.base = os.path.join(work, "base.backplate")
        self.parts, self.rules = os.path.join(work, "parts"), os.path.join(work, "rules")
        self.must("parts", "export", self.parts)
        self.must("rules", "export", self.rules)

    def run(self, library, *arguments):
        return subprocess.run([self.program, "--library", library, *arguments],
                              capture_output=True, text=True, check=False)

    def must(self, *arguments, library=None):
        done = self.run(library or self.base, *arguments)
        if done.returncode:
            raise ValueError("%s: %s" % (" ".join(arguments[:2]), done.stderr.strip()))

    def changed_parts(self, folder, changes):
        for name in sorted(os.listdir(self.parts)):
            rows = read_table(os.path.join(self.parts, name))
            for place, value in changes.items():
                selector, column = place.rsplit("/", 1)
                for row in rows:
                    if matches(row, selector, column):
                        row[column] = value
            write_table(os.path.join(folder, name), rows)

    def changed_rules(self, folder, changes):
        shutil.copytree(self.rules, folder, dirs_exist_ok=True)
        for place, value in changes.items():
            table, rest = place.split("/", 1)
            key, column = rest.rsplit("/", 1)
            path = os.path.join(folder, table + ".csv")
            rows = read_table(path) if os.path.exists(path) else []
            found = [row for row in rows if row["row"] == key]
            if not found or column not in found[0]:
                raise ValueError("the rule tables have no %s" % place)
            found[0][column] = value
            write_table(path, rows)

    def of(self, parts, rules):
        """The library with these changes."""
        if not parts and not rules:
            return self.base
        key = json.dumps([parts, rules], sort_keys=True)
        if key not in self.known:
            folder = tempfile.mkdtemp(dir=self.work)
            library = os.path.join(folder, "library.backplate")
            shutil.copy(self.base, library)
            for changes, kind, change in ((parts, "parts", self.changed_parts),
                                          (rules, "rules", self.changed_rules)):
                if changes:
                    tables = os.path.join(folder, kind)
                    os.makedirs(tables)
                    change(tables, changes)
                    self.must(kind, "import", tables, library=library)
            self.known[key] = library
        return self.known[key]


class Twins:
    def __init__(self, program, work):
        self.libraries = Libraries(program, work)
        with open(os.path.join(HERE, "cases", "twin_base.json"), encoding="utf-8") as file:
            self.base = json.load(file)

    def codes(self, request, library):
        """Codes of the estimate; ValueError where there is none."""
        path = tempfile.mktemp(suffix=".json", dir=self.libraries.work)
        with open(path, "w", encoding="utf-8") as file:
            json.dump(request, file)
        done = self.libraries.run(library, "estimate", path, "--json")
        if done.returncode not in (0, 1):
            raise ValueError(" ".join(done.stderr.replace(path, "the request").split()))
        return [row["code"] for row in json.loads(done.stdout)["findings"]]

    def side(self, twin, side):
        """Request and library of one twin."""
        request = patched(self.base, twin.get("both", {}), twin.get(side, {}))
        parts = {**twin.get("parts_both", {}), **twin.get("parts_" + side, {})}
        rules = {**twin.get("rules_both", {}), **twin.get("rules_" + side, {})}
        return request, self.libraries.of(parts, rules)

    def scanned(self, twin):
        """Raised at some value of one key and not at another."""
        pointer, values = twin["scan"]
        request, library = self.side(twin, "both")
        raised = {twin["code"] in self.codes(patched(request, {pointer: value}), library)
                  for value in values}
        return [] if len(raised) == 2 else ["%s at every value tried" % (
            "raised" if raised == {True} else "not raised")]

    def faults(self, twin):
        if "jobs" in twin:
            return self.gone_part(twin) if "part" in twin else self.copied_job(twin)
        if "scan" in twin:
            return self.scanned(twin)
        found = []
        wanted = {"on": True} if twin.get("always") else {"on": True, "off": False}
        for side, expected in wanted.items():
            codes = self.codes(*self.side(twin, side))
            if (twin["code"] in codes) != expected:
                found.append("not raised" if expected else "raised in the twin without it")
            if any(count > 1 for code, count in collections.Counter(codes).items()
                   if code == twin["code"]):
                found.append("raised more than once in one box or job")
        return found

    def library_with_copy(self):
        """A library of its own with a saved job and its copy."""
        library = os.path.join(tempfile.mkdtemp(dir=self.libraries.work), "jobs.backplate")
        shutil.copy(self.libraries.base, library)
        path = os.path.join(self.libraries.work, "to_save.json")
        with open(path, "w", encoding="utf-8") as file:
            json.dump(self.base, file)
        self.libraries.must("jobs", "save", path, library=library)
        self.libraries.must("jobs", "copy", "1", library=library)
        return library

    def copied_job(self, twin):
        """A saved job, its unconfirmed copy, and the copy once all of it is confirmed."""
        library = self.library_with_copy()
        raised = []
        for job in ("job:1", "job:2", "job:2"):
            if len(raised) == 2:
                self.libraries.must("jobs", "confirm", "2", "--all", library=library)
            done = self.libraries.run(library, "estimate", job, "--json")
            raised.append(done.returncode in (0, 1) and twin["code"] in done.stdout)
        return [] if raised == [False, True, False] else [
            "raised in the saved job, its copy and the copy confirmed: %s" % raised]

    def gone_part(self, twin):
        """A copied job before and after a part of its template is discontinued."""
        library = self.library_with_copy()
        raised = []
        for state in (None, "discontinued"):
            if state:
                folder = tempfile.mkdtemp(dir=self.libraries.work)
                self.libraries.changed_parts(folder, {twin["part"] + "/state": state})
                self.libraries.must("parts", "import", folder, library=library)
            done = self.libraries.run(library, "estimate", "job:2", "--json")
            raised.append(done.returncode in (0, 1) and twin["code"] in done.stdout)
        return [] if raised == [False, True] else [
            "raised before and after the part is discontinued: %s" % raised]


def guarded(twins, twin):
    try:
        return twin, twins.faults(twin)
    except (ValueError, KeyError, IndexError) as error:
        return twin, ["not judged: %s" % error]


def demo_requests(twins, most=MOST_WARNINGS):
    folder = os.path.join(TREE, "demo", "requests")
    for name in sorted(os.listdir(folder)):
        done = twins.libraries.run(":starter:", "estimate", os.path.join(folder, name), "--json")
        if done.returncode not in (0, 1):
            yield "%s: %s" % (name, done.stderr.strip())
            continue
        warnings = [row["code"] for row in json.loads(done.stdout)["findings"]
                    if row["severity"] == "warning"]
        if len(warnings) > most:
            yield "%s raises %d warnings" % (name, len(warnings))


def missing_codes(twins):
    rows = read_table(os.path.join(TREE, "catalog", "starter", "rules", "findings.csv"))
    codes = {twin["code"] for twin in twins}
    return ["%s has no twin" % row["row"] for row in rows if row["row"] not in codes]


def self_test(bench):
    """Exchanged twins and a code without cause must be found."""
    twin = {"code": "AMBIENT", "on": {"/boxes/0/site/ambient_c": [5, 45]}}
    planted = [("exchanged twins", {"code": "AMBIENT", "off": twin["on"]}),
               ("another code", dict(twin, code="ALTITUDE")),
               ("an unknown code", dict(twin, code="NO_SUCH_CODE")),
               ("no difference", {"code": "AMBIENT"})]
    missed = [what for what, wrong in planted if not guarded(bench, wrong)[1]]
    if guarded(bench, twin)[1]:
        missed.append("a sound twin is called faulty")
    if not list(demo_requests(bench, most=0)):
        missed.append("a demo request with a warning, none allowed")
    for what in missed:
        print("fault: " + what)
    print("%d planted faults not found" % len(missed))
    return 1 if missed else 0


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("--only", default="")
    parser.add_argument("--self-test", action="store_true")
    given = parser.parse_args()
    with open(os.path.join(HERE, "twins.json"), encoding="utf-8") as file:
        twins = json.load(file)["twins"]
    only = [code for code in given.only.split(",") if code]
    with tempfile.TemporaryDirectory() as work:
        bench = Twins(given.program, work)
        if given.self_test:
            return self_test(bench)
        faults = [] if only else missing_codes(twins) + list(demo_requests(bench))
        if not only and len(twins) < LEAST_TWINS:
            faults.append("only %d twins" % len(twins))
        chosen = [twin for twin in twins if not only or twin["code"] in only]
        with concurrent.futures.ThreadPoolExecutor(2) as pool:
            for twin, found in pool.map(lambda each: guarded(bench, each), chosen):
                place = next((key for side in ("on", "off", "parts_on", "parts_off", "rules_on",
                                               "rules_off") for key in twin.get(side, {})), "")
                faults += ["%s %s: %s" % (twin["code"], place, text) for text in found]
    for text in faults:
        print("fault: " + text)
    print("%d twins judged, %d faults" % (len(chosen), len(faults)))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())

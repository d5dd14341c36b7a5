#!/usr/bin/env python3
"""Runs the jobs of tests/worked_jobs against the program and compares it with the work by hand.

check_worked_job.py PROGRAM [FOLDER …] [--source TREE] [--self-test]

A folder holds request.json and either job.txt (starter rules, demo prices) or parts.csv, rules.csv
and expected_estimate.json (a library of its own). Lines of job.txt, `#` begins a remark:

  name = expression                   exact; round(x, n) half away from zero, ceil, min, max, power
  name = number @ parts : PART : field         the number stands there in the price book
  name = number @ rules : table : row          … in the rule table (`: column` where not value)
  require expression < expression     (or <=)
  exit N                              status of `estimate --json`
  expect POINTER = expression [± expression]   without ±: rounded to the printed decimals
  expect POINTER is TEXT  |  holds TEXT  |  lacks TEXT
  balance POINTER = heat, height, width, depth, outside, altitude [; word=value …]
                                      W, m, °C: the printed inside temperature put into the
                                      two-film balance leaves a residual under 1 % of the heat;
                                      mounting=, material= (words), flow= (m³/h that carries
                                      heat), sun= (W/m² absorbed); without: painted, on a wall
Exit 0: all as worked, 1: differences, 2: usage."""
import argparse
import os
import re
import shutil
import subprocess
import sys
import tempfile
from decimal import Decimal
from fractions import Fraction

HERE = os.path.dirname(os.path.abspath(__file__))
JOBS = os.path.join(HERE, "..", "worked_jobs")
sys.path.insert(0, JOBS)
import exact  # noqa: E402
import expected_estimate  # noqa: E402
import two_film  # noqa: E402
from check_estimate import Check, PAINTED  # noqa: E402
from tables import at, read_json, read_parts, read_rules  # noqa: E402

FLOOR_FOLDERS, FLOOR_LINES, FLOOR_EXPECTATIONS = 17, 1500, 600
FLOOR_OF_JOB = {"small_box": (100, 45), "wall_box": (140, 60), "not_buildable": (20, 8)}


class Job:
    """One job.txt against one estimate."""

    def __init__(self, text, estimate, status, parts, rules):
        self.e, self.status, self.parts, self.rules = estimate, status, parts, rules
        self.names, self.faults, self.lines, self.expectations = {}, [], 0, 0
        self.kinds = {"require": self.require, "exit": self.exit, "expect": self.expect,
                      "balance": self.balance}
        for number, line in enumerate(text.splitlines(), 1):
            line = line.split(" #")[0].strip()
            if not line or line.startswith("#"):
                continue
            try:
                self.read(line)
            except (ValueError, KeyError, IndexError, TypeError, ZeroDivisionError) as error:
                self.say("line %d '%s': %s" % (number, line, error))

    def say(self, text):
        self.faults.append(text)

    def value(self, text):
        return exact.evaluate(text, self.names)

    def read(self, line):
        word, _, rest = line.partition(" ")
        if word in self.kinds:
            self.kinds[word](rest.strip())
            return
        name, expression = (part.strip() for part in line.split("=", 1))
        if name in self.names:
            raise ValueError("%s is worked twice" % name)
        expression, _, place = expression.partition("@")
        self.names[name] = self.value(expression)
        self.lines += 1
        if place:
            self.stands(self.names[name], [p.strip() for p in place.split(" : ")])

    def stands(self, value, place):
        kind, first, second, *column = place
        cells = self.parts[first] if kind == "parts" else self.rules[first][second]
        cell = cells[second] if kind == "parts" else cells[column[0] if column else "value"]
        if Fraction(cell) != value:
            raise ValueError("stands there as " + cell)

    def require(self, rest):
        self.lines += 1
        left, sign, right = re.split(r"\s(<=|<)\s", rest)
        a, b = self.value(left), self.value(right)
        if not (a <= b if sign == "<=" else a < b):
            raise ValueError("%.6g is not %s %.6g" % (a, sign, b))

    def exit(self, rest):
        self.expectations += 1
        if int(rest) != self.status:
            raise ValueError("the status was %d" % self.status)

    def expect(self, rest):
        self.expectations += 1
        pointer, relation, text = re.match(r"(\S+) (=|is|holds|lacks) (.*)", rest).groups()
        have = at(self.e, pointer)
        if relation != "=":
            shown = {None: "null", True: "true", False: "false"}.get(have, have) \
                if not isinstance(have, (int, Decimal)) or isinstance(have, bool) else str(have)
            good = {"is": shown == text, "holds": text in str(have),
                    "lacks": text not in str(have)}[relation]
            if not good:
                raise ValueError("the estimate says '%s'" % have)
            return
        worked, _, tolerance = text.partition("±")
        want, printed = self.value(worked), Fraction(str(have))
        if tolerance:
            if abs(printed - want) > self.value(tolerance):
                raise ValueError("the estimate says %s, by hand %.6g" % (have, want))
        elif exact.round_half_away(want, exact.places_of(have)) != printed:
            raise ValueError("the estimate says %s, by hand %.9g" % (have, want))

    def surface(self, material):
        """Films and wall of a material, from its rule row."""
        if not material:
            return PAINTED
        row = self.rules["materials"][material]
        return {"emissivity_out": float(row["emissivity_out"]),
                "emissivity_in": float(row["emissivity_in"]),
                "wall_m": float(row["wall_mm"]) / 1000,
                "wall_conductivity": float(row["wall_conductivity"])}

    def balance(self, rest):
        self.expectations += 1
        pointer, rest = rest.split(" = ")
        sizes, *options = (part.strip() for part in rest.split(";"))
        heat, height, width, depth, outside, altitude = (float(self.value(x))
                                                         for x in sizes.split(","))
        word = dict(option.split("=", 1) for option in options)
        flow, sun = (float(self.value(word.get(key, "0"))) for key in ("flow", "sun"))
        box = two_film.Box(height, width, depth, self.surface(word.get("material")), altitude,
                           mounting=word.get("mounting", "wall"), flow_m3h=flow, sun_w_m2=sun,
                           enclosures=int(word.get("enclosures", "1")))
        printed = Fraction(str(at(self.e, pointer)))
        leaves, step = (box.heat(float(printed + half), outside) for half in (0, Fraction("0.05")))
        if abs(leaves - heat) <= abs(step - leaves):  # no nearer than it is printed
            return
        if abs(leaves / heat - 1) >= 0.01:
            raise ValueError("%.3f W leave, %.3f W are set free" % (leaves, heat))


class Runner:
    def __init__(self, program, source, work):
        self.program, self.source, self.work = program, source, work
        self.rules = os.path.join(source, "catalog", "starter", "rules")
        self.prices = os.path.join(source, "demo", "prices")

    def run(self, *arguments, library=":starter:"):
        done = subprocess.run([self.program, "--library", library, *arguments],
                              capture_output=True, text=True, check=False)
        return done.returncode, done.stdout, done.stderr

    def estimate(self, folder, library=":starter:"):
        status, output, message = self.run("estimate", os.path.join(folder, "request.json"),
                                           "--json", library=library)
        path = os.path.join(self.work, os.path.basename(folder) + ".json")
        with open(path, "w", encoding="utf-8") as file:
            file.write(output)
        if not output:
            raise RuntimeError("no estimate: " + message)
        return status, read_json(path)

    def worked(self, folder):
        """A job worked by hand on the starter data."""
        status, estimate = self.estimate(folder)
        parts, rules = read_parts(self.prices), read_rules([self.rules])
        with open(os.path.join(folder, "job.txt"), encoding="utf-8") as file:
            text = file.read()
        job = Job(text, estimate, status, parts, rules)
        faults = job.faults + Check(estimate, parts, rules).run().faults
        lines, expectations = FLOOR_OF_JOB.get(os.path.basename(folder), (50, 25))
        if job.lines < lines or job.expectations < expectations:
            faults.append("only %d lines and %d expectations" % (job.lines, job.expectations))
        faults += self.workbook(folder)
        return job.lines, job.expectations, faults, (text, estimate, status, parts, rules)

    def workbook(self, folder):
        """The internal workbook is always written, with the status of the estimate."""
        path = os.path.join(self.work, os.path.basename(folder) + ".xlsx")
        status, _, message = self.run("quote", os.path.join(folder, "request.json"),
                                      "--workbook", path)
        if status not in (0, 1) or not os.path.exists(path):
            return ["no workbook (status %d): %s" % (status, message.strip())]
        return []

    def published(self, folder):
        """A job with a price book, rules and an estimate of its own."""
        library = os.path.join(self.work, "library.backplate")
        only = os.path.join(self.work, "parts")
        os.makedirs(only)
        shutil.copy(os.path.join(folder, "parts.csv"), only)
        for step in (("parts", "import", only), ("library", "check"),
                     ("rules", "import", os.path.join(folder, "rules.csv")), ("library", "check")):
            status, _, message = self.run(*step, library=library)
            if status:
                return 0, 0, ["%s: status %d %s" % (" ".join(step), status, message)], None
        status, estimate = self.estimate(folder, library)
        expected = read_json(os.path.join(folder, "expected_estimate.json"))
        parts = read_parts(os.path.join(folder, "parts.csv"))
        rules = read_rules([self.rules, os.path.join(folder, "rules.csv")])
        compared, faults = expected_estimate.compare(expected, estimate)
        if status:
            faults.append("status %d" % status)
        faults += Check(estimate, parts, rules).run().faults
        return 0, compared, faults, (expected, estimate)


def planted(given):
    """(what, job text and estimate with one fault)"""
    text, estimate, status, parts, rules = given
    def job(wrong):
        return Job(wrong, estimate, status, parts, rules)
    yield "a changed cent", job(re.sub(r"(expect /price/material = \S+)", r"\1 + 0.01", text))
    yield "a wrong channel count", job(re.sub(r"(expect /points/0/fitted = \S+)", r"\1 - 1", text))
    yield "a wrong formula", job(text.replace("wiring_min = wires * (", "wiring_min = wires + ("))
    yield "a wrong rule", job(text.replace("land_wire = 4.3 @", "land_wire = 4.4 @"))
    yield "a wrong heat", job(text.replace("mid_c = inside,", "mid_c = 1.03 * inside,"))
    yield "a wrong status", Job(text, estimate, status + 1, parts, rules)
    yield "a line left unread", job(text + "\nexpect /price/nothing = 1\n")


def self_test(given):
    """Every planted fault must be reported beside those that the job has itself."""
    own = set(Job(*given).faults)
    missed = [what for what, job in planted(given) if not set(job.faults) - own]
    missed += expected_estimate.missed_faults(given[1])
    for what in missed:
        print("self-test: not noticed: " + what)
    print("self-test: %d planted faults, %d missed" %
          (7 + expected_estimate.PLANTED, len(missed)))
    return 1 if missed else 0


def main():
    reader = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    reader.add_argument("program")
    reader.add_argument("folders", nargs="*")
    reader.add_argument("--source", default=os.path.join(HERE, "..", ".."))
    reader.add_argument("--self-test", action="store_true")
    given = reader.parse_args()
    every = sorted(e.path for e in os.scandir(JOBS)
                   if os.path.exists(os.path.join(e.path, "request.json")))
    totals, failed = [0, 0, 0], 0
    with tempfile.TemporaryDirectory() as work:
        runner = Runner(os.path.abspath(given.program), given.source, work)
        if given.self_test:
            return self_test(runner.worked(os.path.join(JOBS, "wall_box"))[3])
        for folder in given.folders or every:
            folder = folder.rstrip("/")
            by_hand = os.path.exists(os.path.join(folder, "job.txt"))
            lines, expectations, faults, _ = (runner.worked if by_hand else
                                              runner.published)(folder)
            for fault in faults:
                print("%s: %s" % (os.path.basename(folder), fault))
            print("%s: %d lines worked, %d expectations, %d faults" %
                  (os.path.basename(folder), lines, expectations, len(faults)))
            totals = [totals[0] + 1, totals[1] + lines, totals[2] + expectations]
            failed += len(faults)
    print("%d jobs, %d lines, %d expectations, %d faults" % (*totals, failed))
    floors = (FLOOR_FOLDERS, FLOOR_LINES, FLOOR_EXPECTATIONS)
    if not given.folders and any(have < least for have, least in zip(totals, floors)):
        print("below the floor of %d jobs, %d lines, %d expectations" % floors)
        failed += 1
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())

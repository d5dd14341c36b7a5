#!/usr/bin/env python3
"""The fifteen bid scenarios with their rule set in the program's ordinary imports.

check_bid_scenarios.py PROGRAM [--only O01,O02] [--self-test]

For every scenario: the counts by own_counts.py agree with scenarios.json and with the estimate;
supply, heat, enclosure, hours and price lie in their ranges (explained.csv holds the exceptions);
every code of must_warn is raised; every formula of the basis gives its figure. Then the counts
under changed rule sets: channels halved, prices raised, article numbers, points and files in
another order. A request that the program does not take is a fault. Exit 0: no fault, 1: faults,
2: usage."""
import argparse
import copy
import json
import os
import random
import subprocess
import sys
import tempfile
from decimal import Decimal

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, HERE)
sys.dont_write_bytecode = True
sys.path += [os.path.join(HERE, "..", "tools"), os.path.join(HERE, "..", "worked_jobs")]
import judge  # noqa: E402
import own_counts  # noqa: E402
import rule_set as files  # noqa: E402
from check_estimate import Check as BasisCheck  # noqa: E402
from tables import read_parts, read_rules  # noqa: E402

CASES = os.path.join(HERE, "cases")
DATE = "2026-11-24"
LEAST_JUDGED = 600  # comparisons of a full run


def halved(rules):
    rules["channels_per_module"] = {kind: max(1, count // 2)
                                    for kind, count in rules["channels_per_module"].items()}


def dearer(rules):
    raised = lambda value: round(value * 1.37, 2)  # noqa: E731
    rules["module_cost_CU"] = {k: raised(v) for k, v in rules["module_cost_CU"].items()}
    rules["psu_cost"] = {k: raised(v) for k, v in rules["psu_cost"].items()}
    for row in rules["controllers"].values():
        row["cost"] = raised(row["cost"])


class Variant:
    """A changed rule set in a library of its own."""

    def __init__(self, name, changes=(), names=False, points=False, order=False):
        self.name, self.changes, self.names = name, changes, names
        self.points, self.order = points, order
        self.random = random.Random(name)

    def rules(self, rules):
        rules = copy.deepcopy(rules)
        for change in self.changes:
            change(rules)
        return rules

    def keys(self, rules):
        keys = files.plain_keys(rules)
        if not self.names:
            return keys
        values = list(keys.values())
        self.random.shuffle(values)
        return dict(zip(keys, values))

    def shuffled(self, rows):
        rows = list(rows)
        self.random.shuffle(rows)
        return rows


VARIANTS = [Variant("channels halved", (halved,)), Variant("prices × 1.37", (dearer,)),
            Variant("other article numbers", names=True), Variant("points in another order",
                                                                  points=True),
            Variant("files in another order", order=True),
            Variant("all of these", (halved, dearer), True, True, True)]


def stated_in_text(scenario, box):
    """What the scenario states and its request leaves out."""
    site = scenario["site"]
    if site.get("max_width_mm"):
        box["site"]["max_mm"] = {"width": site["max_width_mm"]}
    if site.get("material", "").startswith("stainless"):
        box["choices"]["material"] = "stainless"
    if "pair" in scenario["controllers"]:
        box["choices"]["redundant_controller"] = True


def in_three_boxes(scenario, request):
    """The request of O07 with its points in three boxes, the spare rounded in each of them."""
    whole, split = request["boxes"][0], scenario["special_check"]["split_main_crusher_screens"]
    signals = {files.KINDS[kind][0]: counts for kind, counts in split.items()}
    request["boxes"] = []
    for i, name in enumerate(("MAIN", "CRUSHER", "SCREENS")):
        points = [dict(line, count=signals[line["signal"]][i]) for line in whole["points"]
                  if signals[line["signal"]][i]]
        box = dict(copy.deepcopy(whole), name=name, points=points)
        if i:
            box.update(equipment=[], work={}, controlled_by="MAIN",
                       link={"medium": "fibre", "length_m": 200})
        request["boxes"].append(box)
    request["spare"]["scope"] = "box"
    return request


class Bench:
    """One library made through the imports, and estimates from it."""

    def __init__(self, program, variant, rules, work):
        self.program, self.variant = program, variant
        self.rules = variant.rules(rules)
        self.keys = variant.keys(self.rules)
        self.folder = tempfile.mkdtemp(dir=work)
        self.library = os.path.join(self.folder, "library.backplate")
        order = variant.shuffled if variant.order else list
        files.write_files(self.rules, self.folder, self.keys, order)
        steps = [("rules", "import", os.path.join(self.folder, "rules.csv")),
                 ("parts", "import", os.path.join(self.folder, "parts"))]
        for step in reversed(steps) if variant.order else steps:
            status, output = self.run(*step)
            if status:
                raise RuntimeError("%s: %s" % (" ".join(step), output))

    def basis_faults(self):
        """Every formula of the last estimate, evaluated with fractions."""
        parts = read_parts(os.path.join(self.folder, "parts"))
        rules = read_rules([files.STARTER, os.path.join(self.folder, "rules.csv")])
        return BasisCheck(self.exact, parts, rules).run().faults

    def run(self, *arguments):
        done = subprocess.run([self.program, "--library", self.library, *arguments],
                              capture_output=True, text=True, check=False)
        return done.returncode, done.stdout if done.returncode in (0, 1) else done.stderr

    def request(self, scenario):
        """The request of the scenario, with what README.md names."""
        with open(os.path.join(CASES, "requests", scenario["id"] + ".json"),
                  encoding="utf-8") as file:
            request = json.load(file)
        box = request["boxes"][0]
        request["job"]["date"] = DATE
        if not scenario["spare_rule"]["wired"]:
            request["spare"]["kind"] = "installed"
        loops = [kind for kind in ("AI", "AII") if kind not in scenario["points"]]
        box["choices"]["exclude"] = [self.keys["module " + kind] for kind in loops]
        if any(line.get("via") == "isolator" for line in box["points"]):
            box["equipment"] = [row for row in box["equipment"]
                                if not row["text"].startswith("loop isolator")]
        stated_in_text(scenario, box)
        if halved in self.variant.changes:
            box["choices"].pop("enclosure", None)  # no plate that stands holds twice the modules
        if self.variant.points:
            box["points"] = self.variant.shuffled(box["points"])
        return request

    def estimate(self, scenario, change=lambda scenario, request: request):
        """The estimate, or the message where there is none."""
        path = os.path.join(self.folder, scenario["id"] + ".json")
        with open(path, "w", encoding="utf-8") as file:
            json.dump(change(scenario, self.request(scenario)), file)
        status, output = self.run("estimate", path, "--json")
        if status not in (0, 1):
            return None, " ".join(output.split())
        estimate = json.loads(output)
        self.exact = json.loads(output, parse_float=Decimal)
        if not estimate["buildable"]:
            stops = [row["text"] for row in estimate["findings"] if row["severity"] == "stop"]
            return None, "not buildable: " + "; ".join(stops)
        return estimate, ""


class Check:
    def __init__(self):
        self.faults, self.judged, self.used = [], 0, set()
        self.explained = judge.explained()

    def say(self, where, faults):
        self.faults += ["%s: %s" % (where, fault) for fault in faults]

    def own(self, scenario, rules):
        want = scenario["expect"]["exact_under_RS1"]
        self.judged += 1
        self.say(scenario["id"] + " by own_counts.py",
                 own_counts.differences(want, own_counts.exact_counts(scenario, rules)))

    def counts(self, bench, scenario, estimate):
        where = "%s, %s" % (scenario["id"], bench.variant.name)
        want = own_counts.exact_counts(scenario, bench.rules)
        self.judged += 2 + 4 * len(scenario["points"])
        self.say(where, own_counts.differences(
            want, judge.counts_of(estimate, scenario, bench.keys)))

    def ranges(self, bench, scenario, estimate):
        found, rows = judge.outside(estimate, scenario, bench.keys, bench.rules)
        self.judged += rows
        for field, text in found.items():
            if (scenario["id"], field) in self.explained:
                self.used.add((scenario["id"], field))
            else:
                self.say(scenario["id"], [text])

    def warnings(self, scenario, estimate):
        """A code that speaks of several boxes is judged on the form with several."""
        codes = [code for code in scenario["must_warn"]
                 if code != "LOCATION_SPLIT" or len(estimate["boxes"]) > 1]
        self.judged += len(codes)
        self.say(scenario["id"], judge.not_raised(estimate, codes))

    def three_boxes(self, bench, scenario):
        """The special check of O07."""
        form = scenario["id"] + " in three boxes"
        estimate, message = bench.estimate(scenario, in_three_boxes)
        if estimate is None:
            self.faults.append("%s: %s" % (form, message))
            return
        want = dict(scenario["special_check"]["modules_when_spare_is_applied_per_box"])
        have = judge.modules_of(estimate["boxes"], bench.keys)
        have["total"] = sum(have.values())
        self.judged += len(want)
        self.say(form, ["%s modules: %s, expected %s" % (kind, have.get(kind), count)
                  for kind, count in want.items() if have.get(kind) != count])
        self.warnings(scenario, estimate)

    def scenario(self, bench, scenario, whole=True):
        estimate, message = bench.estimate(scenario)
        if estimate is None:
            self.faults.append("%s, %s: %s" % (scenario["id"], bench.variant.name, message))
            return None
        self.counts(bench, scenario, estimate)
        if whole:
            self.ranges(bench, scenario, estimate)
            self.warnings(scenario, estimate)
            self.judged += 1
            self.say(scenario["id"], bench.basis_faults())
        return estimate

    def report(self, all_run):
        if all_run:
            if self.judged < LEAST_JUDGED:
                self.faults.append("only %d comparisons" % self.judged)
            for scenario, field in sorted(set(self.explained) - self.used):
                self.faults.append("explained.csv: %s %s explains nothing" % (scenario, field))
        for text in self.faults:
            print("fault: " + text)
        print("%d comparisons judged, %d faults, %d differences explained" % (
            self.judged, len(self.faults), len(self.used)))
        return 1 if self.faults else 0


def planted(scenario):
    """(what, the scenario with one altered expectation)"""
    def altered(change):
        wrong = copy.deepcopy(scenario)
        change(wrong)
        return wrong
    kind = next(iter(scenario["points"]))
    yield "one point more", altered(lambda s: s["points"].update({kind: s["points"][kind] + 40}))
    yield "another spare", altered(lambda s: s["spare_rule"].update(pct=90))
    yield "a narrow heat", altered(lambda s: s["expect"]["heat_inside_W"].update(max=1))
    yield "a low price", altered(lambda s: s["expect"]["price_CU_total"].update(max=1))
    yield "a small load", altered(
        lambda s: s["expect"]["supply_24V"]["plausible_load_A"].update(max=0.1))
    yield "a code without cause", altered(lambda s: s["must_warn"].append("ALTITUDE"))


def self_test(bench, scenario):
    estimate, message = bench.estimate(scenario)
    if estimate is None:
        print("self-test: " + message)
        return 1
    missed = []
    for what, wrong in planted(scenario):
        check = Check()
        check.explained = {}
        check.counts(bench, wrong, estimate)
        check.ranges(bench, wrong, estimate)
        check.warnings(wrong, estimate)
        check.own(wrong, bench.rules)
        if not check.faults:
            missed.append(what)
    for what in missed:
        print("fault: planted and not found: " + what)
    print("%d planted faults not found" % len(missed))
    return 1 if missed else 0


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("--only", default="")
    parser.add_argument("--self-test", action="store_true")
    given = parser.parse_args()
    with open(os.path.join(CASES, "scenarios.json"), encoding="utf-8") as file:
        cases = json.load(file)
    rules, only = cases["rule_set_RS1"], [name for name in given.only.split(",") if name]
    scenarios = [s for s in cases["scenarios"] if not only or s["id"] in only]
    with tempfile.TemporaryDirectory() as work:
        base = Bench(given.program, Variant("as given"), rules, work)
        if given.self_test:
            return self_test(base, scenarios[0])
        check = Check()
        for scenario in scenarios:
            check.own(scenario, rules)
        taken = [s for s in scenarios if check.scenario(base, s)]
        for scenario in scenarios:
            if "special_check" in scenario:
                check.three_boxes(base, scenario)
        for variant in VARIANTS:
            bench = Bench(given.program, variant, rules, work)
            for scenario in taken:
                check.scenario(bench, scenario, whole=False)
        return check.report(not only)


if __name__ == "__main__":
    sys.exit(main())

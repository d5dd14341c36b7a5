#!/usr/bin/env python3
"""`backplate mix` on the instances beside this file against the answers of general solvers.

check_mix.py PROGRAM [--self-test]

See README.md. Exit 0: no fault, 1: faults, 2: usage."""
import argparse
import copy
import json
import os
import subprocess
import sys

HERE = os.path.dirname(os.path.abspath(__file__))
MOST_FRONT_POINTS = 60  # instances of which the fronts are compared
LEAST_FAMILIES, LEAST_FRONTS = 50, 15
SUMS = ("cost_cents", "width_dmm", "heat_mw", "i24_ma")


def instances():
    for name in sorted(os.listdir(HERE)):
        if name.startswith("mix-") and name.endswith(".json"):
            with open(os.path.join(HERE, name), encoding="utf-8") as file:
                yield os.path.join(HERE, name), json.load(file)


def served(groups, need):
    """Largest number of points that these groups serve, by augmenting paths over group and kind;
    a group of one kind is tried with every kind it accepts."""
    for place, (count, channels, accepts, one) in enumerate(groups):
        if one and len(accepts) > 1:
            return served_ways(groups, place, need)
    flow, left, open_ = {}, [g[0] * g[1] for g in groups], dict(need)
    for kind in need:
        while open_[kind] > 0 and augment(groups, flow, left, open_, kind):
            pass
    return all(value == 0 for value in open_.values())


def served_ways(groups, place, need):
    """So many copies of the group for each kind it accepts, every split tried."""
    count, channels, accepts, _ = groups[place]
    kinds = [kind for kind in accepts if kind in need]

    def splits(left, names):
        if len(names) <= 1:
            yield [(left, name) for name in names]
            return
        for first in range(left + 1):
            for rest in splits(left - first, names[1:]):
                yield [(first, names[0])] + rest
    for split in splits(count, kinds or accepts[:1]):
        fixed = [(n, channels, [kind], False) for n, kind in split if n]
        if served(groups[:place] + fixed + groups[place + 1:], need):
            return True
    return False


def augment(groups, flow, left, open_, start):
    """Serves more points of one kind by moving others; False where none can be moved."""
    queue, kind_of, group_of = [start], {}, {}
    for kind in queue:
        for place, group in enumerate(groups):
            if place in kind_of or kind not in group[2]:
                continue
            kind_of[place] = kind
            if left[place] > 0:
                move(flow, left, open_, place, start, kind_of, group_of)
                return True
            for other in open_:
                if flow.get((place, other), 0) > 0 and other not in group_of and other != start:
                    group_of[other] = place
                    queue.append(other)
    return False


def move(flow, left, open_, place, start, kind_of, group_of):
    way, at = [], place
    while True:
        kind = kind_of[at]
        way.append((at, kind))
        if kind == start:
            break
        at = group_of[kind]
    amount = min([left[place], open_[start]] +
                 [flow[(group_of[kind], kind)] for _, kind in way if kind != start])
    left[place] -= amount
    open_[start] -= amount
    for at, kind in way:
        flow[(at, kind)] = flow.get((at, kind), 0) + amount
        if kind != start:
            flow[(group_of[kind], kind)] -= amount


def item_faults(instance, best):
    """The best family's items, added again."""
    family = next(f for f in instance["families"] if f["id"] == best["family"])
    known = {item["id"]: (kind, item) for kind in ("controllers", "heads", "feeds", "modules")
             for item in family[kind]}
    taken = [(known[item["id"]], item["count"]) for item in best["items"]]
    longest = instance["max_lead_days"]
    faults = ["%s comes too late" % item["id"] for (_, item), _ in taken
              if longest is not None and item["lead_days"] > longest]

    def total(key, *kinds):
        return sum(item.get(key, 0) * count for (kind, item), count in taken if kind in kinds)
    lead = ("controllers", "heads")
    if sum(count for (kind, _), count in taken if kind == "controllers") != 1:
        faults.append("not one controller")
    for name, gives, takes in (
            ("places", total("slots", *lead), total("slots", "modules", "feeds")),
            ("bus", total("bus_ma", *lead, "feeds"), total("bus_ma", "modules")),
            ("couplers", total("max_heads", "controllers"),
             sum(count for (kind, _), count in taken if kind == "heads")),
            ("feeds", total("max_feeds", *lead),
             sum(count for (kind, _), count in taken if kind == "feeds"))):
        if takes > gives:
            faults.append("%s: %d taken of %d" % (name, takes, gives))
    cost = total("cost_cents", "controllers", "heads", "feeds", "modules")
    if cost != best["cost_cents"]:
        faults.append("the items cost %d, not %d" % (cost, best["cost_cents"]))
    need = {kind: row["need"] for kind, row in instance["demand"].items() if row["need"]}
    groups = [(count, group["n"], group["accepts"], group["mode"] == "group")
              for (_, item), count in taken for group in item.get("groups", [])]
    if not served(groups, need):
        faults.append("not every point has a channel")
    return faults


def family_faults(answer, expected):
    faults = []
    for key, mine in (("status", answer["status"]), ("min_cost_cents", answer["cost_cents"])):
        if mine != expected.get(key):
            faults.append("%s: %s %s, expected %s" % (answer["id"], key, mine, expected.get(key)))
    if "tradeoffs" in answer and "front" in expected:
        front = [[row[key] for key in SUMS] for row in answer["tradeoffs"] or []]
        if front != expected["front"]:
            faults.append("%s: front of %d vectors, expected %d" % (
                answer["id"], len(front), len(expected["front"])))
    return faults


class Check:
    def __init__(self):
        self.faults, self.families, self.fronts = [], 0, 0

    def judge(self, instance, answer, expected):
        for family in answer["families"]:
            want = expected["families"][family["id"]]
            self.families += 1
            self.fronts += "tradeoffs" in family and "front" in want
            self.say(instance, family_faults(family, want))
        best = answer["best"]
        if best["family"] not in expected["best"]["families"]:
            self.say(instance, ["best family %s" % best["family"]])
        self.say(instance, item_faults(instance, best))

    def say(self, instance, texts):
        self.faults += ["%s: %s" % (instance["name"], text) for text in texts]


def answers(program):
    for path, instance in instances():
        command = [program, "mix", path]
        if instance["size"] <= MOST_FRONT_POINTS:
            command.append("--tradeoffs")
        done = subprocess.run(command, capture_output=True, text=True, check=False)
        if done.returncode:
            raise ValueError("%s: status %d %s" % (path, done.returncode, done.stderr.strip()))
        yield instance, json.loads(done.stdout)


def self_test(pairs, expected):
    """Planted wrong answers: a cost, a status, a front, an item more, an item less."""
    instance, answer = next((i, a) for i, a in pairs if "tradeoffs" in a["families"][0])
    planted = []

    def plant(change):
        wrong = copy.deepcopy(answer)
        change(wrong)
        planted.append(wrong)
    plant(lambda a: a["families"][0].update(cost_cents=a["families"][0]["cost_cents"] + 1))
    plant(lambda a: a["families"][0].update(status="infeasible"))
    plant(lambda a: a["families"][0]["tradeoffs"].pop())
    plant(lambda a: a["best"]["items"][-1].update(count=a["best"]["items"][-1]["count"] + 1))
    plant(lambda a: a["best"]["items"].pop())
    missed = 0
    for wrong in planted:
        check = Check()
        check.judge(instance, wrong, expected[instance["name"]])
        missed += not check.faults
    print("self-test: %d planted faults, %d missed" % (len(planted), missed))
    return missed


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("--self-test", action="store_true")
    given = parser.parse_args()
    with open(os.path.join(HERE, "expected.json"), encoding="utf-8") as file:
        expected = json.load(file)
    pairs = list(answers(given.program))
    if given.self_test:
        return 1 if self_test(pairs, expected) else 0
    check = Check()
    for instance, answer in pairs:
        check.judge(instance, answer, expected[instance["name"]])
    if check.families < LEAST_FAMILIES or check.fronts < LEAST_FRONTS:
        check.faults.append("only %d families and %d fronts" % (check.families, check.fronts))
    for text in check.faults:
        print("fault: " + text)
    print("%d families and %d fronts judged, %d faults" % (check.families, check.fronts,
                                                           len(check.faults)))
    return 1 if check.faults else 0


if __name__ == "__main__":
    sys.exit(main())

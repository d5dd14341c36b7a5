#!/usr/bin/env python3
"""The cheapest arrangement per station against general solvers.

check_arranged_mix.py PROGRAM [--count N] [--seed S] [--self-test]

PROGRAM is arranged_mix. Made instances (make_mixes.py) of few points, with places and bus currents
cut so that stations bind; every family is solved by CBC with every module at its station
(arranged_program.py), every fifth by GLPK as well. An answer said to be proven must cost what the
solver says, one that is not may cost more. Exit 0: no fault, 1: faults."""
import argparse
import json
import multiprocessing
import os
import random
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True  # the source tree stays clean
import arranged_program  # noqa: E402
import make_mixes  # noqa: E402
import mix_program  # noqa: E402

MOST_POINTS, MOST_KINDS, BATCH, EVERY_GLPK = 40, 3, 10, 5
mix_program.SECONDS = 10  # of one solver run
LEAST_DEARER_SHARE = 1 / 10  # of the families: stations cost more than the sums
MOST_UNPROVEN_SHARE = 1 / 20


def few_modules(rng, family, need):
    """Some of the modules, one at least for every kind that any serves; their sizes and currents are
    drawn anew, so that they fit the stations unevenly."""
    def serves(one, kind):
        return any(kind in each["accepts"] for each in one["groups"])
    kept = []
    for kind in need:
        able = [one for one in family["modules"] if serves(one, kind)]
        kept += [one for one in rng.sample(able, min(2, len(able))) if one not in kept]
    for one in kept:
        one["slots"], one["bus_ma"] = rng.choice([1, 1, 2, 2, 3]), rng.randint(50, 250)
    return kept


def bound_by_stations(seed):
    """A made instance of few points whose leaders are short of places or bus current."""
    made = make_mixes.instance(seed)
    rng = random.Random(seed)
    asked = sorted(kind for kind, row in made["demand"].items() if row["need"])
    kinds = rng.sample(asked, min(MOST_KINDS, len(asked)))
    for kind, row in made["demand"].items():
        row["count"] = rng.randint(2, MOST_POINTS // len(kinds)) if kind in kinds else 0
        row["need"] = (row["count"] * (100 + row["spare_percent"]) + 99) // 100
    made["families"] = made["families"][:2]
    for family in made["families"]:
        family["heads"], family["feeds"] = family["heads"][:1], family["feeds"][:1]
        family["modules"] = few_modules(rng, family, kinds)
        hungriest = max((one["bus_ma"] for one in family["modules"]), default=0)
        for one in family["controllers"] + family["heads"]:
            one["slots"] = rng.randint(3, 5)
            one["bus_ma"] = hungriest * rng.randint(10, 22) // 10
        for one in family["controllers"]:
            one["max_heads"] = arranged_program.MOST_HEADS
        for one in family["feeds"]:
            one["slots"], one["bus_ma"] = 1, hungriest * rng.randint(10, 18) // 10
    return made


def judge(made, told, folder, with_glpk):
    faults, records = [], []
    for family, answer in zip(made["families"], told["families"]):
        program = arranged_program.ArrangedProgram(made, family)
        for solver in [mix_program.by_cbc] + [mix_program.by_glpk] * with_glpk:
            status, cost, found = mix_program.solved(program, solver, folder,
                                                     answer["cost_cents"] or 0)
            if status is None:
                records.append("undecided")
                continue
            same = (status, cost) == (answer["status"], answer["cost_cents"])
            dearer = status == "optimal" and not answer["proven"] and (
                answer["cost_cents"] or 1 << 60) > cost
            if not same and not dearer:
                found.append("%s %s, %s says %s %s" % (answer["status"], answer["cost_cents"],
                                                       solver.__name__, status, cost))
            faults += ["%s %s: %s" % (made["name"], family["id"], text) for text in found]
        records.append(record_of(answer))
    return faults, records


def record_of(answer):
    if answer["status"] == "infeasible":
        return "impossible" if answer["sum_cents"] is None else "impossible by stations alone"
    if not answer["proven"]:
        return "not proven"
    return "dearer by stations" if answer["cost_cents"] > answer["sum_cents"] else "as the sums"


def answers(program, folder, instances):
    """What the program says of the instances."""
    paths = [os.path.join(folder, made["name"] + ".json") for made in instances]
    for path, made in zip(paths, instances):
        with open(path, "w", encoding="utf-8") as file:
            json.dump(made, file)
    told = subprocess.run([program, *paths], capture_output=True, text=True, check=True)
    return [json.loads(line) for line in told.stdout.splitlines()]


def batch(given):
    program, seeds = given
    faults, records = [], []
    with tempfile.TemporaryDirectory() as folder:
        instances = [bound_by_stations(seed) for seed in seeds]
        for made, told in zip(instances, answers(program, folder, instances), strict=True):
            some, more = judge(made, told, folder, made["seed"] % EVERY_GLPK == 0)
            faults += some
            records += more
    return faults, records


def self_test(program):
    """Costs a cent off and a wrong status, said to be proven, must all be found."""
    planted = missed = 0
    with tempfile.TemporaryDirectory() as folder:
        instances = [bound_by_stations(seed) for seed in range(1, 20)]
        for made, told in zip(instances, answers(program, folder, instances), strict=True):
            first = told["families"][0]
            cost = first["cost_cents"]
            wrong = ([{"cost_cents": cost - 1}, {"cost_cents": cost + 1},
                      {"status": "infeasible", "cost_cents": None}] if cost is not None else
                     [{"status": "optimal", "cost_cents": 100000, "sum_cents": 0}])
            for change in wrong:
                planted += 1
                changed = [{**first, **change}, *told["families"][1:]]
                missed += not judge(made, {"families": changed}, folder, False)[0]
    print("self-test: %d planted faults, %d missed" % (planted, missed))
    return missed or planted < len(instances)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("--count", type=int, default=400)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--self-test", action="store_true")
    given = parser.parse_args()
    if given.self_test:
        return 1 if self_test(given.program) else 0
    seeds = range(given.seed, given.seed + given.count)
    work = [(given.program, seeds[k:k + BATCH]) for k in range(0, len(seeds), BATCH)]
    with multiprocessing.Pool(2) as pool:
        results = list(pool.imap(batch, work))
    faults = [text for some, _ in results for text in some]
    records = [each for _, some in results for each in some]
    count = {name: records.count(name) for name in sorted(set(records))}
    print(", ".join("%s %d" % pair for pair in count.items()))
    dearer = count.get("dearer by stations", 0) + count.get("impossible by stations alone", 0)
    if dearer < LEAST_DEARER_SHARE * len(records):
        faults.append("stations bind in only %d of %d families" % (dearer, len(records)))
    if count.get("not proven", 0) > MOST_UNPROVEN_SHARE * len(records):
        faults.append("%d of %d families are not proven" % (count["not proven"], len(records)))
    for text in faults:
        print("fault: " + text)
    print("%d families with stations judged, %d faults" % (len(records), len(faults)))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())

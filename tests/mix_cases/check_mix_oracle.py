#!/usr/bin/env python3
"""`backplate mix` on made instances against general solvers.

check_mix_oracle.py PROGRAM [--count N] [--seed S] [--self-test]

Every family is solved by GLPK too, every fifth by CBC as well (mix_program.py): status and cost
must be equal, the items of the best family are added again. See README.md. Exit 0: no fault, 1:
faults, 2: usage."""
import argparse
import collections
import copy
import json
import multiprocessing
import os
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True  # the source tree stays clean
import make_mixes  # noqa: E402
import mix_program  # noqa: E402

PROCESSES, BATCH = 2, 25
EVERY_CBC = 5
LEAST_SHAPE_SHARE = 1 / 3  # of the instances from the demo price book
LEAST_INFEASIBLE_SHARE = 1 / 10  # of the families
SIZES = (10, 30, 100, 300)


def components(family, need):
    """Sets of asked kinds linked by groups of the family."""
    sets = [{kind} for kind in need]
    for key in ("controllers", "modules"):
        for one in family[key]:
            for each in one["groups"]:
                linked = [some for some in sets if some & set(each["accepts"])]
                sets = [some for some in sets if some not in linked]
                if linked:
                    sets.append(set().union(*linked))
    return sets


def answers(program, folder, instances):
    """What the program says of the instances, one line each."""
    paths = [os.path.join(folder, made["name"] + ".json") for made in instances]
    for path, made in zip(paths, instances):
        with open(path, "w", encoding="utf-8") as file:
            json.dump(made, file)
    done = subprocess.run([program, "mix", "--timing", *paths], capture_output=True, text=True,
                          check=False)
    lines = done.stdout.splitlines()
    if done.returncode not in (0, 1) or len(lines) != len(instances):
        raise ValueError("status %d %s" % (done.returncode, done.stderr.strip()))
    return [json.loads(line) for line in lines]


def family_faults(program, answer, solver, folder):
    """The answer of one family against that of a solver."""
    name = solver.__name__
    status, cost, faults = mix_program.solved(program, solver, folder, answer["cost_cents"] or 0)
    faults = ["%s: %s" % (name, text) for text in faults]
    if (status, cost) != (answer["status"], answer["cost_cents"]):
        faults.append("%s %s, %s says %s %s" % (answer["status"], answer["cost_cents"], name,
                                                status, cost))
    return faults


def item_faults(program, best, folder):
    """The items of the best family: they are offered, keep every limit, serve every point and cost
    what is said; one-kind groups get their kinds from a solver, the sums are added in whole
    numbers."""
    places = {one["id"]: "x%d" % place for place, (_, one) in enumerate(program.items)}
    fixed = dict.fromkeys(places.values(), 0)
    for each in best["items"]:
        if each["id"] not in places:
            return ["%s is not offered" % each["id"]]
        fixed[places[each["id"]]] = each["count"]
    status, cost, faults = mix_program.solved(program, mix_program.by_glpk, folder,
                                              best["cost_cents"], fixed)
    if (status, cost) != ("optimal", best["cost_cents"]):
        faults.append("the items: %s %s, not %s" % (status, cost, best["cost_cents"]))
    return faults


def judge(made, answer, folder, with_cbc):
    """(faults, a record of each family)."""
    faults, records = [], []
    for family, told in zip(made["families"], answer["families"]):
        program = mix_program.Program(made, family)
        found = family_faults(program, told, mix_program.by_glpk, folder)
        if with_cbc:
            found += family_faults(program, told, mix_program.by_cbc, folder)
        best = answer["best"]
        if best and best["family"] == family["id"]:
            found += item_faults(program, best, folder)
        faults += ["%s %s: %s" % (made["name"], family["id"], text) for text in found]
        parts = components(family, program.need)
        records.append({"status": told["status"], "points": sum(program.need.values()),
                        "components": len(parts), "widest": max(map(len, parts), default=0)})
    costs = [told["cost_cents"] for told in answer["families"] if told["cost_cents"] is not None]
    if min(costs, default=None) != (answer["best"] and answer["best"]["cost_cents"]):
        faults.append("%s: the best family is not the cheapest" % made["name"])
    return faults, records


def batch(given):
    program, seeds = given
    result = []
    with tempfile.TemporaryDirectory() as folder:
        instances = [make_mixes.instance(seed) for seed in seeds]
        for made, answer in zip(instances, answers(program, folder, instances)):
            faults, records = judge(made, answer, folder, made["seed"] % EVERY_CBC == 0)
            result.append((faults, records, made["shape"], answer["seconds"], made["name"]))
    return result


def share_text(title, values):
    counted = collections.Counter(values)
    return "%s: %s" % (title, ", ".join("%s %d" % (key, counted[key]) for key in sorted(counted)))


def size_text(points):
    below = [size for size in SIZES if points > size]
    return "above %3d" % below[-1] if below else "up to %2d" % SIZES[0]


def distribution(results):
    """Prints what was judged; the faults are those of a lopsided choice."""
    records = [record for _, some, _, _, _ in results for record in some]
    print(share_text("instances by shape", (shape for _, _, shape, _, _ in results)))
    print(share_text("families by status", (record["status"] for record in records)))
    print(share_text("by channels asked", (size_text(record["points"]) for record in records)))
    print(share_text("by components", (record["components"] for record in records)))
    print(share_text("by kinds of the widest", (record["widest"] for record in records)))
    seconds = sorted((took, name) for _, _, _, took, name in results)
    print("seconds an instance: median %.4f, most %.3f (%s)" % (
        seconds[len(seconds) // 2][0], *seconds[-1]))
    faults = []
    infeasible = sum(record["status"] == "infeasible" for record in records)
    if infeasible < LEAST_INFEASIBLE_SHARE * len(records):
        faults.append("only %d of %d families have no answer" % (infeasible, len(records)))
    demo = sum(shape == "price book" for _, _, shape, _, _ in results)
    if demo < int(LEAST_SHAPE_SHARE * len(results)):
        faults.append("only %d of %d instances come from the price book" % (demo, len(results)))
    return faults


def self_test(program):
    """Planted wrong answers: cost, status, proof, items; each must be found by each solver."""
    instances = [make_mixes.instance(seed) for seed in range(1, 60)]
    missed = planted = 0
    with tempfile.TemporaryDirectory() as folder:
        for made, answer in zip(instances, answers(program, folder, instances)):
            for wrong in wrong_answers(answer):
                planted += 1
                missed += not judge(made, wrong, folder, False)[0]
    print("self-test: %d planted faults, %d missed" % (planted, missed))
    return missed or planted < len(instances)


def wrong_answers(answer):
    def plant(change):
        wrong = copy.deepcopy(answer)
        change(wrong)
        return wrong
    first, best = answer["families"][0], answer["best"]
    if first["cost_cents"] is None:
        yield plant(lambda a: a["families"][0].update(status="optimal", cost_cents=100000))
        return
    for change in (-1, 1):
        yield plant(lambda a: a["families"][0].update(cost_cents=first["cost_cents"] + change))
    yield plant(lambda a: a["families"][0].update(status="infeasible", cost_cents=None))
    yield plant(lambda a: a["families"][0].update(status="feasible"))
    for place, item in enumerate(best["items"]):
        for count in (item["count"] - 1, item["count"] + 1):
            yield plant(lambda a: a["best"]["items"][place].update(count=count))


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("--count", type=int, default=4000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--processes", type=int, default=PROCESSES)
    parser.add_argument("--self-test", action="store_true")
    given = parser.parse_args()
    if given.self_test:
        return 1 if self_test(given.program) else 0
    seeds = range(given.seed, given.seed + given.count)
    work = [(given.program, seeds[k:k + BATCH]) for k in range(0, len(seeds), BATCH)]
    with multiprocessing.Pool(given.processes) as pool:
        results = [each for some in pool.imap(batch, work) for each in some]
    faults = [text for some, _, _, _, _ in results for text in some] + distribution(results)
    for text in faults:
        print("fault: " + text)
    print("%d instances with %d families judged, %d faults" % (
        len(results), sum(len(some) for _, some, _, _, _ in results), len(faults)))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())

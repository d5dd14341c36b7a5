#!/usr/bin/env python3
"""Properties of `backplate mix` that need no other solver, on made instances.

check_mix_properties.py PROGRAM [--count N] [--seed S] [--self-test]

Another order of the catalogue changes no cost, doubled costs double it, one module type more is
never dearer, more points are never cheaper. Of the pairs of the last two at least a fifth must
differ in cost, so that equal answers prove something. See README.md. Exit 0: no fault, 1: faults,
2: usage."""
import argparse
import copy
import random
import sys
import tempfile

sys.dont_write_bytecode = True  # the source tree stays clean
import make_mixes  # noqa: E402
from check_mix_oracle import answers  # noqa: E402

BATCH = 50
LEAST_STRICT_SHARE = 0.2
NEVER = float("inf")  # the cost of a family without an answer


def permuted(made, _answer, rng):
    for family in made["families"]:
        for key in make_mixes.LISTS:
            rng.shuffle(family[key])
            for one in family[key]:
                rng.shuffle(one.get("groups", []))
    rng.shuffle(made["signal_types"])
    return made


def doubled(made, _answer, _rng):
    for family in made["families"]:
        for key in make_mixes.LISTS:
            for one in family[key]:
                one["cost_cents"] *= 2
    return made


def without_a_type(made, answer, rng):
    """One module type less, one that the best family uses where it uses any."""
    for family in made["families"]:
        used = {each["id"] for each in (answer["best"] or {"items": []})["items"]}
        taken = [one for one in family["modules"] if one["id"] in used] or family["modules"]
        if taken:
            family["modules"].remove(rng.choice(taken))
    return made


def more_points(made, _answer, rng):
    for row in made["demand"].values():
        if rng.random() < 0.5:
            row["count"] += rng.randint(1, 2 + row["count"] // 10)
            row["need"] = (row["count"] * (100 + row["spare_percent"]) + 99) // 100
    return made


def cost(family):
    return NEVER if family["cost_cents"] is None else family["cost_cents"]


# name, the change, what must hold for (cost before, cost after), may the costs differ
PROPERTIES = (
    ("another order", permuted, lambda before, after: after == before, False),
    ("doubled costs", doubled, lambda before, after: after == 2 * before, False),
    ("one module type less", without_a_type, lambda before, after: after >= before, True),
    ("more points", more_points, lambda before, after: after >= before, True),
)


def pairs_of(program, seeds, change):
    """Costs of every family before and after the change."""
    with tempfile.TemporaryDirectory() as folder:
        before = [make_mixes.instance(seed) for seed in seeds]
        told = answers(program, folder, before)
        after = [change(copy.deepcopy(made), answer, random.Random(made["seed"]))
                 for made, answer in zip(before, told)]
        for made, one, other in zip(before, told, answers(program, folder, after)):
            for first, second in zip(one["families"], other["families"]):
                yield made["name"] + " " + first["id"], cost(first), cost(second)


def judge(name, pairs, holds, may_differ):
    """Prints the share of pairs that differ; faults."""
    faults = ["%s, %s: %s, then %s" % (name, where, before, after)
              for where, before, after in pairs if not holds(before, after)]
    judged = [(before, after) for _, before, after in pairs if before != NEVER]
    differ = sum(before != after for before, after in judged)
    print("%s: %d pairs, %d with an answer before, %d of them differ" % (
        name, len(pairs), len(judged), differ))
    if may_differ and differ < LEAST_STRICT_SHARE * len(judged):
        faults.append("%s: too few pairs differ" % name)
    return faults


def self_test():
    """Every property finds a pair that breaks it."""
    planted = [("another order", 100, 101), ("another order", NEVER, 100),
               ("doubled costs", 100, 199), ("one module type less", 100, 99),
               ("one module type less", NEVER, 100), ("more points", 100, 99),
               ("more points", 100, 100)]  # the last: none differs
    missed = 0
    for wanted, before, after in planted:
        name, _, holds, may_differ = next(each for each in PROPERTIES if each[0] == wanted)
        missed += not judge(name, [("planted", before, after)], holds, may_differ)
    print("self-test: %d planted faults, %d missed" % (len(planted), missed))
    return missed


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("--count", type=int, default=300)
    parser.add_argument("--seed", type=int, default=50001)
    parser.add_argument("--self-test", action="store_true")
    given = parser.parse_args()
    if given.self_test:
        return 1 if self_test() else 0
    faults, judged = [], 0
    seeds = range(given.seed, given.seed + given.count)
    for name, change, holds, may_differ in PROPERTIES:
        pairs = [pair for k in range(0, len(seeds), BATCH)
                 for pair in pairs_of(given.program, seeds[k:k + BATCH], change)]
        judged += len(pairs)
        faults += judge(name, pairs, holds, may_differ)
    for text in faults:
        print("fault: " + text)
    print("%d pairs judged, %d faults" % (judged, len(faults)))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
